import { firstUnknown } from '../ask.ts';
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

const LITRES_PER_US_GALLON = 3.785411784;
/** US gallons a year for one adult and for a household of more. Source: 27 CFR 24.75 and 25.205, from memory; S63. */
const US_GALLONS = { one: 100, household: 200 };

/** Rules LAW-01 and LAW-02: making alcohol at home, and giving or selling. */
export const HOUSE_LAW_RULES: readonly Rule[] = [
  defineRule({
    id: 'LAW-01',
    uses: ['makeAlcohol'],
    reasons: ['met', 'missing', 'condition', 'category', 'wrong_side'],
    sourceIds: ['S62', 'S63', 'CFR24'],
    evidence: ['seen', 'memory'],
    check: homeAlcohol,
  }),
  defineRule({
    id: 'LAW-02',
    kind: 'labelling',
    uses: ['giveAway'],
    reasons: ['met', 'missing', 'condition', 'category', 'jurisdiction_unset'],
    sourceIds: ['S42', 'S41'],
    evidence: ['seen'],
    check: ({ facts }) => {
      if (facts.jurisdiction === null) return unknownBecause('jurisdiction_unset', 'jurisdiction');
      const unknown = firstUnknown({ labelAudience: facts.labelAudience });
      if (unknown !== null) return unknownBecause('missing', unknown);
      if (facts.labelAudience === 'sale') {
        return facts.localLawChecked === true ? cautionBecause('condition') : doNotBecause('category');
      }
      return facts.labelComplete === true ? okBecause({}) : cautionBecause('condition');
    },
  }),
];

function homeAlcohol({ facts }: RuleContext): Answer {
  const { ofAge, adultsInHousehold, litresThisYear } = facts.homeAlcohol ?? {};
  if (ofAge === false) return doNotBecause('category');
  // A drinking age there is everywhere: whoever makes it is old enough, whatever the place.
  if ((ofAge ?? null) === null) return unknownBecause('missing', 'homeAlcohol.ofAge');
  if (facts.jurisdiction === null) return cautionBecause('condition');
  const unknown = firstUnknown({
    'homeAlcohol.ofAge': ofAge,
    'homeAlcohol.adultsInHousehold': adultsInHousehold,
    'homeAlcohol.litresThisYear': litresThisYear,
  });
  // Outside the US no rule is known here, so the keeper is only told to ask.
  if (facts.jurisdiction !== 'us') return cautionBecause('condition');
  if (unknown !== null) return unknownBecause('missing', unknown);
  const gallons = (adultsInHousehold ?? 1) > 1 ? US_GALLONS.household : US_GALLONS.one;
  const limit = gallons * LITRES_PER_US_GALLON;
  const numbers = { litres: litresThisYear ?? null, limit };
  return (litresThisYear ?? Infinity) <= limit ? okBecause(numbers) : doNotBecause('wrong_side', numbers);
}
