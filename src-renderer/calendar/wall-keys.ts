import { stepDays, stepMonths, weekOf } from './calendar-days.ts';

/**
 * The day a key leads to from another, or null when it leads nowhere: arrows by days and weeks, Home and End to the ends
 * of the week, Page Up and Page Down by months, with Shift by years, and Ctrl+Home to today.
 */
export function stepOnWall(
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'altKey' | 'shiftKey'>,
  iso: string,
  firstDay: number,
  todayIso: string,
): string | null {
  if (event.altKey || event.metaKey) return null;
  if (event.ctrlKey) return event.key === 'Home' ? todayIso : null;
  const months = event.shiftKey ? 12 : 1;
  switch (event.key) {
    case 'ArrowLeft':
      return stepDays(iso, -1);
    case 'ArrowRight':
      return stepDays(iso, 1);
    case 'ArrowUp':
      return stepDays(iso, -7);
    case 'ArrowDown':
      return stepDays(iso, 7);
    case 'Home':
      return weekOf(iso, firstDay).first;
    case 'End':
      return weekOf(iso, firstDay).last;
    case 'PageUp':
      return stepMonths(iso, -months);
    case 'PageDown':
      return stepMonths(iso, months);
    default:
      return null;
  }
}
