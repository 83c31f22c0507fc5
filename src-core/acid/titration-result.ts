import { err, ok, type Result } from '../base/result.ts';
import type { Acid } from '../quantities/understood.ts';
import { firstOutOfRange, type OutOfRange } from '../quantities/validity.ts';
import { titratableAcidity } from './titration.ts';

/** How well the parts of a home titration are known: expanded uncertainties (about 95 %). */
export interface TitrationErrors {
  /** mL of one drop at the end point. */
  readonly dropMl: number;
  /** mL of the pipette or syringe that takes the sample. */
  readonly sampleMl: number;
  /** Relative, of the sodium hydroxide's strength: 0.02–0.05 once opened. */
  readonly normalityRelative: number;
}

/** A home set: a drop of 0.05 mL, 0.1 mL in the pipette, 3 % in an opened base. Policy, after the parts of EURACHEM A3. */
export const HOME_TITRATION_ERRORS: TitrationErrors = {
  dropMl: 0.05,
  sampleMl: 0.1,
  normalityRelative: 0.03,
};

export interface TitrationResult {
  /** g/100 mL counted as the acid. */
  readonly acidity: number;
  readonly uncertainty: number;
  readonly meanBaseMl: number;
  /** The place in `baseMl` of a reading that stands apart by Dixon's test at 95 %, or null. It is not left out. */
  readonly outlier: number | null;
  /** True when the readings scatter more than a drop each way explains. */
  readonly scatters: boolean;
}

/**
 * Critical values of Dixon's r10 = gap/range at 95 %, two-sided, for 3 to 10 readings. Source: Rorabacher 1991, Anal. Chem.
 * 63:139, from memory.
 */
const DIXON_95: Readonly<Record<number, number>> = {
  3: 0.97,
  4: 0.829,
  5: 0.71,
  6: 0.625,
  7: 0.568,
  8: 0.526,
  9: 0.493,
  10: 0.466,
};

/** Student's t at 95 %, two-sided, by degrees of freedom 1–9. Source: standard table. */
const STUDENT_95 = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262];

/**
 * The acidity of a sample from one to ten titrations of it, with its expanded uncertainty: the parts in quadrature after
 * the GUM (u_rel² = Σ u_i²/x_i²; EURACHEM/CITAC examples A2, A3), and the scatter of the mean by Student's t when that is
 * larger than the drop. A blank's mL is taken off each reading and brings the error of its own drop. An outlier is pointed out,
 * never dropped. Readings and blank in mL (0–500), normality in mol/L, sample in mL; `OutOfRange` names the part outside.
 */
export function titrationResult(given: {
  readonly baseMl: readonly number[];
  readonly blankMl: number;
  readonly normality: number;
  readonly sampleMl: number;
  readonly acid: Acid;
  readonly errors: TitrationErrors;
}): Result<TitrationResult, OutOfRange> {
  const { baseMl, blankMl, normality, sampleMl, acid, errors } = given;
  const source = 'EURACHEM/CITAC QUAM';
  const outside = firstOutOfRange(
    [baseMl.length, { quantity: 'readings', low: 1, high: 10, unit: '', source }],
    ...baseMl.map((ml) => [ml, { quantity: 'baseMl', low: 0, high: 500, unit: 'mL', source }] as const),
    [blankMl, { quantity: 'blankMl', low: 0, high: Math.min(...baseMl), unit: 'mL', source }],
    [errors.dropMl, { quantity: 'dropMl', low: 0, high: 5, unit: 'mL', source }],
    [errors.sampleMl, { quantity: 'errors.sampleMl', low: 0, high: 50, unit: 'mL', source }],
    [errors.normalityRelative, { quantity: 'normalityRelative', low: 0, high: 1, unit: '1', source }],
  );
  if (outside) return err(outside);
  const mean = baseMl.reduce((sum, ml) => sum + ml, 0) / baseMl.length;
  const net = mean - blankMl;
  const acidity = titratableAcidity({ baseMl: net, normality, sampleMl, acid });
  if (!acidity.ok) return acidity;
  const scatter = scatterOfMean(baseMl, mean);
  // A blank was read to a drop as well.
  const blank = blankMl > 0 ? errors.dropMl : 0;
  const endPoint = Math.hypot(Math.max(errors.dropMl, scatter), blank);
  const ofEndPoint = titratableAcidity({ baseMl: endPoint, normality, sampleMl, acid });
  if (!ofEndPoint.ok) return ofEndPoint;
  const relative = Math.hypot(errors.sampleMl / sampleMl, errors.normalityRelative);
  return ok({
    acidity: acidity.value,
    uncertainty: Math.hypot(ofEndPoint.value, acidity.value * relative),
    meanBaseMl: mean,
    outlier: dixonOutlier(baseMl),
    scatters: scatter > 2 * errors.dropMl,
  });
}

function scatterOfMean(values: readonly number[], mean: number): number {
  const n = values.length;
  if (n < 2) return 0;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1);
  return (STUDENT_95[n - 2] ?? 2.262) * Math.sqrt(variance / n);
}

/** Dixon's Q: the gap of the furthest reading to its neighbour over the whole range. */
export function dixonOutlier(values: readonly number[]): number | null {
  const critical = DIXON_95[values.length];
  const sorted = values.toSorted((a, b) => a - b);
  const [first, second] = sorted;
  const [last, beforeLast] = [sorted.at(-1), sorted.at(-2)];
  if (critical === undefined || first === undefined || second === undefined) return null;
  if (last === undefined || beforeLast === undefined || last === first) return null;
  const [below, above] = [(second - first) / (last - first), (last - beforeLast) / (last - first)];
  if (Math.max(below, above) <= critical) return null;
  return values.indexOf(below > above ? first : last);
}
