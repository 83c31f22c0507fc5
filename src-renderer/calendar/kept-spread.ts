import { SPREAD_WORDS } from '../words/calendar-words.ts';
import type { Spread } from './calendar-days.ts';

const KEY = 'undercroft.calendar';

/** How much the keeper likes to see at once. It belongs to the window; without storage it is a month. */
export function keptSpread(): Spread {
  try {
    const kept = window.localStorage.getItem(KEY);
    return (Object.keys(SPREAD_WORDS) as Spread[]).find((one) => one === kept) ?? 'month';
  } catch {
    // Storage is forbidden.
    return 'month';
  }
}

export function keepSpread(spread: Spread): void {
  try {
    window.localStorage.setItem(KEY, spread);
  } catch {
    // Full or forbidden: the choice still stands in the window itself.
  }
}
