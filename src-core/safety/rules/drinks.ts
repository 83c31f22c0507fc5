import { firstUnknown, forProducts, numbersOf } from '../ask.ts';
import { highOf } from '../interval.ts';
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

/** mg/L of SO2 from which it is declared. Sources: S56, TTB 27 CFR 4.32(e); EU "more than 10", the stricter is used. */
export const DECLARED_SULFITE = 10;

const DRINKS = forProducts('wine', 'cider', 'mead');

/** Rules WIN-01 to WIN-04 and HON-01: sulfite, methanol, concentrating, and honey. */
export const DRINK_RULES: readonly Rule[] = [
  defineRule({
    id: 'WIN-01',
    kind: 'labelling',
    uses: ['giveAway'],
    needs: ['sulfite'],
    reasons: ['met', 'print_on_label', 'category'],
    sourceIds: ['S56'],
    evidence: ['seen'],
    printsOnLabel: true,
    applies: DRINKS,
    check: sulfiteOnTheLabel,
  }),
  defineRule({
    id: 'WIN-02',
    uses: ['handleSulfite'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S59'],
    evidence: ['seen'],
    check: ({ facts }) => {
      const { asthmaPresent, intoHotOrStrongAcid, ventilated, gloves } = facts.sulfiteHandling ?? {};
      if (asthmaPresent === true || intoHotOrStrongAcid === true) return doNotBecause('category');
      const unknown = firstUnknown({
        'sulfiteHandling.asthmaPresent': asthmaPresent,
        'sulfiteHandling.intoHotOrStrongAcid': intoHotOrStrongAcid,
        'sulfiteHandling.ventilated': ventilated,
        'sulfiteHandling.gloves': gloves,
      });
      if (unknown !== null) return unknownBecause('missing', unknown);
      return ventilated && gloves ? okBecause({}) : cautionBecause('condition');
    },
  }),
  defineRule({
    id: 'WIN-03',
    uses: ['drink', 'giveAway'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S60', 'S61'],
    evidence: ['seen'],
    applies: DRINKS,
    check: ({ facts }) => {
      if (wasConcentrated(facts.concentrated, facts.compositionEvents)) return doNotBecause('category');
      if ((facts.concentrated ?? null) === null) return unknownBecause('missing', 'concentrated');
      return facts.pecticEnzymeWithPomace === false ? okBecause({}) : cautionBecause('condition');
    },
  }),
  defineRule({
    id: 'WIN-04',
    uses: ['concentrateAlcohol'],
    reasons: ['category'],
    sourceIds: ['S62', 'S63', 'S64'],
    evidence: ['seen'],
    mayBeOverruled: false,
    check: () => doNotBecause('category'),
  }),
  defineRule({
    id: 'HON-01',
    uses: ['drink', 'eat', 'dressSalad', 'giveAway'],
    reasons: ['met', 'missing', 'print_on_label', 'category'],
    sourceIds: ['S65', 'CDCHONEY'],
    evidence: ['seen', 'memory'],
    mayBeOverruled: false,
    printsOnLabel: true,
    appliesBy: 'containsHoney',
    applies: ({ facts }) => {
      if (holdsHoney(facts.product, facts.containsHoney, facts.compositionEvents)) return 'yes';
      // Whether there is honey in it only matters where an infant might be given it.
      return (facts.containsHoney ?? null) === null && facts.recipient === 'infant' ? 'unknown' : 'no';
    },
    check: ({ facts }) => {
      const recipient = facts.recipient ?? null;
      if (recipient === 'infant') {
        return holdsHoney(facts.product, facts.containsHoney, facts.compositionEvents)
          ? doNotBecause('category', { recipient })
          : unknownBecause('missing', 'containsHoney', { recipient });
      }
      return recipient === null ? cautionBecause('print_on_label') : okBecause({ recipient });
    },
  }),
];

type Events = RuleContext['facts']['compositionEvents'];

function wasConcentrated(said: boolean | null | undefined, events: Events): boolean {
  return said === true || events.some(({ kind }) => kind === 'concentrate');
}

function holdsHoney(
  product: RuleContext['facts']['product'],
  said: boolean | null | undefined,
  events: Events,
): boolean {
  return product === 'mead' || said === true || events.some(({ kind }) => kind === 'addHoney');
}

/** Only a measurement clear of 10 mg/L, with none added, leaves the statement off. */
function sulfiteOnTheLabel({ facts, inspect }: RuleContext): Answer {
  const { usable, measurement } = inspect('sulfite');
  const added =
    (facts.sulfiteAdded ?? true) || facts.compositionEvents.some(({ kind }) => kind === 'sulfite');
  if (usable === null || measurement?.provenance === 'calculated') {
    return facts.calledSulfiteFree === true ? doNotBecause('category') : cautionBecause('print_on_label');
  }
  const numbers = { ...numbersOf(usable), limit: DECLARED_SULFITE, unit: 'mg/L' };
  const below = highOf(usable) < DECLARED_SULFITE;
  if (below && !added) return okBecause(numbers);
  return facts.calledSulfiteFree === true
    ? doNotBecause('category', numbers)
    : cautionBecause('print_on_label', numbers);
}
