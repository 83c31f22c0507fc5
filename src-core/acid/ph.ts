import { err, ok, type Result } from '../base/result.ts';
import { invertMonotone } from '../quantities/polynomial.ts';
import type { Acid } from '../quantities/understood.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';

/**
 * pKa values at 25 °C of the acids of fruit and ferments, first dissociation first. Source: CRC Handbook of Chemistry and
 * Physics.
 */
export const PKA: Readonly<Record<Exclude<Acid, 'sulfuric'>, readonly number[]>> = {
  acetic: [4.756],
  lactic: [3.86],
  malic: [3.4, 5.11],
  tartaric: [2.98, 4.34],
  citric: [3.13, 4.76, 6.4],
};

/** pKw at 25 °C. Source: CRC Handbook. */
export const PKW = 13.995;

/**
 * pH that a material usually has: a hint when a number looks odd, never a limit. Source: US FDA/CFSAN Approximate pH of
 * Foods (2003); kombucha from retail food guidance after Nummer 2013.
 */
export const TYPICAL_PH = {
  vinegar: { low: 2.4, high: 3.4 },
  ciderVinegar: { low: 3.1, high: 3.3 },
  appleJuice: { low: 3.35, high: 4 },
  finishedKombucha: { low: 2.5, high: 4.2 },
} as const;

/** A weak acid in solution. */
export interface WeakAcid {
  /** mol/L of all its forms together, 0–5. */
  readonly molesPerLitre: number;
  /** Its pKa values, first dissociation first. */
  readonly pKa: readonly number[];
}

export interface Solution {
  readonly acids: readonly WeakAcid[];
  /** mol/L of strong base less strong acid: the sodium of NaOH, the potassium of a juice. −1 to 5. */
  readonly strongBaseMolesPerLitre: number;
  readonly pKw?: number;
  /** Ionic strength in mol/L from salt, 0–0.5. Leave out for none: for acetic acid alone the effect is below 0.001 pH. */
  readonly ionicStrength?: number;
}

const SOURCE = 'charge balance; CRC Handbook pKa at 25 °C';
const CONCENTRATION: Limits = { quantity: 'molesPerLitre', low: 0, high: 5, unit: 'mol/L', source: SOURCE };
const BASE: Limits = { ...CONCENTRATION, quantity: 'strongBaseMolesPerLitre', low: -1 };
const CONSTANT: Limits = { quantity: 'pKa', low: -2, high: 16, unit: '1', source: SOURCE };
const STRENGTH: Limits = {
  quantity: 'ionicStrength',
  low: 0,
  high: 0.5,
  unit: 'mol/L',
  source: 'Davies equation',
};

/**
 * pH of weak acids with strong base, by the exact balance of charge h + B = Kw/h + Σ C α(h), solved on the logarithm of h
 * so that the root near 1e-12 beyond an end point is as exact as one near 1e-3. In salted brines the Davies equation
 * (ionic strength to 0.5 mol/L) shifts the constants. Never read strength from pH: 1 % acid is pH 2.77, 5 % pH 2.42, and
 * fruit buffers move it by more. Source: charge balance with CRC pKa; for acetic acid it agrees with a textbook titration
 * curve to 0.01.
 */
export function solutionPh(solution: Solution): Result<number, OutOfRange> {
  const pKw = solution.pKw ?? PKW;
  const ionicStrength = solution.ionicStrength ?? 0;
  const outside = firstOutOfRange(
    [solution.strongBaseMolesPerLitre, BASE],
    [pKw, { ...CONSTANT, quantity: 'pKw', low: 12, high: 16 }],
    [ionicStrength, STRENGTH],
    ...solution.acids.flatMap(({ molesPerLitre, pKa }) => [
      [molesPerLitre, CONCENTRATION] as const,
      ...pKa.map((value) => [value, CONSTANT] as const),
    ]),
  );
  if (outside) return err(outside);
  const charge = (charges: number) => daviesLogGamma(charges, ionicStrength);
  const apparentKw = pKw + 2 * charge(1);
  const acids = solution.acids.map(({ molesPerLitre, pKa }) => ({
    molesPerLitre,
    pKa: pKa.map((value, n) => value + charge(1) + charge(n + 1) - charge(n)),
  }));
  const excess = (p: number): number => {
    const h = 10 ** -p;
    const negative = acids.reduce(
      (sum, { molesPerLitre, pKa }) => sum + molesPerLitre * meanCharge(pKa, p),
      10 ** (p - apparentKw),
    );
    return h + solution.strongBaseMolesPerLitre - negative;
  };
  const minusLogConcentration = invertMonotone(excess, 0, -2, 16);
  if (minusLogConcentration === null)
    throw new Error('The charge balance always has a root between −2 and 16.');
  return ok(minusLogConcentration - charge(1));
}

/** Protons given up by one molecule at −log h = p: Σ n α_n, weighed from the largest term so that nothing overflows. */
function meanCharge(pKa: readonly number[], p: number): number {
  const logs = [0];
  let log = 0;
  for (const value of pKa) {
    log += p - value;
    logs.push(log);
  }
  const largest = Math.max(...logs);
  let weight = 0;
  let charge = 0;
  for (const [n, value] of logs.entries()) {
    const share = 10 ** (value - largest);
    weight += share;
    charge += n * share;
  }
  return charge / weight;
}

/** log10 of the activity coefficient of an ion: −0.509 z² (√I/(1 + √I) − 0.3 I). Source: Davies equation, 25 °C. */
function daviesLogGamma(charges: number, ionicStrength: number): number {
  const root = Math.sqrt(ionicStrength);
  return -0.509 * charges ** 2 * (root / (1 + root) - 0.3 * ionicStrength);
}

/**
 * pH while a weak acid is titrated with a strong base of another or the same strength, volumes in mL, concentrations in
 * mol/L. At pH 8.2 more than 99.9 % of acetic acid is neutralised, at pH 7.0 only 99.4 %.
 */
export function titrationPh(given: {
  readonly acid: WeakAcid;
  readonly acidMl: number;
  readonly baseMolesPerLitre: number;
  readonly baseMl: number;
  readonly pKw?: number;
}): Result<number, OutOfRange> {
  const { acid, acidMl, baseMolesPerLitre, baseMl } = given;
  const volume: Limits = { quantity: 'acidMl', low: 0.001, high: 1e6, unit: 'mL', source: SOURCE };
  const outside = firstOutOfRange(
    [acidMl, volume],
    [baseMl, { ...volume, quantity: 'baseMl', low: 0 }],
    [baseMolesPerLitre, { ...CONCENTRATION, quantity: 'baseMolesPerLitre' }],
  );
  if (outside) return err(outside);
  const totalMl = acidMl + baseMl;
  return solutionPh({
    acids: [{ ...acid, molesPerLitre: (acid.molesPerLitre * acidMl) / totalMl }],
    strongBaseMolesPerLitre: (baseMolesPerLitre * baseMl) / totalMl,
    ...(given.pKw === undefined ? {} : { pKw: given.pKw }),
  });
}

/**
 * Buffer capacity in mol/L of strong base per pH: ln 10 (h + Kw/h + Σ C Ka h/(Ka + h)²), for monoprotic acids. Source: Van
 * Slyke 1922.
 */
export function bufferCapacity(given: {
  readonly pH: number;
  readonly acids: readonly { readonly molesPerLitre: number; readonly pKa: number }[];
}): Result<number, OutOfRange> {
  const outside = firstOutOfRange(
    [given.pH, { quantity: 'pH', low: 0, high: 14, unit: 'pH', source: 'Van Slyke 1922' }],
    ...given.acids.flatMap(({ molesPerLitre, pKa }) => [
      [molesPerLitre, CONCENTRATION] as const,
      [pKa, CONSTANT] as const,
    ]),
  );
  if (outside) return err(outside);
  const h = 10 ** -given.pH;
  let sum = h + 10 ** (given.pH - PKW);
  for (const { molesPerLitre, pKa } of given.acids) {
    const ka = 10 ** -pKa;
    sum += (molesPerLitre * ka * h) / (ka + h) ** 2;
  }
  return ok(Math.LN10 * sum);
}

/** mol/L of acetic acid from per cent by mass (0–20) and density (0.95–1.1 g/mL): 0.839 for 5 % at 1.007 g/mL. Source: OpenStax Chemistry 2e. */
export function aceticMolesPerLitre(given: {
  readonly massPercent: number;
  readonly densityGramsPerMl: number;
}): Result<number, OutOfRange> {
  const source = 'vinegars';
  const outside = firstOutOfRange(
    [given.massPercent, { quantity: 'massPercent', low: 0, high: 20, unit: '% m/m', source }],
    [given.densityGramsPerMl, { quantity: 'densityGramsPerMl', low: 0.95, high: 1.1, unit: 'g/mL', source }],
  );
  return outside ? err(outside) : ok((given.massPercent * 10 * given.densityGramsPerMl) / 60.052);
}
