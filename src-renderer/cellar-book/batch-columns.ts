import type { BatchRow } from '#core/contract/book.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { BATCH_COLUMN_KEYS, type BatchColumnKey } from '#core/ledger/batch-filter.ts';
import { capital, FERMENT_KIND_WORDS } from '../words/choice-words.ts';
import { sayVolume } from '../words/quantity-words.ts';
import { sayDate } from '../words/time-words.ts';
import { sayHeadline } from '../words/vessel-words.ts';
import type { BatchSort } from './book-state.svelte.ts';

/** A column of the ledger of batches; every one can be sorted by. */
export interface BatchColumn {
  readonly key: BatchColumnKey | 'name';
  readonly title: string;
  readonly sort: BatchSort;
  /** Its track in the grid. */
  readonly width: string;
}

const NAME: BatchColumn = { key: 'name', title: 'Batch', sort: 'name', width: 'minmax(9rem, 1.8fr)' };

/** All columns beside the name, in the order in which they are shown. */
export const CHOOSABLE_COLUMNS: readonly (BatchColumn & { readonly key: BatchColumnKey })[] = [
  { key: 'code', title: 'Code', sort: 'code', width: '6.25rem' },
  { key: 'ferment', title: 'Ferment', sort: 'ferment', width: 'minmax(6rem, 0.9fr)' },
  { key: 'stage', title: 'Stage', sort: 'stage', width: '9.75rem' },
  { key: 'started', title: 'Started', sort: 'started', width: '6.5rem' },
  { key: 'startedWith', title: 'Started with', sort: 'startedWith', width: '6.5rem' },
  { key: 'volume', title: 'Stands', sort: 'volume', width: 'minmax(6.5rem, 1fr)' },
  { key: 'bottles', title: 'Bottled', sort: 'bottles', width: '5.5rem' },
  { key: 'culture', title: 'Culture', sort: 'culture', width: 'minmax(6rem, 0.9fr)' },
  { key: 'parent', title: 'Taken from', sort: 'parent', width: 'minmax(6rem, 1fr)' },
  { key: 'last', title: 'Last reading', sort: 'last', width: 'minmax(8rem, 1.1fr)' },
  { key: 'due', title: 'Due', sort: 'due', width: '7rem' },
];

/** The columns shown while the keeper has not chosen others. */
export const USUAL_COLUMNS: readonly BatchColumnKey[] = [
  ...(['code', 'ferment', 'stage', 'started', 'volume', 'last', 'due'] as const),
];

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
