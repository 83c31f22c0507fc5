import { err, ok, type Result } from '../base/result.ts';
import { invertMonotone } from '../quantities/polynomial.ts';
import { sucroseDensity } from '../quantities/sucrose-density.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { JUICE_COMPOSITION } from './juices.ts';
import { SUGAR_PER_PERCENT_PLAN } from './potential-alcohol.ts';
import { THEORETICAL_YIELD } from './stoichiometry.ts';

/** What is added: the mass percent that counts on the °Brix scale, and what of it yeast can use, as hexose per gram. */
export interface Sweetener {
  readonly solidsMassPercent: number;
  readonly hexosePerGram: number;
  readonly source: string;
}

/** Honey counts with its carbohydrate (82.4 % by USDA) as °Brix, and with its sugars as what ferments. */
export const SWEETENERS = {
  sucrose: {
    solidsMassPercent: 100,
    hexosePerGram: THEORETICAL_YIELD.invertSugarFromSucrose,
    source: 'pure sucrose; × 1.0526 on inversion',
  },
  glucose: { solidsMassPercent: 100, hexosePerGram: 1, source: 'pure glucose, dry' },
  honey: {
    solidsMassPercent: JUICE_COMPOSITION.honey.carbohydrate,
    hexosePerGram: JUICE_COMPOSITION.honey.sugars / 100,
    source: JUICE_COMPOSITION.honey.source,
  },
} as const satisfies Readonly<Record<string, Sweetener>>;

export type SweetenerName = keyof typeof SWEETENERS;

export interface SugarAddition {
  readonly grams: number;
  /** Litres at 20 °C once it has dissolved. */
  readonly volumeLitres: number;
  readonly brixAfter: number;
}

const SOURCE = 'mass balance over ICUMSA SPS-4';
const VOLUME: Limits = { quantity: 'volumeLitres', low: 0, high: 100_000, unit: 'L', source: SOURCE };
const BRIX: Limits = { quantity: 'brix', low: 0, high: 50, unit: '°Bx', source: SOURCE };

/**
 * Grams of sugar or honey that lift so many litres of juice from one °Brix to another (0–50, not below the first), by mass:
 * S = m (T − b)/(H − T), H the solids of what is added. Volumes at 20 °C.
 */
export function sweetenToBrix(given: {
  readonly volumeLitres: number;
  readonly brix: number;
  readonly targetBrix: number;
  readonly sweetener: SweetenerName;
}): Result<SugarAddition, OutOfRange> {
  const { volumeLitres, brix, targetBrix, sweetener } = given;
  const outside = firstOutOfRange(
    [volumeLitres, VOLUME],
    [brix, BRIX],
    [targetBrix, { ...BRIX, quantity: 'targetBrix', low: brix }],
  );
  if (outside) return err(outside);
  const juiceGrams = volumeLitres * densityAt20(brix);
  const { solidsMassPercent } = SWEETENERS[sweetener];
  const grams = (juiceGrams * (targetBrix - brix)) / (solidsMassPercent - targetBrix);
  return ok({ grams, volumeLitres: (juiceGrams + grams) / densityAt20(targetBrix), brixAfter: targetBrix });
}

/**
 * Grams of sugar or honey that bring so many litres to a plan alcohol (1–18 % vol at 16.83 g/L per 1 % vol), from the °Brix
 * and the sugar in g/L that yeast can use (see `fermentableSugar`). Added sucrose counts as invert sugar. `OutOfRange` on
 * `targetPercentVol` when the juice already holds more, or when 50 °Bx would not be enough.
 */
export function sweetenToAlcohol(given: {
  readonly volumeLitres: number;
  readonly brix: number;
  readonly fermentableGramsPerLitre: number;
  readonly targetPercentVol: number;
  readonly sweetener: SweetenerName;
}): Result<SugarAddition, OutOfRange> {
  const { volumeLitres, brix, fermentableGramsPerLitre, targetPercentVol, sweetener } = given;
  const strength = { quantity: 'targetPercentVol', unit: '% vol', source: SOURCE };
  const outside = firstOutOfRange(
    [volumeLitres, { ...VOLUME, low: 0.01 }],
    [brix, BRIX],
    [
      fermentableGramsPerLitre,
      { quantity: 'fermentableGramsPerLitre', low: 0, high: 10 * brix * 1.35, unit: 'g/L', source: SOURCE },
    ],
    [targetPercentVol, { ...strength, low: 1, high: 18 }],
  );
  if (outside) return err(outside);
  const { solidsMassPercent, hexosePerGram } = SWEETENERS[sweetener];
  const juiceGrams = volumeLitres * densityAt20(brix);
  const brixWith = (grams: number) => (juiceGrams * brix + grams * solidsMassPercent) / (juiceGrams + grams);
  const litresWith = (grams: number) => (juiceGrams + grams) / densityAt20(brixWith(grams));
  const alcoholWith = (grams: number) =>
    (volumeLitres * fermentableGramsPerLitre + grams * hexosePerGram) /
    litresWith(grams) /
    SUGAR_PER_PERCENT_PLAN;
  const most = (juiceGrams * (BRIX.high - brix)) / (solidsMassPercent - BRIX.high);
  const grams = invertMonotone(alcoholWith, targetPercentVol, 0, most);
  if (grams === null) {
    const [low, high] = [alcoholWith(0), alcoholWith(most)];
    return err({ type: 'OutOfRange', value: targetPercentVol, low, high, ...strength });
  }
  return ok({ grams, volumeLitres: litresWith(grams), brixAfter: brixWith(grams) });
}

/** Grams of honey in so many litres of honey must of a °Brix (1–50), and the litres of water with it, at 20 °C. */
export function honeyMust(given: {
  readonly volumeLitres: number;
  readonly brix: number;
}): Result<{ readonly honeyGrams: number; readonly waterLitres: number }, OutOfRange> {
  const outside = firstOutOfRange([given.volumeLitres, VOLUME], [given.brix, { ...BRIX, low: 1 }]);
  if (outside) return err(outside);
  const grams = given.volumeLitres * densityAt20(given.brix);
  const honeyGrams = (grams * given.brix) / SWEETENERS.honey.solidsMassPercent;
  return ok({ honeyGrams, waterLitres: (grams - honeyGrams) / densityAt20(0) });
}

/** Grams in a litre, which is kg/m³. */
function densityAt20(brix: number): number {
  const density = sucroseDensity({ sucroseMassPercent: brix, temperatureCelsius: 20 });
  if (!density.ok) throw new Error('A °Brix between 0 and 60 has a density.');
  return density.value;
}
