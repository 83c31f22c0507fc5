import { err, ok, type Result } from '../base/result.ts';
import { invertMonotone } from '../quantities/polynomial.ts';
import { sucroseDensity } from '../quantities/sucrose-density.ts';
import { within, type OutOfRange } from '../quantities/validity.ts';

/**
 * Grams of sucrose in a litre of a solution of so many °Brix at a temperature: 10 × Bx × density in g/mL. 0–60 °Bx,
 * 0–80 °C. Source: ICUMSA SPS-4. This is the sugar of a pure sucrose solution; a fruit juice holds less (see
 * `fermentableSugar`).
 */
export function sucroseGramsPerLitre(given: {
  readonly brix: number;
  readonly temperatureCelsius: number;
}): Result<number, OutOfRange> {
  const density = sucroseDensity({
    sucroseMassPercent: given.brix,
    temperatureCelsius: given.temperatureCelsius,
  });
  return density.ok ? ok((given.brix * density.value) / 100) : density;
}

/** °Brix of the sucrose solution that holds so many grams in a litre at 20 °C: the inverse of the above, 0–60 °Bx. */
export function brixFromSucroseGramsPerLitre(gramsPerLitre: number): Result<number, OutOfRange> {
  const brix = invertMonotone(gramsAt20, gramsPerLitre, 0, 60);
  if (brix !== null) return ok(brix);
  return err({
    type: 'OutOfRange',
    quantity: 'gramsPerLitre',
    value: gramsPerLitre,
    low: 0,
    high: gramsAt20(60),
    unit: 'g/L',
    source: 'ICUMSA SPS-4',
  });
}

/**
 * Grams of sucrose in a litre of the solution with this true SG 20/20, which is how OIV-MA-AS2-03B states an extract;
 * about 2.59 g/L for each 0.001. SG 1.000–1.288.
 */
export function extractGramsPerLitre(trueGravity: number): Result<number, OutOfRange> {
  const water = densityAt20(0);
  const brix = invertMonotone((bx) => densityAt20(bx) / water, trueGravity, 0, 60);
  if (brix !== null) return ok(gramsAt20(brix));
  return err({
    type: 'OutOfRange',
    quantity: 'trueGravity',
    value: trueGravity,
    low: 1,
    high: densityAt20(60) / water,
    unit: 'SG 20/20',
    source: 'OIV-MA-AS2-03B over ICUMSA SPS-4',
  });
}

/**
 * Grams of invert sugar from grams of sucrose when it takes up water, × 360.312/342.297 = 1.0526. Source: IUPAC 2021
 * abridged atomic weights.
 */
export function invertSugarFromSucrose(sucroseGrams: number): Result<number, OutOfRange> {
  const checked = within(sucroseGrams, {
    quantity: 'sucroseGrams',
    low: 0,
    high: 1e12,
    unit: 'g',
    source: 'a mass is not negative',
  });
  return checked.ok ? ok((sucroseGrams * 360.312) / 342.297) : checked;
}

function densityAt20(brix: number): number {
  const density = sucroseDensity({ sucroseMassPercent: brix, temperatureCelsius: 20 });
  if (!density.ok) throw new Error('0–60 °Bx at 20 °C is inside the published range.');
  return density.value;
}

function gramsAt20(brix: number): number {
  return (brix * densityAt20(brix)) / 100;
}
