import { err, ok, type Result } from '../base/result.ts';
import { plainTyping, readNumber } from './number-text.ts';
import { multiply, rational, toNumber, type Rational } from './rational.ts';

/** Most that one thing may cost: ten million of the house currency, in hundredths. */
export const COST_HUNDREDTHS_MAX = 1_000_000_000;

/** Why a text is not a cost. */
export type CostError =
  | { readonly type: 'NotACost' }
  | { readonly type: 'Negative' }
  | { readonly type: 'TooMuch' }
  | { readonly type: 'FinerThanHundredths' }
  | { readonly type: 'TwoWays'; readonly plain: readonly [string, string] };

/**
 * A cost as people write it, in whole hundredths of the house currency: `4.50`, `4,50`, `4.5`, `12`, with the word or sign
 * of the currency before or after it. `1,250` can be read in two ways, and is asked about; nothing is rounded away.
 */
export function parseCost(text: string, currency: string): Result<number, CostError> {
  const bare = withoutCurrency(plainTyping(text), plainTyping(currency));
  if (bare === null) return err({ type: 'NotACost' });
  const read = readNumber(bare);
  if (read?.rest !== '') return err({ type: 'NotACost' });
  const inHundredths = read.readings.map(({ value, plain }) => ({ plain, value: multiply(value, HUNDRED) }));
  const whole = inHundredths.filter(({ value }) => value.numerator % value.denominator === 0n);
  const [first, second] = whole;
  if (first === undefined) return err({ type: 'FinerThanHundredths' });
  if (second !== undefined) return err({ type: 'TwoWays', plain: [first.plain, second.plain] });
  return bounded(first.value);
}

const HUNDRED = rational(100n);

function bounded(value: Rational): Result<number, CostError> {
  const hundredths = toNumber(value);
  if (hundredths < 0) return err({ type: 'Negative' });
  return hundredths > COST_HUNDREDTHS_MAX ? err({ type: 'TooMuch' }) : ok(hundredths);
}

/** The number alone: the house's own word, or else one short word or sign, may stand on one side of it. */
function withoutCurrency(text: string, currency: string): string | null {
  const lower = text.toLowerCase();
  const word = currency.toLowerCase();
  if (word !== '' && lower.startsWith(word)) return text.slice(word.length).trim();
  if (word !== '' && lower.endsWith(word)) return text.slice(0, -word.length).trim();
  const before = /^(?:\p{Sc}|\p{L}{1,3}\.?)? ?(?<number>[+-]?[\d.,' /]*\d[\d.,' /]*)$/u.exec(text);
  const after = /^(?<number>[+-]?[\d.,' /]*\d[\d.,' /]*?) ?(?:\p{Sc}|\p{L}{1,3}\.?)$/u.exec(text);
  return (before ?? after)?.groups?.['number']?.trim() ?? null;
}
