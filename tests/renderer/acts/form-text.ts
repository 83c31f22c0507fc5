import { fixedOffset, utcOfCivil } from '#core/quantities/civil-time.ts';
import { METRIC_HOUSE, type HouseUnits } from '#core/quantities/house-units.ts';
import { FormReader } from '#renderer/acts/form-reader.ts';

export const LOCAL_TIME = fixedOffset(0);
/** 25 November 2026, 14:02. */
export const NOW_MS = utcOfCivil({ year: 2026, month: 11, day: 25, hour: 14, minute: 2 });
export const id = (n: number): string => `019a0000-0000-7000-8000-${String(n).padStart(12, '0')}`;

/** A form filled in so far, ready to be read. */
export function readerOf(
  fields: Record<string, string>,
  given: { readonly kept?: Record<string, string>; readonly house?: HouseUnits } = {},
): FormReader {
  return new FormReader({
    fields,
    kept: given.kept ?? {},
    house: given.house ?? METRIC_HOUSE,
    nowMs: NOW_MS,
    localTime: LOCAL_TIME,
  });
}

/** The fields that are amiss, in order, each once. */
export function amiss(read: FormReader): string[] {
  return [...new Set(read.problems.map(({ field }) => field))];
}
