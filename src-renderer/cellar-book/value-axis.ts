import type { Measure } from './reading-panels.ts';

/** The ends of a value axis and the step of its marks. */
export interface ValueAxis {
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly decimals: number;
}

/** The least that a panel shows above and below, so that a steady value is not drawn as a mountain. */
const LEAST_SPAN: Readonly<Record<Measure, number>> = { gravity: 0.01, acidity: 2, ph: 0.4, temperature: 6 };
/** Marks of one axis: more crowd a low panel. */
const STEPS_MOST: Readonly<Record<Measure, number>> = { gravity: 4, acidity: 4, ph: 3, temperature: 3 };

/**
 * Round ends and round steps around the values of a panel. Acidity starts at 0; the others at the round mark under the
 * least value, which the labels say.
 */
export function valueAxis(measure: Measure, values: readonly number[]): ValueAxis {
  const low = measure === 'acidity' ? 0 : values.reduce((least, value) => Math.min(least, value), Infinity);
  const high = values.reduce((most, value) => Math.max(most, value), -Infinity);
  if (!Number.isFinite(low) || !Number.isFinite(high)) return { min: 0, max: 1, step: 1, decimals: 0 };
  const air = Math.max(0, LEAST_SPAN[measure] - (high - low)) / 2;
  const [from, to] = measure === 'acidity' ? [0, high + air * 2] : [low - air, high + air];
  const step = roundStep((to - from) / STEPS_MOST[measure]);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const tidy = (value: number): number => Number(value.toFixed(decimals + 2));
  return {
    min: tidy(Math.floor(from / step + 1e-6) * step),
    max: tidy(Math.ceil(to / step - 1e-6) * step),
    step,
    decimals: measure === 'gravity' ? Math.max(decimals, 3) : decimals,
  };
}

/** The next of 1, 2, 5 times a power of ten that is not less. */
function roundStep(step: number): number {
  const power = 10 ** Math.floor(Math.log10(step));
  const part = step / power;
  return (part <= 1 + 1e-9 ? 1 : part <= 2 + 1e-9 ? 2 : part <= 5 + 1e-9 ? 5 : 10) * power;
}
