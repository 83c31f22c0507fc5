import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, type Limits, type OutOfRange } from '../quantities/validity.ts';

/** A low, a middle and a high of one amount. */
export interface Spread {
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

/** Fruits whose juice yield we can give. `other` is the span of all. */
export type PressedFruit = 'apple' | 'pear' | 'quince' | 'grape' | 'plum' | 'berry' | 'pineapple' | 'other';

/**
 * Litres of juice from a kilogram of fruit with home equipment, low to high: from hand-crushed in a small press to well
 * milled in a good one. Common practice, no source.
 */
export const JUICE_PER_KILOGRAM: Readonly<
  Record<PressedFruit, { readonly low: number; readonly high: number }>
> = {
  apple: { low: 0.5, high: 0.7 },
  pear: { low: 0.5, high: 0.7 },
  quince: { low: 0.4, high: 0.6 },
  grape: { low: 0.6, high: 0.75 },
  plum: { low: 0.5, high: 0.7 },
  berry: { low: 0.6, high: 0.8 },
  pineapple: { low: 0.4, high: 0.6 },
  other: { low: 0.4, high: 0.8 },
};

/** A step on the way from juice to bottle that takes a share of the volume. Common practice, no source. */
export const STEP_LOSS = {
  grossLees: { low: 0.03, high: 0.1 },
  racking: { low: 0.01, high: 0.03 },
  /** Evaporation and mother over the whole of a still surface acetification. */
  acetification: { low: 0.05, high: 0.2 },
  filtering: { low: 0.01, high: 0.03 },
} as const;

export type LossStep = keyof typeof STEP_LOSS;

export interface ExpectedYield {
  readonly juiceLitres: Spread;
  /** Litres after each step, in the order given. */
  readonly afterSteps: readonly { readonly step: LossStep; readonly litres: Spread }[];
  readonly litres: Spread;
  /** Whole bottles at the low and at the high end. */
  readonly bottles: { readonly low: number; readonly high: number };
}

/**
 * From kilograms of fruit to litres on the shelf and bottles, with the range at every step. An expectation from common
 * practice, to be replaced by the household's own figures as they come in.
 */
export function expectedYield(given: {
  readonly fruit: PressedFruit;
  readonly kilograms: number;
  readonly steps: readonly LossStep[];
  readonly bottleMl: number;
}): Result<ExpectedYield, OutOfRange> {
  const source = 'common practice';
  const mass: Limits = { quantity: 'kilograms', low: 0, high: 100_000, unit: 'kg', source };
  const outside = firstOutOfRange(
    [given.kilograms, mass],
    [given.bottleMl, { quantity: 'bottleMl', low: 10, high: 100_000, unit: 'mL', source }],
  );
  if (outside) return err(outside);
  const { low, high } = JUICE_PER_KILOGRAM[given.fruit];
  const juiceLitres = spread(given.kilograms * low, given.kilograms * high);
  let litres = juiceLitres;
  const afterSteps = given.steps.map((step) => {
    const loss = STEP_LOSS[step];
    litres = spread(litres.low * (1 - loss.high), litres.high * (1 - loss.low));
    return { step, litres };
  });
  const whole = (volume: number) => Math.floor((volume * 1000) / given.bottleMl);
  return ok({
    juiceLitres,
    afterSteps,
    litres,
    bottles: { low: whole(litres.low), high: whole(litres.high) },
  });
}

function spread(low: number, high: number): Spread {
  return { low, mid: (low + high) / 2, high };
}
