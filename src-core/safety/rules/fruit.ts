import { firstUnknown, forProducts } from '../ask.ts';
import { highOf, intervalOfGauged, lowOf } from '../interval.ts';
import {
  cautionBecause,
  defineRule,
  doNotBecause,
  okBecause,
  unknownBecause,
  type Answer,
  type Rule,
  type RuleContext,
} from '../rule.ts';

/** °C that kills in juice, throughout; and below which it is not called heated. Sources: S53, S54 (160 °F). */
const JUICE_HEAT = { enough: 71, low: 68 };
/** Who must be warned of juice that was not heated. Source: S55, 21 CFR 101.17(g). */
const WARNED: ReadonlySet<string> = new Set(['infant', 'child', 'pregnant', 'elder', 'weakImmunity']);

const FRUIT_DRINKS = forProducts('juice', 'wine', 'cider');

/** Rules CID-01 to CID-04: fruit for pressing and its juice. */
export const FRUIT_RULES: readonly Rule[] = [
  defineRule({
    id: 'CID-01',
    uses: ['pressFruit', 'drink', 'giveAway'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S49', 'S50', 'S51'],
    evidence: ['seen'],
    applies: (context) => (context.use === 'pressFruit' ? 'yes' : FRUIT_DRINKS(context)),
    check: ({ facts }) => {
      const sorting = facts.fruit?.sorting ?? null;
      if (sorting === null) return unknownBecause('missing', 'fruit.sorting');
      if (sorting === 'sound') return okBecause({});
      // Fermentation is not credited with mending mould’s poison.
      return sorting === 'bruisedTrimmed' ? cautionBecause('condition') : doNotBecause('category');
    },
  }),
  defineRule({
    id: 'CID-02',
    uses: ['pressFruit', 'drink', 'giveAway'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S52', 'S53', 'S54'],
    evidence: ['seen'],
    applies: (context) => (context.use === 'pressFruit' ? 'yes' : forProducts('juice')(context)),
    check: windfalls,
  }),
  defineRule({
    id: 'CID-03',
    uses: ['giveAway'],
    reasons: ['met', 'missing', 'print_on_label', 'category'],
    sourceIds: ['S55'],
    evidence: ['seen'],
    printsOnLabel: true,
    applies: forProducts('juice'),
    check: ({ facts }) => {
      if (facts.heated === true) return okBecause({});
      const recipient = facts.recipient ?? null;
      if (recipient === null) return unknownBecause('missing', 'recipient');
      return WARNED.has(recipient)
        ? doNotBecause('category', { recipient })
        : cautionBecause('print_on_label', { recipient });
    },
  }),
  defineRule({
    id: 'CID-04',
    uses: ['drink', 'giveAway'],
    reasons: ['met', 'missing', 'condition', 'straddles', 'wrong_side'],
    sourceIds: ['S53', 'S54'],
    evidence: ['seen'],
    applies: (context) => (context.facts.heated === true ? forProducts('juice')(context) : 'no'),
    check: heatedJuice,
  }),
];

/**
 * Fruit off the ground, or off grazed ground. In the press what is meant to become of the juice counts; of juice in the glass only
 * whether it was heated: what was meant has not happened yet.
 */
function windfalls({ use, facts }: RuleContext): Answer {
  const { fruit } = facts;
  const pressed = fruit?.intended ?? (facts.heated === true ? 'heatedJuice' : null);
  const drunk = facts.heated === true ? 'heatedJuice' : 'rawJuice';
  const intended = use === 'pressFruit' ? pressed : drunk;
  const pickedFrom = fruit?.pickedFrom ?? null;
  const grazed = fruit?.grazedOrchard ?? null;
  if (intended === 'heatedJuice') return okBecause({});
  const offTheGround = pickedFrom === 'ground' || grazed === true;
  if (intended === 'rawJuice' && offTheGround) return doNotBecause('category', { pickedFrom });
  const unknown = firstUnknown({
    'fruit.intended': intended,
    'fruit.pickedFrom': pickedFrom,
    'fruit.washed': fruit?.washed,
  });
  if (unknown !== null) return unknownBecause('missing', unknown);
  if (intended === 'rawJuice') {
    if (grazed === null) return unknownBecause('missing', 'fruit.grazedOrchard');
    return fruit?.washed ? okBecause({}) : cautionBecause('condition');
  }
  return offTheGround || !fruit?.washed ? cautionBecause('condition', { pickedFrom }) : okBecause({});
}

function heatedJuice({ facts }: RuleContext): Answer {
  const { heating } = facts;
  const reached = intervalOfGauged(heating?.reachedCelsius, 'temperature');
  if (reached === null) {
    return heating?.simmered === true ? okBecause({}) : unknownBecause('missing', 'heating.reachedCelsius');
  }
  const numbers = { value: reached.value, uncertainty: reached.uncertainty, limit: JUICE_HEAT.enough };
  if (lowOf(reached) >= JUICE_HEAT.enough) return okBecause(numbers);
  if (highOf(reached) < JUICE_HEAT.low) return doNotBecause('wrong_side', numbers);
  return lowOf(reached) >= JUICE_HEAT.low
    ? cautionBecause('condition', numbers)
    : unknownBecause('straddles', 'heating.reachedCelsius', numbers);
}
