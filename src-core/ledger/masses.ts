import { z } from 'zod';
import { largestRemainder, muldiv } from './allocate.ts';

/**
 * What the book weighs. `sugar` is counted as hexose; `fixedAcid` is malic, tartaric and citric together; `other` is
 * all that is dissolved or suspended besides (minerals, fibre, glycerol, yeast). `unassayed` is liquid of which nobody
 * has measured what it is made of: it is never guessed apart.
 */
export const COMPONENTS = [
  ...(['water', 'sugar', 'ethanol', 'acetic', 'lactic', 'fixedAcid', 'salt'] as const),
  ...(['carbonDioxide', 'oxygen', 'other', 'unassayed'] as const),
] as const;
export type Component = (typeof COMPONENTS)[number];

/** Largest mass of one component in one account, µg: 9,000 t, below 2^53. */
export const MASS_MAX_UG = 9e15;

/**
 * Most that a vessel holds of all components together, µg: 1,000 t, more than any liquid weighs in the largest vessel
 * (100,000 L). Below it every reckoning over masses, sums of several vessels too, stays within whole numbers that are exact.
 */
export const HELD_MAX_UG = 1e15;

/** What a liquid holds, µg by component. A component that is not named is not there; none is negative. */
export const Masses = z.partialRecord(z.enum(COMPONENTS), z.int().min(0).max(MASS_MAX_UG));
export type Masses = Readonly<Partial<Record<Component, number>>>;

/** Changes of an account, µg by component, of either sign. */
export const MassDeltas = z.partialRecord(z.enum(COMPONENTS), z.int().min(-MASS_MAX_UG).max(MASS_MAX_UG));
export type MassDeltas = Masses;

/** The same masses with their components in order and none that is zero, so that equal contents are equal records. */
export function tidyMasses(masses: MassDeltas): MassDeltas {
  const kept: Partial<Record<Component, number>> = {};
  for (const component of COMPONENTS) {
    const ug = masses[component] ?? 0;
    if (ug !== 0) kept[component] = ug;
  }
  return kept;
}

export function addMasses(a: MassDeltas, b: MassDeltas): MassDeltas {
  const sum: Partial<Record<Component, number>> = {};
  for (const component of COMPONENTS) sum[component] = (a[component] ?? 0) + (b[component] ?? 0);
  return tidyMasses(sum);
}

export function negateMasses(masses: MassDeltas): MassDeltas {
  const negated: Partial<Record<Component, number>> = {};
  for (const component of COMPONENTS) negated[component] = 0 - (masses[component] ?? 0);
  return tidyMasses(negated);
}

/** Of all components together, µg. */
export function totalUg(masses: MassDeltas): number {
  return COMPONENTS.reduce((sum, component) => sum + (masses[component] ?? 0), 0);
}

/** Each mass times a over b, rounded half to even. */
export function scaleMasses(masses: Masses, a: number, b: number): Masses {
  const scaled: Partial<Record<Component, number>> = {};
  for (const component of COMPONENTS) scaled[component] = muldiv(masses[component] ?? 0, a, b);
  return tidyMasses(scaled);
}

/** Parts masses by integer weights; the parts of each component sum to what it was, to the microgram. */
export function partMasses(masses: Masses, weights: readonly number[]): Masses[] {
  const parts: Partial<Record<Component, number>>[] = weights.map(() => ({}));
  for (const component of COMPONENTS) {
    const ug = masses[component] ?? 0;
    if (ug === 0) continue;
    largestRemainder(ug, weights).forEach((share, index) => {
      const part = parts[index];
      if (part !== undefined && share > 0) part[component] = share;
    });
  }
  return parts;
}

/** Water at 20 °C weighs 998.203 µg a microlitre. Source: ITS-90 water density, as in `quantities/water-density`. */
const WATER_UG_PER_ML = 998_203;

export function waterUg(volumeUl: number): number {
  return muldiv(volumeUl, WATER_UG_PER_ML, 1000);
}

/** Liquid never measured, counted at the weight of water until it is assayed. */
export function unassayed(volumeUl: number): Masses {
  return tidyMasses({ unassayed: waterUg(volumeUl) });
}
