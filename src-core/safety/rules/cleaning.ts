import { byFact, firstUnknown } from '../ask.ts';
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

/** mol/L of sodium hydroxide in a kit, and above which it is not handled at home. Sources: S32, S88. */
export const BASE_NORMALITY = { kit: 0.2, most: 1 };

/** Rules CLN-01 to CLN-04: bleach, sulfite, caustic and what they leave behind. */
export const CLEANING_RULES: readonly Rule[] = [
  defineRule({
    id: 'CLN-01',
    uses: ['clean'],
    reasons: ['met', 'missing', 'category'],
    sourceIds: ['S86', 'S87'],
    evidence: ['seen (secondary)'],
    mayBeOverruled: false,
    check: ({ facts }) => {
      const { bleach, acidOrSulfite, rinsedBetween } = facts.cleaning ?? {};
      if (bleach === false) return okBecause({});
      if (bleach === true && acidOrSulfite === true && rinsedBetween !== true)
        return doNotBecause('category');
      const unknown = firstUnknown({
        'cleaning.bleach': bleach,
        'cleaning.acidOrSulfite': acidOrSulfite,
      });
      return unknown === null ? okBecause({}) : unknownBecause('missing', unknown);
    },
  }),
  defineRule({
    id: 'CLN-02',
    uses: ['clean'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S59'],
    evidence: ['seen'],
    check: sulfiteWithAcid,
  }),
  defineRule({
    id: 'CLN-03',
    uses: ['titrate', 'clean'],
    reasons: ['met', 'missing', 'condition', 'category'],
    sourceIds: ['S32', 'S88'],
    evidence: ['seen', 'seen (secondary)'],
    applies: ({ use, facts }) => (use === 'titrate' || facts.baseHandling ? 'yes' : 'no'),
    check: sodiumHydroxide,
  }),
  defineRule({
    id: 'CLN-04',
    uses: ['clean', 'useVessel'],
    reasons: ['met', 'missing', 'category'],
    sourceIds: ['COMMON'],
    evidence: ['common practice'],
    check: ({ facts }) => {
      const rinsed = facts.cleaning?.lastCleanerRinsed ?? null;
      if (rinsed === null) return unknownBecause('missing', 'cleaning.lastCleanerRinsed');
      return rinsed ? okBecause({}) : doNotBecause('category');
    },
  }),
];

function sulfiteWithAcid({ facts }: RuleContext): Answer {
  const { sulfiteWithAcid: used, place, asthmaPresent } = facts.cleaning ?? {};
  if (used === false) return okBecause({});
  if (used === true && (asthmaPresent === true || place === 'closedRoom')) return doNotBecause('category');
  const unknown = firstUnknown({
    'cleaning.sulfiteWithAcid': used,
    'cleaning.asthmaPresent': asthmaPresent,
  });
  if (unknown !== null) return unknownBecause('missing', unknown);
  return byFact('cleaning.place', place, {
    outdoors: okBecause({}),
    windowOpen: cautionBecause('condition'),
    closedRoom: doNotBecause('category'),
  });
}

function sodiumHydroxide({ facts }: RuleContext): Answer {
  const { normality, goggles, gloves, labelledAndLocked, byMouth } = facts.baseHandling ?? {};
  if (byMouth === true || labelledAndLocked === false) return doNotBecause('category');
  if (typeof normality === 'number' && normality > BASE_NORMALITY.most)
    return doNotBecause('category', { normality });
  const unknown = firstUnknown({
    'baseHandling.normality': normality,
    'baseHandling.goggles': goggles,
    'baseHandling.gloves': gloves,
    'baseHandling.labelledAndLocked': labelledAndLocked,
    'baseHandling.byMouth': byMouth,
  });
  if (unknown !== null) return unknownBecause('missing', unknown);
  // It burns eyes: without goggles it is not handled at all.
  if (!goggles) return doNotBecause('category', { normality: normality ?? null });
  const kit = (normality ?? Infinity) <= BASE_NORMALITY.kit;
  return kit && gloves
    ? okBecause({ normality: normality ?? null })
    : cautionBecause('condition', { normality: normality ?? null });
}
