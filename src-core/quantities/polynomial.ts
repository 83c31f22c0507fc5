/** c0 + c1·x + c2·x² + …, by Horner's rule. */
export function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i -= 1) sum = sum * x + (coefficients[i] ?? 0);
  return sum;
}

/**
 * The x in [low, high] where a rising or falling function takes the value `target`, by bisection to the last bit a
 * double can hold (about 1e-16 of the interval). Null when `target` is not between the values at the two ends: the
 * inverse is never continued past them.
 */
export function invertMonotone(
  f: (x: number) => number,
  target: number,
  low: number,
  high: number,
): number | null {
  const atLow = f(low) - target;
  const atHigh = f(high) - target;
  if (atLow === 0) return low;
  if (atHigh === 0) return high;
  if (!(atLow < 0 !== atHigh < 0)) return null;
  if (!Number.isFinite(atLow) || !Number.isFinite(atHigh)) return null;
  let a = low;
  let b = high;
  for (let i = 0; i < 200; i += 1) {
    const middle = a + (b - a) / 2;
    if (middle === a || middle === b) break;
    const atMiddle = f(middle) - target;
    if (atMiddle === 0) return middle;
    if (atMiddle < 0 === atLow < 0) a = middle;
    else b = middle;
  }
  return a + (b - a) / 2;
}
