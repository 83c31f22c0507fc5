import { firstUnknown, forProducts, hoursSince } from '../ask.ts';
import { lowOf } from '../interval.ts';
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
import { wasWatered } from './vinegar.ts';

/** Strength of the base, per cent. Source: CSU Extension 9.340 (S19). */
const STRONG_BASE = 5;
const WEAK_BASE = 4;
/**
 * Days that a strained herb vinegar keeps in the refrigerator, and on a cool shelf. Same source: 6–8 and 3 months; between six
 * and eight it is a caution.
 */
const COLD_DAYS = { well: 6 * 30, most: 8 * 30 };
const COOL_DAYS = 3 * 30;
/** Days that fresh garlic or herbs in oil keep in the refrigerator. Source: S22, S23; the strictest with a source. */
const OIL_DAYS = 4;

/** Rules INF-01 and INF-02: herbs, fruit and garlic in vinegar and in oil. */
export const INFUSION_RULES: readonly Rule[] = [
  defineRule({
    id: 'INF-01',
    uses: ['dressSalad', 'keep'],
    needs: ['acidity'],
    reasons: ['met', 'condition', 'category', 'missing', 'wrong_side', 'deadline'],
    sourceIds: ['S19', 'S20', 'S21'],
    evidence: ['seen'],
    applies: forProducts('infusedVinegar'),
    check: infusedVinegar,
  }),
  defineRule({
    id: 'INF-02',
    uses: ['dressSalad', 'keep', 'eat'],
    reasons: ['met', 'condition', 'category', 'missing', 'deadline'],
    sourceIds: ['S22', 'S23'],
    evidence: ['seen'],
    applies: forProducts('infusedOil'),
    check: infusedOil,
  }),
];

/** The strength that is shown, of a bought base not cut with water its label, else the low end of a measurement; or why none is. */
function baseStrength({ facts, inspect }: RuleContext): number | Answer {
  const { origin, addedWater, boughtLabelPercent: label } = facts;
  const asSold = origin === 'bought' && addedWater === false && !wasWatered(facts);
  if (asSold && label !== null && label >= 0 && label <= 100) return label;
  const { usable, measurement, worst } = inspect('acidity');
  if (usable === null) return unknownBecause(worst.reason, 'acidity', worst.numbers);
  return measurement?.provenance === 'calculated' ? unknownBecause('missing', 'acidity') : lowOf(usable);
}

function infusedVinegar(context: RuleContext): Answer {
  const { facts } = context;
  const { infusion } = facts;
  const strength = baseStrength(context);
  if (typeof strength !== 'number') return strength;
  const place = facts.storage?.place ?? null;
  const days = daysSince(infusion?.madeAtMs, facts.nowMs);
  const numbers = { strength, limit: STRONG_BASE, days };
  const leftIn = infusion?.garlicOrVegetableLeftIn ?? null;
  if (leftIn === true && place !== 'refrigerator' && strength < WEAK_BASE)
    return doNotBecause('category', numbers);
  if (strength < WEAK_BASE) return doNotBecause('wrong_side', numbers);
  const unknown = firstUnknown({
    'infusion.herbsSanitised': infusion?.herbsSanitised,
    'infusion.vinegarHeated': infusion?.vinegarHeated,
    'infusion.strained': infusion?.strained,
    'infusion.garlicOrVegetableLeftIn': leftIn,
    'infusion.madeAtMs': days,
    'storage.place': place,
  });
  if (unknown !== null) return unknownBecause('missing', unknown, numbers);
  const clean = infusion?.herbsSanitised && infusion.vinegarHeated && infusion.strained && leftIn === false;
  if (place !== 'refrigerator') {
    const keeps = place === 'coolCellar' && clean === true && strength >= STRONG_BASE;
    if (!keeps) return doNotBecause('category', numbers);
    return (days ?? 0) <= COOL_DAYS ? okBecause(numbers) : doNotBecause('deadline', numbers);
  }
  if ((days ?? 0) > COLD_DAYS.most) return doNotBecause('deadline', numbers);
  return clean === true && strength >= STRONG_BASE && (days ?? 0) <= COLD_DAYS.well
    ? okBecause(numbers)
    : cautionBecause('condition', numbers);
}

/** Days since a moment, with their fraction: how old a thing is, not the number of its day. */
function daysSince(from: number | null | undefined, nowMs: number): number | null {
  const hours = hoursSince(from, nowMs);
  return hours === null ? null : hours / 24;
}

/** Oil shuts out air: nothing warm, nothing old, and vinegar is no tested acidifier. */
function infusedOil({ facts }: RuleContext): Answer {
  const acidified = facts.infusedOil?.acidified ?? null;
  const place = facts.storage?.place ?? null;
  const days = daysSince(facts.infusedOil?.madeAtMs, facts.nowMs);
  if (acidified === 'vinegar') return doNotBecause('category');
  if (place === 'warmShelf' || place === 'coolCellar') {
    return acidified === 'testedCitric' ? okBecause({}) : doNotBecause('category');
  }
  const unknown = firstUnknown({
    'infusedOil.acidified': acidified,
    'storage.place': place,
    'infusedOil.madeAtMs': days,
  });
  if (unknown !== null || days === null) return unknownBecause('missing', unknown ?? 'infusedOil.madeAtMs');
  if (acidified === 'testedCitric') return okBecause({ days });
  if (place === 'freezer') return cautionBecause('condition', { days });
  // Four times 24 hours and not a minute more: the fifth day is not "four days" here.
  return days <= OIL_DAYS
    ? cautionBecause('condition', { days, limit: OIL_DAYS })
    : doNotBecause('deadline', { days });
}
