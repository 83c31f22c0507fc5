/** The ends of a value axis and the step of its marks. */
export interface ValueAxis {
  readonly min: number;
  readonly max: number;
  readonly step: number;
  readonly decimals: number;
}

/** How a panel's values are scaled. */
export interface ValueScale {
  readonly fromNothing: boolean;
  /** The least that is shown from foot to top, so that a steady value is not drawn as a mountain. */
  readonly leastSpan: number;
  /** Steps of the axis at most; more crowd a low panel. */
  readonly stepsMost: number;
  readonly decimalsLeast: number;
}

/** Round ends and round steps around the values of a panel; an axis that does not start at nothing says so by its labels. */
export function valueAxis(scale: ValueScale, values: readonly number[]): ValueAxis {
  const low = scale.fromNothing ? 0 : values.reduce((least, value) => Math.min(least, value), Infinity);
  const high = values.reduce((most, value) => Math.max(most, value), -Infinity);
  if (!Number.isFinite(low) || !Number.isFinite(high)) return { min: 0, max: 1, step: 1, decimals: 0 };
  const air = Math.max(0, scale.leastSpan - (high - low)) / 2;
  const [from, to] = scale.fromNothing ? [0, high + air * 2] : [low - air, high + air];
  const step = roundStep((to - from) / scale.stepsMost);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const tidy = (value: number): number => Number(value.toFixed(decimals + 2));
  return {
    min: tidy(Math.floor(from / step + 1e-6) * step),
    max: tidy(Math.ceil(to / step - 1e-6) * step),
    step,
    decimals: Math.max(decimals, scale.decimalsLeast),
  };
}

/** The next of 1, 2, 5 times a power of ten that is not less. */
function roundStep(step: number): number {
  const power = 10 ** Math.floor(Math.log10(step));
  const part = step / power;
  return (part <= 1 + 1e-9 ? 1 : part <= 2 + 1e-9 ? 2 : part <= 5 + 1e-9 ? 5 : 10) * power;
}
