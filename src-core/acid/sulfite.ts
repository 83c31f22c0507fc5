import { err, ok, type Result } from '../base/result.ts';
import { MOLAR_MASS } from '../must/stoichiometry.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';

const SOURCE = 'Henderson–Hasselbalch, pK1 1.81 at 20 °C';
const FREE: Limits = { quantity: 'freeMgPerLitre', low: 0, high: 500, unit: 'mg/L', source: SOURCE };
const PH: Limits = { quantity: 'pH', low: 2, high: 5, unit: 'pH', source: SOURCE };
const PK1: Limits = { quantity: 'pK1', low: 1.5, high: 2.5, unit: '1', source: SOURCE };

/**
 * First pK of sulfurous acid at 20 °C, as wine practice has it. Laboratories also use 1.77, which gives 9 % less molecular
 * SO2; alcohol and warmth move it too.
 */
export const SULFITE_PK1 = 1.81;

/** Molecular SO2 in mg/L: free/(1 + 10^(pH − pK1)). Free 0–500 mg/L, pH 2–5. */
export function molecularSulfite(given: {
  readonly freeMgPerLitre: number;
  readonly pH: number;
  readonly pK1?: number;
}): Result<number, OutOfRange> {
  const pK1 = given.pK1 ?? SULFITE_PK1;
  const outside = firstOutOfRange([given.freeMgPerLitre, FREE], [given.pH, PH], [pK1, PK1]);
  return outside ? err(outside) : ok(given.freeMgPerLitre / (1 + 10 ** (given.pH - pK1)));
}

/** Free SO2 in mg/L that gives so much molecular SO2 (0–5 mg/L): the inverse of the above. */
export function freeSulfiteFor(given: {
  readonly molecularMgPerLitre: number;
  readonly pH: number;
  readonly pK1?: number;
}): Result<number, OutOfRange> {
  const pK1 = given.pK1 ?? SULFITE_PK1;
  const molecular: Limits = { ...FREE, quantity: 'molecularMgPerLitre', high: 5 };
  const outside = firstOutOfRange([given.molecularMgPerLitre, molecular], [given.pH, PH], [pK1, PK1]);
  return outside ? err(outside) : ok(given.molecularMgPerLitre * (1 + 10 ** (given.pH - pK1)));
}

/** Grams of SO2 in a gram of potassium metabisulfite: 0.576. Source: molar masses. */
export const SULFITE_IN_METABISULFITE = (2 * MOLAR_MASS.sulfurDioxide) / MOLAR_MASS.potassiumMetabisulfite;

/** What practice counts on from a powder that has stood open. Common practice. */
export const SULFITE_IN_METABISULFITE_PLAN = 0.5;

/** Grams of potassium metabisulfite that add so much total SO2 to a volume: theory, and the plan for an older powder. */
export function metabisulfiteGrams(given: {
  readonly addMgPerLitre: number;
  readonly volumeLitres: number;
}): Result<{ readonly theory: number; readonly plan: number }, OutOfRange> {
  const outside = firstOutOfRange(
    [given.addMgPerLitre, { ...FREE, quantity: 'addMgPerLitre' }],
    [given.volumeLitres, { quantity: 'volumeLitres', low: 0, high: 100_000, unit: 'L', source: SOURCE }],
  );
  if (outside) return err(outside);
  const sulfiteGrams = (given.addMgPerLitre * given.volumeLitres) / 1000;
  return ok({
    theory: sulfiteGrams / SULFITE_IN_METABISULFITE,
    plan: sulfiteGrams / SULFITE_IN_METABISULFITE_PLAN,
  });
}

/**
 * Molecular SO2 in mg/L at which acetic bacteria have been seen to stop, by strain: 0.05–0.6. Source: Du Toit, Pretorius
 * and Lonvaud-Funel 2005, from memory. And free SO2 that is advised to keep them out of wine: 20 mg/L, from a wine
 * industry training page.
 */
export const ACETIC_BACTERIA_STOP = { lowMolecular: 0.05, highMolecular: 0.6, protectiveFree: 20 } as const;

export type SulfiteConflict = 'none' | 'mayHinder' | 'stops';

/**
 * Whether the sulfite in a base stands in the way of making vinegar of it: `stops` from 0.6 mg/L molecular, `mayHinder`
 * from 0.05 mg/L or from 20 mg/L free, otherwise `none`.
 */
export function sulfiteAgainstVinegar(given: {
  readonly freeMgPerLitre: number;
  readonly pH: number;
}): Result<{ readonly molecularMgPerLitre: number; readonly conflict: SulfiteConflict }, OutOfRange> {
  const molecular = molecularSulfite(given);
  if (!molecular.ok) return molecular;
  const { lowMolecular, highMolecular, protectiveFree } = ACETIC_BACTERIA_STOP;
  const conflict =
    molecular.value >= highMolecular
      ? 'stops'
      : molecular.value >= lowMolecular || given.freeMgPerLitre >= protectiveFree
        ? 'mayHinder'
        : 'none';
  return ok({ molecularMgPerLitre: molecular.value, conflict });
}
