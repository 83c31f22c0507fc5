/**
 * Which side a shown number may not flatter. `lower`: the number is held against a lower limit, so it is rounded
 * down; `upper`: against an upper one, so it is rounded up; `none`: to the nearest, halves away from zero.
 */
export type SafeSide = 'lower' | 'upper' | 'none';

/**
 * A number with so many decimals, rounded away from the safe side: 3.96 with one decimal is `3.9` against a lower
 * limit, 4.599 with two is `4.60` against an upper one. Rounds the decimal digits that the number is written with,
 * not its binary form, so 4.6 against a lower limit stays `4.60`; noise beyond twelve significant digits is dropped
 * first. `?` for NaN and the infinities.
 */
export function roundedText(value: number, decimals: number, side: SafeSide = 'none'): string {
  if (!Number.isFinite(value)) return '?';
  const negative = value < 0;
  const [digits, exponent] = significant(Math.abs(value));
  // The value is digits × 10^exponent; `kept` is the whole number of last-place units, `rest` what is cut off.
  const shift = exponent + decimals;
  let kept: bigint;
  let rest: 'none' | 'less' | 'halfOrMore';
  if (shift >= 0) {
    kept = BigInt(digits) * 10n ** BigInt(shift);
    rest = 'none';
  } else {
    const unit = 10n ** BigInt(-shift);
    kept = BigInt(digits) / unit;
    const cut = BigInt(digits) % unit;
    rest = cut === 0n ? 'none' : cut * 2n >= unit ? 'halfOrMore' : 'less';
  }
  if (roundsOutward(rest, negative, side)) kept += 1n;
  const text = String(kept).padStart(decimals + 1, '0');
  const whole = text.slice(0, text.length - decimals);
  const unsigned = decimals === 0 ? whole : `${whole}.${text.slice(text.length - decimals)}`;
  return negative && kept !== 0n ? `\u2212${unsigned}` : unsigned;
}

/** True when the size of the number grows by one last place. */
function roundsOutward(rest: 'none' | 'less' | 'halfOrMore', negative: boolean, side: SafeSide): boolean {
  if (rest === 'none') return false;
  if (side === 'none') return rest === 'halfOrMore';
  return (side === 'upper') !== negative;
}

function significant(size: number): readonly [digits: string, exponent: number] {
  const [mantissa = '0', power = '0'] = size.toExponential(11).split('e');
  const digits = mantissa.replace('.', '');
  return [digits, Number(power) - (digits.length - 1)];
}
