import type { CostIn } from '#core/contract/book.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { PARTS_OF_A_HUNDREDTH } from '#core/ledger/cost-so-far.ts';
import { muldiv } from '#core/ledger/allocate.ts';
import type { CostError } from '#core/quantities/parse-cost.ts';
import type { Said } from './error-words.ts';

type Currency = Pick<HouseRules, 'currency'>;

/** A cost in hundredths with the word of the house: `4.50 kr`, or `4.50` where no word is chosen. */
export function sayCost(hundredths: number, { currency }: Currency): string {
  const whole = Math.floor(hundredths / 100);
  const rest = String(hundredths % 100).padStart(2, '0');
  const number = `${whole}.${rest}`;
  return currency === '' ? number : `${number}\u00A0${currency}`;
}

/** A share of a cost, rounded to the hundredth; a cost that is there is never shown as nothing. */
export function sayCostParts(parts: number, house: Currency): string {
  const hundredths = muldiv(parts, 1, PARTS_OF_A_HUNDREDTH);
  return hundredths === 0 && parts > 0 ? `under ${sayCost(1, house)}` : sayCost(hundredths, house);
}

/** A cost over some measure, such as litres: `parts` for every `per` of `amount`. */
export function sayCostPer(
  parts: number,
  over: { readonly amount: number; readonly per: number },
  house: Currency,
): string {
  return sayCostParts(muldiv(parts, over.per, over.amount), house);
}

/** What a cost rests on: "all 5 ingredients have a cost", "3 of 5 ingredients have a cost". */
export function sayCostBasis({ priced, of }: Pick<CostIn, 'priced' | 'of'>): string {
  if (of === 0) return 'no ingredients are written down';
  if (priced === 0)
    return of === 1 ? 'its one ingredient has no cost' : `none of ${of} ingredients has a cost`;
  if (priced < of) return `${priced} of ${of} ingredients have a cost`;
  return of === 1 ? 'its one ingredient has a cost' : `all ${of} ingredients have a cost`;
}

/** "12.40 kr", or "at least 12.40 kr" where some ingredient has no cost. */
export function sayAtLeast(cost: Pick<CostIn, 'priced' | 'of'>, amount: string): string {
  return cost.priced < cost.of ? `at least ${amount}` : amount;
}

export function sayCostError(error: CostError): Said {
  const said = (sentence: string, fixes: Said['fixes'] = []): Said => ({ sentence, fixes });
  switch (error.type) {
    case 'NotACost':
      return said('This is not read as a cost. Write it as a number, for instance 4.50.');
    case 'Negative':
      return said('A cost is nothing or more. Leave out the minus.');
    case 'TooMuch':
      return said('A cost of more than ten million is not taken.');
    case 'FinerThanHundredths':
      return said('A cost has at most two decimals, for instance 4.50.');
    case 'TwoWays':
      return said(
        'This can be read in two ways. Choose one.',
        error.plain.map((text) => ({ label: `Use ${text}`, text, how: 'use' as const })),
      );
  }
}
