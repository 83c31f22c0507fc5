import type { LocalDay } from '../cellar/day.ts';

/**
 * The words at the foot of the rail. Everything is saved at once, so they tell when the last thing was written, in the
 * keeper's clock, with the date when that was not today.
 */
export function saySaved(given: {
  readonly savedAtMs: number | null;
  readonly day: LocalDay;
  readonly readOnly: boolean;
  readonly faulty: boolean;
}): string {
  if (given.readOnly) return 'This file can only be read';
  if (given.faulty) return 'Not connected: nothing can be saved now';
  if (given.savedAtMs === null) return 'Nothing written yet';
  const at = new Date(given.savedAtMs);
  const clock = `${twoDigits(at.getHours())}:${twoDigits(at.getMinutes())}`;
  if (given.savedAtMs >= given.day.startMs && given.savedAtMs < given.day.endMs) return `Saved ${clock}`;
  return `Saved ${at.getFullYear()}-${twoDigits(at.getMonth() + 1)}-${twoDigits(at.getDate())} ${clock}`;
}

function twoDigits(n: number): string {
  return String(n).padStart(2, '0');
}
