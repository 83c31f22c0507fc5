/** An exact fraction. The denominator is positive; no value is ever rounded until {@link toNumber} or rounding. */
export interface Rational {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

export function rational(numerator: bigint, denominator: bigint = 1n): Rational {
  if (denominator === 0n) throw new Error('A fraction needs a denominator.');
  return denominator < 0n ? { numerator: -numerator, denominator: -denominator } : { numerator, denominator };
}

/** The exact value of a plain decimal such as `-12.345`; the text holds digits, one optional `.` and a sign. */
export function rationalOfDecimal(text: string): Rational {
  const negative = text.startsWith('-');
  const unsigned = text.replace(/^[+-]/, '');
  const point = unsigned.indexOf('.');
  const whole = point < 0 ? unsigned : unsigned.slice(0, point);
  const decimals = point < 0 ? '' : unsigned.slice(point + 1);
  const digits = BigInt(`${whole}${decimals}` || '0');
  return rational(negative ? -digits : digits, 10n ** BigInt(decimals.length));
}

export function add(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.denominator + b.numerator * a.denominator, a.denominator * b.denominator);
}

export function multiply(a: Rational, b: Rational): Rational {
  return rational(a.numerator * b.numerator, a.denominator * b.denominator);
}

export function negate(a: Rational): Rational {
  return rational(-a.numerator, a.denominator);
}

/** The nearest whole number, halves away from zero. */
export function roundToWhole(a: Rational): bigint {
  const negative = a.numerator < 0n;
  const size = negative ? -a.numerator : a.numerator;
  const rounded = (2n * size + a.denominator) / (2n * a.denominator);
  return negative ? -rounded : rounded;
}

/**
 * The nearest double. The fraction is written out to 25 significant decimal digits and read back, so that `52/10`
 * gives 5.2 and not a neighbour of it.
 */
export function toNumber(a: Rational): number {
  if (a.numerator === 0n) return 0;
  const negative = a.numerator < 0n;
  const size = negative ? -a.numerator : a.numerator;
  const shift = 25 - (String(size / a.denominator).length - 1);
  const scaled =
    shift >= 0
      ? (size * 10n ** BigInt(shift)) / a.denominator
      : size / (a.denominator * 10n ** BigInt(-shift));
  const value = Number(`${scaled}e${-shift}`);
  return negative ? -value : value;
}
