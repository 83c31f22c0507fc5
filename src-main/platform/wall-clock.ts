import type { LocalTime } from '#core/quantities/civil-time.ts';

/** The wall clock of this computer, for dates that are written without a zone. */
export const wallClock: LocalTime = {
  localOf(at) {
    const date = new Date(at);
    return {
      ...{ year: date.getFullYear(), month: date.getMonth() + 1, day: date.getDate() },
      ...{ hour: date.getHours(), minute: date.getMinutes() },
    };
  },
  epochOf({ year, month, day, hour, minute }) {
    const date = new Date(year, month - 1, day, hour, minute);
    const isThere = date.getDate() === day && date.getHours() === hour && date.getMinutes() === minute;
    return isThere ? date.getTime() : null;
  },
};
