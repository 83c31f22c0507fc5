/** c0 + c1·x + c2·x² + …, by Horner's rule. */
export function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i -= 1) sum = sum * x + (coefficients[i] ?? 0);
  return sum;
}

/**
 * The x in [low, high] where a rising or falling function takes the value `target`, to the last bits a double can hold.
 * Null when `target` is not between the values at the two ends: the inverse is never continued past them.
 *
 * The bracket is narrowed by inverse quadratic steps where they are sure to help and by halving where they are not, so
 * it always closes and mostly does in about ten steps. Source: T. R. Chandrupatla, Advances in Engineering Software 28
 * (1997) 145–149.
 */
export function invertMonotone(
  f: (x: number) => number,
  target: number,
  low: number,
  high: number,
): number | null {
  let a = low;
  let b = high;
  let atA = f(a) - target;
  let atB = f(b) - target;
  if (atA === 0) return a;
  if (atB === 0) return b;
  if (!(atA < 0 !== atB < 0)) return null;
  if (!Number.isFinite(atA) || !Number.isFinite(atB)) return null;
  let share = 0.5;
  for (let step = 0; step < STEPS_MAX; step += 1) {
    const x = a + share * (b - a);
    const atX = f(x) - target;
    const sameSide = atX < 0 === atA < 0;
    const c = sameSide ? a : b;
    const atC = sameSide ? atA : atB;
    if (!sameSide) [b, atB] = [a, atA];
    [a, atA] = [x, atX];
    const best = Math.abs(atA) < Math.abs(atB) ? a : b;
    const closest = (2 * Number.EPSILON * Math.abs(best) + Number.MIN_VALUE) / Math.abs(b - a);
    if (atA === 0 || closest > 0.5) return best;
    const xi = (a - b) / (c - b);
    const phi = (atA - atB) / (atC - atB);
    const quadraticIsSure = phi ** 2 < xi && (1 - phi) ** 2 < 1 - xi;
    share = quadraticIsSure
      ? (atA / (atB - atA)) * (atC / (atB - atC)) +
        ((c - a) / (b - a)) * (atA / (atC - atA)) * (atB / (atC - atB))
      : 0.5;
    share = Math.min(1 - closest, Math.max(closest, share));
  }
  return Math.abs(atA) < Math.abs(atB) ? a : b;
}

/** Halving alone closes any bracket of doubles in about a thousand steps; the method needs far fewer. */
const STEPS_MAX = 2000;
