/**
 * Integer proportion a·b/c rounded half to even, exact for any safe integers (the product is formed in BigInt).
 *
 * Amounts in the book are integers (microlitres, tokens), and a proportion must never pass through a float.
 * Rounding half to even: IEEE 754-2019, 4.3.1. Throws `RangeError` when c is not positive or a result is unsafe.
 */
export function muldiv(a: number, b: number, c: number): number {
  if (!Number.isSafeInteger(a) || !Number.isSafeInteger(b) || !Number.isSafeInteger(c) || c <= 0) {
    throw new RangeError('muldiv takes safe integers and a positive divisor');
  }
  const product = BigInt(a) * BigInt(b);
  const divisor = BigInt(c);
  const magnitude = product < 0n ? -product : product;
  const quotient = magnitude / divisor;
  const twiceRest = (magnitude % divisor) * 2n;
  const up = twiceRest > divisor || (twiceRest === divisor && quotient % 2n === 1n);
  const rounded = Number(up ? quotient + 1n : quotient);
  if (!Number.isSafeInteger(rounded)) throw new RangeError('muldiv result is not a safe integer');
  return product < 0n ? -rounded : rounded;
}

/**
 * Splits an integer total by integer weights so that the parts sum to the total exactly (largest remainder,
 * Hamilton's method; ties go to the lower index). Throws `RangeError` for a negative weight or no weight at all.
 */
export function largestRemainder(total: number, weights: readonly number[]): number[] {
  const sum = weights.reduce((a, w) => a + BigInt(w), 0n);
  if (weights.some((w) => !Number.isSafeInteger(w) || w < 0) || sum === 0n) {
    throw new RangeError('largestRemainder takes non-negative integer weights, not all zero');
  }
  const exact = weights.map((w) => BigInt(total) * BigInt(w));
  const parts = exact.map((e) => e / sum);
  let rest = BigInt(total) - parts.reduce((a, p) => a + p, 0n);
  const order = exact
    .map((e, index) => ({ index, remainder: e % sum }))
    .sort((a, b) => (a.remainder === b.remainder ? a.index - b.index : a.remainder > b.remainder ? -1 : 1));
  for (const { index } of order) {
    if (rest === 0n) break;
    parts[index] = (parts[index] ?? 0n) + 1n;
    rest -= 1n;
  }
  return parts.map(Number);
}
