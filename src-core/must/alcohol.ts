import { err, ok, type Result } from '../base/result.ts';
import { invertMonotone, polynomial } from '../quantities/polynomial.ts';
import { firstOutOfRange, within, type Limits, type OutOfRange } from '../quantities/validity.ts';

const SOURCE = 'OIML R 22 (1973), general formula; Directive 76/766/EEC';

/** Density of pure ethanol at 20 °C, kg/m³, that defines per cent by volume. Source: OIML R 22. */
export const ETHANOL_KG_PER_M3 = 789.24;

/** Grams of ethanol in a litre for each 1 % vol at 20 °C: 789.24 / 100. Source: definition in OIML R 22. */
export const ETHANOL_GRAMS_PER_LITRE_PER_PERCENT = ETHANOL_KG_PER_M3 / 100;

const MASS_FRACTION: Limits = { quantity: 'ethanolMassFraction', low: 0, high: 1, unit: '1', source: SOURCE };
const TEMPERATURE: Limits = {
  quantity: 'temperatureCelsius',
  low: -20,
  high: 40,
  unit: '°C',
  source: SOURCE,
};
const STRENGTH: Limits = { quantity: 'alcoholPercentVol', low: 0, high: 100, unit: '% vol', source: SOURCE };

/** A1..A12: powers 0..11 of the mass fraction. */
const A = [
  9.9820123e2, -1.929769495e2, 3.891238958e2, -1.668103923e3, 1.352215441e4, -8.829278388e4, 3.062874042e5,
  -6.138381234e5, 7.470172998e5, -5.478461354e5, 2.234460334e5, -3.903285426e4,
];
/** B1..B6: powers 1..6 of t − 20. */
const B = [0, -2.0618513e-1, -5.2682542e-3, 3.6130013e-5, -3.8957702e-7, 7.169354e-9, -9.9739231e-11];
/** C1..C5: for each power of t − 20, powers 1.. of the mass fraction. */
const C = [
  [
    0, 1.693443461530087e-1, -1.046914743455169e1, 7.196353469546523e1, -7.047478054272792e2,
    3.924090430035045e3, -1.210164659068747e4, 2.248646550400788e4, -2.605562982188164e4, 1.852373922069467e4,
    -7.420201433430137e3, 1.285617841998974e3,
  ],
  [
    0, -1.19301300505701e-2, 2.517399633803461e-1, -2.170575700536993, 1.353034988843029e1,
    -5.029988758547014e1, 1.09635566657757e2, -1.422753946421155e2, 1.08043594285623e2, -4.414153236817392e1,
    7.442971530188783,
  ],
  [
    0, -6.802995733503803e-4, 1.876837790289664e-2, -2.002561813734156e-1, 1.02299296671922,
    -2.895696483903638, 4.810060584300675, -4.672147440794683, 2.458043105903461, -5.411227621436812e-1,
  ],
  [0, 4.075376675622027e-6, -8.76305857347111e-6, 6.515031360099368e-6, -1.51578483698721e-6],
  [0, -2.788074354782409e-8, 1.345612883493354e-8],
];

/**
 * Density of a mixture of ethanol and water in kg/m³, from the mass fraction of ethanol (0–1) and the temperature
 * (−20 to 40 °C). Source: OIML R 22 (1973), general formula, the same as Council Directive 76/766/EEC. Coefficients
 * checked on ρ(1, 20) = 789.239 and on four entries of 27 CFR Part 30.
 */
export function alcoholDensity(given: {
  readonly ethanolMassFraction: number;
  readonly temperatureCelsius: number;
}): Result<number, OutOfRange> {
  const outside = firstOutOfRange(
    [given.ethanolMassFraction, MASS_FRACTION],
    [given.temperatureCelsius, TEMPERATURE],
  );
  return outside ? err(outside) : ok(densityOf(given.ethanolMassFraction, given.temperatureCelsius));
}

/**
 * Per cent by volume at 20 °C from the mass fraction of ethanol: 100 p ρ(p, 20)/789.24, held to 100 (the formula gives
 * 99.9999 for pure ethanol). The density at the reading's own temperature must not be used here.
 */
export function percentVolFromMassFraction(ethanolMassFraction: number): Result<number, OutOfRange> {
  const checked = within(ethanolMassFraction, MASS_FRACTION);
  return checked.ok ? ok(percentVolOf(ethanolMassFraction)) : checked;
}

/** The mass fraction of ethanol (0–1) of a strength in % vol at 20 °C: the inverse of the above. */
export function massFractionFromPercentVol(alcoholPercentVol: number): Result<number, OutOfRange> {
  const checked = within(alcoholPercentVol, STRENGTH);
  if (!checked.ok) return checked;
  if (alcoholPercentVol >= percentVolOf(1)) return ok(1);
  return ok(invertMonotone(percentVolOf, alcoholPercentVol, 0, 1) ?? 0);
}

/** Density in kg/m³ of a mixture of this strength (% vol at 20 °C) at a temperature of −20 to 40 °C. */
export function densityFromPercentVol(given: {
  readonly alcoholPercentVol: number;
  readonly temperatureCelsius: number;
}): Result<number, OutOfRange> {
  const fraction = massFractionFromPercentVol(given.alcoholPercentVol);
  if (!fraction.ok) return fraction;
  return alcoholDensity({
    ethanolMassFraction: fraction.value,
    temperatureCelsius: given.temperatureCelsius,
  });
}

/** Strength in % vol from the density of an ethanol–water mixture at 20 °C, 789.239–998.2012 kg/m³. */
export function percentVolFromDensityAt20(densityKgPerM3: number): Result<number, OutOfRange> {
  const fraction = invertMonotone((p) => densityOf(p, 20), densityKgPerM3, 0, 1);
  if (fraction !== null) return ok(percentVolOf(fraction));
  return err({
    type: 'OutOfRange',
    quantity: 'densityKgPerM3',
    value: densityKgPerM3,
    low: densityOf(1, 20),
    high: densityOf(0, 20),
    unit: 'kg/m³',
    source: SOURCE,
  });
}

/** Grams of ethanol in a litre at 20 °C. */
export function gramsPerLitreFromPercentVol(alcoholPercentVol: number): Result<number, OutOfRange> {
  const checked = within(alcoholPercentVol, STRENGTH);
  return checked.ok ? ok(alcoholPercentVol * ETHANOL_GRAMS_PER_LITRE_PER_PERCENT) : checked;
}

/** % vol from grams of ethanol in a litre at 20 °C, 0–789.24. */
export function percentVolFromGramsPerLitre(ethanolGramsPerLitre: number): Result<number, OutOfRange> {
  const checked = within(ethanolGramsPerLitre, {
    quantity: 'ethanolGramsPerLitre',
    low: 0,
    high: ETHANOL_KG_PER_M3,
    unit: 'g/L',
    source: SOURCE,
  });
  return checked.ok ? ok(ethanolGramsPerLitre / ETHANOL_GRAMS_PER_LITRE_PER_PERCENT) : checked;
}

function percentVolOf(p: number): number {
  return Math.min(100, (100 * p * densityOf(p, 20)) / ETHANOL_KG_PER_M3);
}

function densityOf(p: number, temperatureCelsius: number): number {
  const d = temperatureCelsius - 20;
  let density = polynomial(A, p) + polynomial(B, d);
  let power = 1;
  for (const row of C) {
    power *= d;
    density += polynomial(row, p) * power;
  }
  return density;
}
