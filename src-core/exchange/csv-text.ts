/** What one cell of a table holds. A number is written as one; everything else is text. */
export type Cell = string | number | boolean | null;

/** Tells a spreadsheet that a file is UTF-8. Not part of the first heading: a reader that knows tables takes it off. */
export const BYTE_ORDER_MARK = '\uFEFF';

/**
 * Text that a spreadsheet might carry out instead of showing: it begins, perhaps behind spaces or apostrophes, with one of
 * = + - @, a tab or a line's end. Source: OWASP, "CSV Injection"; the full-width forms are taken too, since some
 * spreadsheets read them as the plain ones.
 */
const RUNS = /^'*\s*[=+\-@\t\r\n＝＋－＠]/u;
const GUARDED = /^'+\s*[=+\-@\t\r\n＝＋－＠]/u;

/** The text with an apostrophe before it when a spreadsheet might run it. Reversed exactly by {@link unguardText}. */
export function guardText(text: string): string {
  return RUNS.test(text) ? `'${text}` : text;
}

/** Takes off the one apostrophe that {@link guardText} put there. Any other text is as it was. */
export function unguardText(text: string): string {
  return GUARDED.test(text) ? text.slice(1) : text;
}

/**
 * One cell as RFC 4180 writes it. Text is guarded and always in quotes; a number is unrounded, with a decimal point and
 * never quoted; nothing is an empty cell. Throws for a number that is none.
 */
export function csvCell(value: Cell): string {
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'true' : 'false';
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new Error('A table holds no number that is not finite.');
    return String(value);
  }
  return value === '' ? '' : `"${guardText(value).replaceAll('"', '""')}"`;
}

/** One line of a table with its line end. */
export function csvLine(cells: readonly Cell[]): string {
  return `${cells.map(csvCell).join(',')}\r\n`;
}
