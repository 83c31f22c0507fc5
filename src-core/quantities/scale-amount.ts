import { plainTyping, readNumber } from './number-text.ts';
import { toNumber } from './rational.ts';
import { roundedText } from './round.ts';

/** Enough digits for any kitchen scale, and few enough to be read. */
const DIGITS = 3;

/**
 * An amount as it was written, times a factor, in the same unit: `3 kg` by 1.5 is `4.5 kg`, `1 1/2 cups` by 2 is `3 cups`.
 * Null for an amount that does not begin with a number, or with one that can be read in two ways: `a handful` cannot
 * be made one and a half times as much by reckoning.
 */
export function scaleAmount(amount: string, factor: number): string | null {
  const read = readNumber(plainTyping(amount));
  const [only, other] = read?.readings ?? [];
  if (read === null || only === undefined || other !== undefined) return null;
  const value = toNumber(only.value) * factor;
  if (!Number.isFinite(value) || value < 0) return null;
  const number = significant(value);
  return read.rest === '' ? number : `${number} ${read.rest}`;
}

function significant(value: number): string {
  if (value === 0) return '0';
  const decimals = Math.max(0, DIGITS - 1 - Math.floor(Math.log10(value)));
  const text = roundedText(value, Math.min(6, decimals));
  return text.includes('.') ? text.replace(/\.?0+$/u, '') : text;
}
