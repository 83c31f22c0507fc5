import type { EpochMs } from '../base/ports.ts';
import { err, ok, type Result } from '../base/result.ts';
import { isCalendarDay, isoDay, utcOfCivil, type LocalTime } from '../quantities/civil-time.ts';
import type { HouseUnits } from '../quantities/house-units.ts';
import { plainTyping } from '../quantities/number-text.ts';
import { parseQuantity } from '../quantities/parse-quantity.ts';
import { parseWhen } from '../quantities/parse-when.ts';
import type { QuantityError, QuantityKind, Understood } from '../quantities/understood.ts';
import { numberIn } from './detect.ts';
import type { DateOrder, DecimalMark } from './settled.ts';

export interface ReadingWay {
  readonly house: HouseUnits;
  readonly localTime: LocalTime;
  readonly nowMs: EpochMs;
  readonly decimalMark: DecimalMark | null;
  readonly dateOrder: DateOrder | null;
}

export type CellError = QuantityError | { readonly type: 'MarkUnsettled' };

/**
 * Reads a quantity out of a cell. A number without a unit takes that of its column. While the decimal mark is not settled
 * both are tried: two different amounts are `MarkUnsettled`, never one of them.
 */
export function readQuantityCell(
  kind: QuantityKind,
  text: string,
  unit: string | null,
  way: ReadingWay,
): Result<Understood, CellError> {
  const plain = plainTyping(text);
  const number = numberIn(plain);
  if (number === null) return parseQuantity(kind, plain, way.house);
  const read = (mark: DecimalMark): Result<Understood, CellError> => {
    const written = withPoint(number, mark);
    if (written === null) return err({ type: 'NotANumber', kind, text });
    const whole = plain.replace(number, () => written);
    const isBare = /^[+-]? ?[\d. /]+$/u.test(whole);
    return parseQuantity(kind, isBare && unit !== null ? `${whole} ${unit}` : whole, way.house);
  };
  if (way.decimalMark !== null || !/[.,]/u.test(number)) return read(way.decimalMark ?? '.');
  const [point, comma] = [read('.'), read(',')];
  if (point.ok && comma.ok && point.value.value !== comma.value.value) return err({ type: 'MarkUnsettled' });
  return point.ok ? point : comma.ok ? comma : point;
}

/** A number with its decimal mark as a point and its thousands closed up; null when its marks do not fit that. */
function withPoint(number: string, mark: DecimalMark): string | null {
  const closed = number.replaceAll(/[ '’]/gu, '');
  const groups = mark === '.' ? ',' : '.';
  const parts = closed.split(mark);
  if (parts.length > 2) return null;
  const [whole = '', fraction] = parts;
  if (fraction?.includes(groups) === true) return null;
  if (
    whole.includes(groups) &&
    !(groups === '.' ? /^\d{1,3}(?:\.\d{3})+$/u : /^\d{1,3}(?:,\d{3})+$/u).test(whole)
  ) {
    return null;
  }
  const digits = whole.replaceAll(groups, '');
  return fraction === undefined ? digits : `${digits === '' ? '0' : digits}.${fraction}`;
}

export interface CellMoment {
  readonly atMs: EpochMs;
  /** False when the cell named a day without a time of day. */
  readonly toTheMinute: boolean;
}

export type MomentError = 'NotAWhen' | 'NoSuchDay' | 'NoSuchTime' | 'DateOrderUnsettled';

const INSTANT =
  /^(\d{4})-(\d{2})-(\d{2})[t ](\d{2}):(\d{2})(?::(\d{2})(?:\.(\d{1,3})\d*)?)?(z|[+-]\d{2}:?\d{2})$/u;

/**
 * Reads a moment out of a cell: an ISO instant exactly, else a whole date of the keeper's wall clock as `parseWhen` reads
 * it. Words that speak of the day of writing, such as `yesterday`, mean nothing in a table and are refused.
 */
export function readMomentCell(text: string, way: ReadingWay): Result<CellMoment, MomentError> {
  const plain = plainTyping(text).toLowerCase();
  const instant = INSTANT.exec(plain);
  if (instant) return instantOf(instant);
  if (plain.length > 50 || !/\d{4}/u.test(plain) || plain.endsWith('ago')) return err('NotAWhen');
  const { rest, seconds } = withoutSeconds(dayWritten(onTheClock(plain), way.dateOrder));
  const when = parseWhen(rest, way);
  if (when.ok) {
    return ok({ atMs: when.value.atMs + seconds * 1000, toTheMinute: when.value.precision === 'minute' });
  }
  return err(when.error.type === 'Ambiguous' ? 'DateOrderUnsettled' : when.error.type);
}

function instantOf(found: RegExpExecArray): Result<CellMoment, MomentError> {
  const part = (index: number): number => Number(found[index] ?? 0);
  const [year, month, day, hour, minute, second] = [part(1), part(2), part(3), part(4), part(5), part(6)];
  if (!isCalendarDay(year, month, day)) return err('NoSuchDay');
  if (hour > 23 || minute > 59 || second > 59) return err('NoSuchTime');
  const zone = found[8] ?? 'z';
  const sign = zone.startsWith('-') ? -1 : 1;
  const digits = zone === 'z' ? '0000' : zone.slice(1).replace(':', '');
  const ahead = sign * (Number(digits.slice(0, 2)) * 60 + Number(digits.slice(2)));
  const thousandths = Number((found[7] ?? '').padEnd(3, '0'));
  const civil = utcOfCivil({ year, month, day, hour, minute });
  return ok({ atMs: civil + second * 1000 + thousandths - ahead * 60_000, toTheMinute: true });
}

/** `2:30 pm` as `14:30`. */
function onTheClock(plain: string): string {
  return plain.replace(
    /(\d{1,2}):(\d{2})(:\d{2})? ?([ap])\.?m\.?$/u,
    (whole, hour: string, minute: string, second: string | undefined, half: string) => {
      const at = Number(hour);
      if (at < 1 || at > 12) return whole;
      return `${(at % 12) + (half === 'p' ? 12 : 0)}:${minute}${second ?? ''}`;
    },
  );
}

/** A day whose order is known, by itself or by what is settled, as `2026-11-25`; anything else as it is. */
function dayWritten(plain: string, order: DateOrder | null): string {
  const yearFirst = /^(\d{4})[/.](\d{1,2})[/.](\d{1,2})(?!\d)/u.exec(plain);
  if (yearFirst) return plain.replace(yearFirst[0], `${yearFirst[1]}-${yearFirst[2]}-${yearFirst[3]}`);
  const found = /^(\d{1,2})([/.-])(\d{1,2})\2(\d{4})(?!\d)/u.exec(plain);
  if (!found || order === null) return plain;
  const [day, month] = order === 'dayFirst' ? [found[1], found[3]] : [found[3], found[1]];
  return plain.replace(found[0], `${found[4]}-${month}-${day}`);
}

function withoutSeconds(plain: string): { readonly rest: string; readonly seconds: number } {
  const found = /(\d{1,2}:\d{2}):([0-5]\d)(?:\.\d+)?$/u.exec(plain);
  return found
    ? { rest: `${plain.slice(0, found.index)}${found[1]}`, seconds: Number(found[2]) }
    : { rest: plain, seconds: 0 };
}

/** True when two moments fall on one day of the keeper's calendar. */
export function sameDay(one: EpochMs, other: EpochMs, localTime: LocalTime): boolean {
  return isoDay(localTime.localOf(one)) === isoDay(localTime.localOf(other));
}
