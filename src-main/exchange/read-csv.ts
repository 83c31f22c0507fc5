import Papa from 'papaparse';
import { ROWS_MAX, SEPARATORS, type Separator } from '#core/exchange/settled.ts';

/** A row of a table with the line of the text it begins on. */
export interface CsvRow {
  readonly line: number;
  readonly cells: readonly string[];
  /** Its quotes are never closed, so that it has swallowed what follows. */
  readonly quotesOpen: boolean;
}

export interface CsvTable {
  readonly separator: Separator;
  readonly rows: readonly CsvRow[];
  /** There is more than is read at once. */
  readonly tooMany: boolean;
}

/**
 * Takes a text apart into rows by RFC 4180 and what programs make of it: any line end, a mark of UTF-8 in front, a first line
 * that names its separator. Rows without anything in them are left out.
 *
 * @param settled the separator when it is known; else the one that the first lines agree on
 */
export function readCsv(text: string, settled: Separator | null): CsvTable {
  const plain = text.replace(/^\uFEFF/u, '').replaceAll(/\r\n?/gu, '\n');
  const named = /^sep=([,;\t|])\n/iu.exec(plain);
  const body = named === null ? plain : plain.slice(named[0].length);
  const separator = settled ?? (named?.[1] as Separator | undefined) ?? separatorOf(body);
  const { data, errors } = Papa.parse<string[]>(body, {
    ...{ delimiter: separator, newline: '\n', quoteChar: '"', escapeChar: '"' },
    preview: ROWS_MAX + 2,
  });
  const open = new Set(errors.filter(({ code }) => code === 'MissingQuotes').map(({ row }) => row));
  let line = named === null ? 1 : 2;
  const rows = data.map((cells, index): CsvRow => {
    const begins = line;
    line += 1 + cells.reduce((sum, cell) => sum + (cell.split('\n').length - 1), 0);
    return { line: begins, cells, quotesOpen: open.has(index) };
  });
  const filled = rows.filter(({ cells }) => cells.some((cell) => cell.trim() !== ''));
  return { separator, rows: filled.slice(0, ROWS_MAX + 1), tooMany: filled.length > ROWS_MAX + 1 };
}

/** The separator by which the first lines fall into the same number of cells, the most of them; a comma when none does. */
function separatorOf(text: string): Separator {
  const head = text.slice(0, 20_000);
  const widths = SEPARATORS.map((separator) => {
    const { data } = Papa.parse<string[]>(head, { delimiter: separator, newline: '\n', preview: 40 });
    const filled = data.filter((cells) => cells.some((cell) => cell.trim() !== ''));
    // The head may end within a row.
    const whole = filled.length > 2 && head.length < text.length ? filled.slice(0, -1) : filled;
    const counts = whole.map((cells) => cells.length);
    const width = counts[0] ?? 1;
    const agreeing = counts.filter((count) => count === width).length;
    return { separator, score: width < 2 ? 0 : (agreeing / Math.max(1, counts.length)) * 100 + width };
  });
  return widths.reduce((best, next) => (next.score > best.score ? next : best)).separator;
}
