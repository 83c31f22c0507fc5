import type { BatchRow } from '#core/contract/book.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { capital, FERMENT_KIND_WORDS } from '../words/choice-words.ts';
import { sayVolume } from '../words/quantity-words.ts';
import { sayDate } from '../words/time-words.ts';
import { sayHeadline } from '../words/vessel-words.ts';
import type { BatchSort } from './book-state.svelte.ts';

/** The columns of the ledger of batches, in their order; those with a `sort` can be sorted by. */
export const BATCH_COLUMNS: readonly {
  readonly key: string;
  readonly title: string;
  readonly sort: BatchSort | null;
}[] = [
  { key: 'name', title: 'Batch', sort: 'name' },
  { key: 'code', title: 'Code', sort: 'code' },
  { key: 'ferment', title: 'Ferment', sort: 'ferment' },
  { key: 'stage', title: 'Stage', sort: 'stage' },
  { key: 'started', title: 'Started', sort: 'started' },
  { key: 'volume', title: 'Stands', sort: 'volume' },
  { key: 'last', title: 'Last reading', sort: null },
  { key: 'due', title: 'Due', sort: null },
];

/** The cells of a row that are plain text, by column. */
export function batchCells(row: BatchRow, rules: HouseRules): Readonly<Record<string, string>> {
  const where =
    row.spots.length > 0 ? ` on ${row.spots.join(', ')}` : row.vesselNumbers.length > 0 ? ', not placed' : '';
  return {
    code: row.code,
    ferment: capital(FERMENT_KIND_WORDS[row.ferment]),
    started: sayDate(row.startedAtMs, rules),
    volume: row.volumeUl === 0 ? '' : `${sayVolume(row.volumeUl, rules)}${where}`,
    last: row.headline === null ? '' : capital(sayHeadline(row.headline, rules)),
  };
}
