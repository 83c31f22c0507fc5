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

/** Above the lines that could not have been: those told anew themselves, or later ones. */
export function sayImpossible(count: number, areTold: boolean): string {
  if (areTold) {
    return count === 1
      ? 'Told so, this line itself could not have been'
      : `Told so, these ${count} lines themselves could not have been`;
  }
  return count === 1
    ? 'Told so, this line could not have been'
    : `Told so, these ${count} lines could not have been`;
}

/** Below a line that cannot have been as it is told, while later ones wait for it. */
export function sayOthersFall(count: number): string {
  return count === 1
    ? 'One later line falls with it; look at this one first.'
    : `${count} later lines fall with it; look at this one first.`;
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

/** Of a line that was told anew of another vessel, by where it is read: `Moved to Jar 2`, `Moved here from Jug`. */
export function sayMoved(
  moved: { readonly from: string; readonly to: string },
  readAt: 'from' | 'to' | 'elsewhere',
): string {
  switch (readAt) {
    case 'from':
      return `moved to ${moved.to}`;
    case 'to':
      return `moved here from ${moved.from}`;
    case 'elsewhere':
      return `moved from ${moved.from} to ${moved.to}`;
  }
}

function because(what: string, reason: string): string {
  return reason === '' ? `${what}.` : `${what}: ${reason}`;
}
