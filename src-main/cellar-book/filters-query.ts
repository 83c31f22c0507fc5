import type { Database } from 'better-sqlite3';
import type { SavedFilter } from '#core/contract/book.ts';

/** The filters of the ledger of batches that were given a name, in the order of their names. */
export interface FiltersQuery {
  all(): SavedFilter[];
}

export function openFiltersQuery(sqlite: Database): FiltersQuery {
  const select = sqlite.prepare(
    'SELECT id AS filterId, name, filter FROM batch_filter ORDER BY name COLLATE NOCASE, id',
  );
  return {
    all: () =>
      (select.all() as { filter: string }[]).map((row) => ({
        ...row,
        filter: JSON.parse(row.filter) as SavedFilter['filter'],
      })) as SavedFilter[],
  };
}
