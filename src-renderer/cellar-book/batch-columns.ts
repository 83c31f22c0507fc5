import type { BatchRow } from '#core/contract/book.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { BATCH_COLUMN_KEYS, type BATCH_SORTS, type BatchColumnKey } from '#core/ledger/batch-filter.ts';
import { capital, FERMENT_KIND_WORDS } from '../words/choice-words.ts';
import { sayVolume } from '../words/quantity-words.ts';
import { sayDate } from '../words/time-words.ts';
import { sayHeadline } from '../words/vessel-words.ts';

export type BatchSort = (typeof BATCH_SORTS)[number];

/** A column of the ledger of batches; every one can be sorted by. */
export interface BatchColumn {
  readonly key: BatchColumnKey | 'name';
  readonly title: string;
  readonly sort: BatchSort;
  /** The least it needs, in rem, and how it shares what is left over; without a share it stays as it is. */
  readonly leastRem: number;
  readonly share: number;
}

const NAME: BatchColumn = { key: 'name', title: 'Batch', sort: 'name', leastRem: 8, share: 1.8 };

/** All columns beside the name, in the order in which they are shown. */
export const CHOOSABLE_COLUMNS: readonly (BatchColumn & { readonly key: BatchColumnKey })[] = [
  { key: 'code', title: 'Code', sort: 'code', leastRem: 5.75, share: 0 },
  { key: 'ferment', title: 'Ferment', sort: 'ferment', leastRem: 5.5, share: 0.9 },
  { key: 'stage', title: 'Stage', sort: 'stage', leastRem: 9.25, share: 0 },
  { key: 'started', title: 'Started', sort: 'started', leastRem: 5.75, share: 0 },
  { key: 'startedWith', title: 'Started with', sort: 'startedWith', leastRem: 5.5, share: 0 },
  { key: 'volume', title: 'Stands', sort: 'volume', leastRem: 5.5, share: 1 },
  { key: 'bottles', title: 'Bottled', sort: 'bottles', leastRem: 4.5, share: 0 },
  { key: 'culture', title: 'Culture', sort: 'culture', leastRem: 6, share: 0.9 },
  { key: 'parent', title: 'Taken from', sort: 'parent', leastRem: 6, share: 1 },
  { key: 'last', title: 'Last reading', sort: 'last', leastRem: 7, share: 1.1 },
  { key: 'due', title: 'Due', sort: 'due', leastRem: 7.75, share: 0 },
];

/** The columns shown while the keeper has not chosen others. */
export const USUAL_COLUMNS: readonly BatchColumnKey[] = [
  ...(['code', 'ferment', 'stage', 'started', 'volume', 'last', 'due'] as const),
];

/** The tracks of the grid: the tick of the choice, then one a column. */
export function tracksOf(columns: readonly BatchColumn[]): string {
  const tracks = columns.map(({ leastRem, share }) =>
    share === 0 ? `${leastRem}rem` : `minmax(${leastRem}rem, ${share}fr)`,
  );
  return [`${TICK_REM}rem`, ...tracks].join(' ');
}

/** How wide the grid must be for all its columns to stand side by side, in rem: gaps and margins included. */
export function leastWidthRem(columns: readonly BatchColumn[]): number {
  return columns.reduce((sum, { leastRem }) => sum + leastRem + GAP_REM, TICK_REM + MARGINS_REM);
}

const TICK_REM = 1.5;
const GAP_REM = 0.75;
const MARGINS_REM = 2.25;

export function columnsShown(chosen: readonly BatchColumnKey[] | null): readonly BatchColumn[] {
  const keys = chosen ?? USUAL_COLUMNS;
  return [NAME, ...CHOOSABLE_COLUMNS.filter(({ key }) => keys.includes(key))];
}

/** The cells of a row that are plain text, by column. */
export function batchCells(row: BatchRow, rules: HouseRules): Readonly<Record<string, string>> {
  const where =
    row.spots.length > 0 ? ` on ${row.spots.join(', ')}` : row.vesselNumbers.length > 0 ? ', not placed' : '';
  return {
    code: row.code,
    ferment: capital(FERMENT_KIND_WORDS[row.ferment]),
    started: sayDate(row.startedAtMs, rules),
    startedWith: sayVolume(row.startedUl, rules),
    volume: row.volumeUl === 0 ? '' : `${sayVolume(row.volumeUl, rules)}${where}`,
    bottles: row.bottles === 0 ? '' : String(row.bottles),
    culture: row.cultureName ?? '',
    parent: row.parentName ?? '',
    last: row.headline === null ? '' : capital(sayHeadline(row.headline, rules)),
  };
}

const KEY = 'undercroft.book.columns';

/** The columns the keeper chose in this window; null for the usual ones, or where nothing can be kept. */
export function readColumns(): readonly BatchColumnKey[] | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? 'null');
    return Array.isArray(kept) ? BATCH_COLUMN_KEYS.filter((key) => kept.includes(key)) : null;
  } catch {
    // Storage is forbidden, or what lies there is not ours: the usual columns.
    return null;
  }
}

export function keepColumns(columns: readonly BatchColumnKey[] | null): void {
  try {
    if (columns === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, JSON.stringify(columns));
  } catch {
    // A full or forbidden store costs the memory of a view, nothing else.
    return;
  }
}
