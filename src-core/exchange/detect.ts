import type { DateOrder, DecimalMark } from './settled.ts';

/** How sure a table is about something that can be written in two ways. */
export interface Evidence<Way> {
  /** The one way its cells allow; null when they allow both, or each some. */
  readonly way: Way | null;
  /** `unclear` and `mixed` are for the keeper to settle. */
  readonly how: 'none' | 'certain' | 'unclear' | 'mixed';
}

const NUMBER = /\d+(?:[ '’\u00A0\u202F]\d{3}(?!\d))*(?:[.,]\d+)*|[.,]\d+/u;

/** The first number in a cell with its marks, or null. */
export function numberIn(cell: string): string | null {
  return NUMBER.exec(cell)?.[0] ?? null;
}

/** Which decimal mark the numbers of some cells show. A mark before exactly three digits may part thousands and shows nothing. */
export function decimalMarkOf(cells: readonly string[]): Evidence<DecimalMark> {
  const seen = new Set<DecimalMark>();
  let unclear = false;
  for (const cell of cells) {
    const number = numberIn(cell);
    if (number === null) continue;
    const mark = sureMark(number);
    if (mark !== null) seen.add(mark);
    else if (/[.,]/u.test(number)) unclear = true;
  }
  return evidenceOf(seen, unclear);
}

function sureMark(number: string): DecimalMark | null {
  const last = Math.max(number.lastIndexOf('.'), number.lastIndexOf(','));
  if (last === -1) return null;
  const mark: DecimalMark = number[last] === ',' ? ',' : '.';
  const other = mark === ',' ? '.' : ',';
  // With both marks the later one is the decimal.
  if (number.includes(other)) return mark;
  // Several of one mark part thousands, so the decimal mark is the other.
  if (number.indexOf(mark) !== last) return other;
  const before = number.slice(0, last);
  const after = number.slice(last + 1);
  const maybeThousands = after.length === 3 && /^[1-9]\d{0,2}$/u.test(before);
  return maybeThousands ? null : mark;
}

/** Which of day and month comes first in dates such as 25/11/2026. */
export function dateOrderOf(cells: readonly string[]): Evidence<DateOrder> {
  const seen = new Set<DateOrder>();
  let unclear = false;
  for (const cell of cells) {
    const found = /^\s*(\d{1,2})([/.-])(\d{1,2})\2\d{4}/u.exec(cell);
    if (found === null) continue;
    const [first, second] = [Number(found[1]), Number(found[3])];
    if (first > 12 && second <= 12) seen.add('dayFirst');
    else if (second > 12 && first <= 12) seen.add('monthFirst');
    else if (first !== second) unclear = true;
  }
  return evidenceOf(seen, unclear);
}

function evidenceOf<Way>(seen: ReadonlySet<Way>, unclear: boolean): Evidence<Way> {
  const [way = null] = seen;
  if (seen.size > 1) return { way: null, how: 'mixed' };
  if (way !== null) return { way, how: 'certain' };
  return { way: null, how: unclear ? 'unclear' : 'none' };
}
