import type { EntryRow } from '#core/contract/ledger.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { sayMoment } from './time-words.ts';

/** How much of the book follows a correction: `3 later lines follow from it and are told anew.` */
export function sayRetold(count: number): string {
  if (count === 0) return 'No later line changes with it.';
  return count === 1
    ? 'One later line follows from it and is told anew.'
    : `${count} later lines follow from it and are told anew.`;
}

type Dates = Pick<HouseRules, 'dates'>;

/** When a line was told anew, and why: `Corrected 2026-11-25 14:02: read the wrong jar`. */
export function sayCorrected(
  { correctedAtMs, reason }: Pick<NonNullable<EntryRow['restated']>, 'correctedAtMs' | 'reason'>,
  rules: Dates,
): string {
  return because(`Corrected ${sayMoment(correctedAtMs, rules)}`, reason);
}

/** When a correction of other lines took a line back, and why. */
export function sayTakenBack({ atMs, reason }: NonNullable<EntryRow['takenBack']>, rules: Dates): string {
  return because(`Taken back with a correction, ${sayMoment(atMs, rules)}`, reason);
}

function because(what: string, reason: string): string {
  return reason === '' ? `${what}.` : `${what}: ${reason}`;
}
