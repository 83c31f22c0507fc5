import { err, ok, type Result } from '../base/result.ts';
import { invertMonotone, polynomial } from '../quantities/polynomial.ts';
import { firstOutOfRange, within, type Limits, type OutOfRange } from '../quantities/validity.ts';

const INDEX_SOURCE = 'ICUMSA 1974 nD table, fitted 0–30 %';
const PERCENT: Limits = {
  quantity: 'sucroseMassPercent',
  low: 0,
  high: 30,
  unit: '% m/m',
  source: INDEX_SOURCE,
};

/**
 * A cubic fitted to published ICUMSA 1974 and OIV entries, 0–30 %, residual 6e-6. A quintic in circulation for the
 * inverse has rounded coefficients and is biased by −0.013 to −0.022 °Bx; it is not used.
 */
const INDEX = [1.33298679, 1.42784266e-3, 5.39834285e-6, 1.73005e-8];

/** Refractive index nD at 20 °C (589 nm) of a sucrose solution, 0–30 % m/m. Source: ICUMSA 1974. */
export function refractiveIndex(sucroseMassPercent: number): Result<number, OutOfRange> {
  const checked = within(sucroseMassPercent, PERCENT);
  return checked.ok ? ok(polynomial(INDEX, sucroseMassPercent)) : checked;
}

/** % m/m sucrose from nD at 20 °C, to 0.004. 1.33299–1.38115. */
export function brixFromRefractiveIndex(index: number): Result<number, OutOfRange> {
  const brix = invertMonotone((percent) => polynomial(INDEX, percent), index, 0, 30);
  if (brix !== null) return ok(brix);
  return err({
    type: 'OutOfRange',
    quantity: 'refractiveIndex',
    value: index,
    low: polynomial(INDEX, 0),
    high: polynomial(INDEX, 30),
    unit: 'nD',
    source: INDEX_SOURCE,
  });
}

const TABLE_SOURCE = 'OIV-MA-AS2-02 Table I';
const TABLE_PERCENTS = [10, 15, 20, 25, 30];
/**
 * Corrections to add, row by row. Rows 6–17 °C as printed by the OIV (read in a stored copy; its 5 °C row is out of
 * step with the rest by a misprint and is left out). 20 °C is the definition; 25 and 30 °C are from memory.
 */
const TABLE: readonly (readonly [temperatureCelsius: number, corrections: readonly number[]])[] = [
  [6, [-0.8, -0.82, -0.87, -0.9, -0.94]],
  [7, [-0.74, -0.78, -0.82, -0.84, -0.88]],
  [8, [-0.69, -0.73, -0.76, -0.79, -0.82]],
  [9, [-0.64, -0.67, -0.71, -0.73, -0.75]],
  [10, [-0.59, -0.62, -0.65, -0.67, -0.69]],
  [11, [-0.54, -0.57, -0.59, -0.61, -0.63]],
  [12, [-0.49, -0.51, -0.53, -0.55, -0.56]],
  [13, [-0.43, -0.45, -0.47, -0.48, -0.5]],
  [14, [-0.38, -0.39, -0.4, -0.42, -0.43]],
  [15, [-0.32, -0.33, -0.34, -0.35, -0.36]],
  [16, [-0.26, -0.27, -0.28, -0.28, -0.29]],
  [17, [-0.2, -0.2, -0.21, -0.21, -0.22]],
  [20, [0, 0, 0, 0, 0]],
  [25, [0.37, 0.38, 0.38, 0.39, 0.39]],
  [30, [0.77, 0.78, 0.79, 0.8, 0.8]],
];

/**
 * What to add to a refractometer reading in % m/m taken at another temperature than 20 °C, by straight lines in the
 * published grid. 6–30 °C and 10–30 %. Instruments that correct themselves must not be corrected again.
 */
export function refractometerCorrection(given: {
  readonly readingPercent: number;
  readonly temperatureCelsius: number;
}): Result<number, OutOfRange> {
  const { readingPercent, temperatureCelsius } = given;
  const outside = firstOutOfRange(
    [readingPercent, { quantity: 'readingPercent', low: 10, high: 30, unit: '% m/m', source: TABLE_SOURCE }],
    [
      temperatureCelsius,
      { quantity: 'temperatureCelsius', low: 6, high: 30, unit: '°C', source: TABLE_SOURCE },
    ],
  );
  if (outside) return err(outside);
  return ok(
    between(
      TABLE.map(
        ([t, corrections]) => [t, between(zip(TABLE_PERCENTS, corrections), readingPercent)] as const,
      ),
      temperatureCelsius,
    ),
  );
}

/**
 * Alcohol in % vol of a **fortified** wine from its refractometer °Brix and hydrometer °Baumé. Source: Rogerson and
 * Symington 2006, Am. J. Enol. Vitic. 57:486, 35 ports. Not for table wine, cider or mead: for 58 table wines the
 * spread of any one such relation was 7–14 g/L (Bavčar and Košmerl 2002), so give it with at least ±1 % vol.
 */
export function fortifiedAlcohol(given: {
  readonly apparentBrix: number;
  readonly apparentBaume: number;
}): Result<number, OutOfRange> {
  const source = 'Rogerson & Symington 2006, 35 port wines';
  const outside = firstOutOfRange(
    [given.apparentBrix, { quantity: 'apparentBrix', low: 10, high: 30, unit: '°Bx', source }],
    [given.apparentBaume, { quantity: 'apparentBaume', low: 0, high: 12, unit: '°Bé', source }],
  );
  return outside ? err(outside) : ok(1.646 * given.apparentBrix - 2.703 * given.apparentBaume - 1.794);
}

function zip(xs: readonly number[], ys: readonly number[]): readonly (readonly [number, number])[] {
  return xs.map((x, i) => [x, ys[i] ?? Number.NaN] as const);
}

/** The straight line between the two points around x. The caller has checked that x lies inside. */
function between(points: readonly (readonly [x: number, y: number])[], x: number): number {
  for (let i = 1; i < points.length; i += 1) {
    const [x0, y0] = points[i - 1] ?? [Number.NaN, Number.NaN];
    const [x1, y1] = points[i] ?? [Number.NaN, Number.NaN];
    if (x <= x1) return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
  }
  return Number.NaN;
}
