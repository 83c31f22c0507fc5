import { roundedText } from '#core/quantities/round.ts';

/** Fractions with a denominator up to this are read more easily than per cents. */
const DENOMINATOR_MAX = 12;

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}

/**
 * An exact share of a whole: `all`, a plain fraction such as `2/3` where it is one, else per cent with one decimal
 * that never shows nothing for something nor all for less than all.
 */
export function sayShare(tokens: number, ofTokens: number): string {
  if (tokens >= ofTokens) return 'all';
  const divisor = commonDivisor(tokens, ofTokens);
  const denominator = ofTokens / divisor;
  if (denominator <= DENOMINATOR_MAX) return `${tokens / divisor}/${denominator}`;
  const percent = (tokens / ofTokens) * 100;
  if (percent < 0.1) return 'under 0.1 %';
  if (percent > 99.9) return 'over 99.9 %';
  return `${roundedText(percent, 1)} %`;
}

/** `1st`, `2nd`, `3rd`, `11th`. */
export function sayOrdinal(number: number): string {
  const tens = number % 100;
  const ones = number % 10;
  if (ones === 1 && tens !== 11) return `${number}st`;
  if (ones === 2 && tens !== 12) return `${number}nd`;
  if (ones === 3 && tens !== 13) return `${number}rd`;
  return `${number}th`;
}
