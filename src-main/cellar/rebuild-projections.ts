import { applyAct } from '#core/ledger/post-entry.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { RECORD_KINDS } from '#core/ledger/records.ts';
import { getTableName } from 'drizzle-orm';
import { WORDS_FORMAT, WORDS_TABLES } from '../find/words-projection.ts';
import { openFileReader } from '../ledger/file-reader.ts';
import { RECORD_TABLES } from '../ledger/ledger.tables.ts';
import { openProjector } from '../ledger/projector.ts';
import { rememberRecords } from '../ledger/remember-records.ts';
import { openShelvesProjection } from '../shelves/shelves-projection.ts';
import type { CellarSession } from './session.ts';

const PAGE = 2000;

/** How the book is projected now. A change of the records raises it, and a file written in another is rebuilt when it is opened. */
const PROJECTION_FORMAT = 3;

/** Rebuilds a file that was projected in another way than this program's. */
export function bringProjectionsUpToDate(session: CellarSession): void {
  const { sqlite } = session.cellar;
  const format = sqlite.prepare('SELECT projection_format FROM cellar WHERE id = 1').pluck().get();
  if (format !== PROJECTION_FORMAT) rebuildProjections(session);
}

/**
 * Drops everything that follows from the book and writes it anew from the first line, in one transaction. What points at
 * what is looked over once at the end instead of at every row. Returns the number of entries; throws, with nothing
 * changed, when a line cannot be replayed or a row would point at nothing.
 */
export function rebuildProjections(session: CellarSession): number {
  const { sqlite } = session.cellar;
  sqlite.pragma('foreign_keys = OFF');
  try {
    return sqlite.transaction(() => rewriteAll(session)).immediate();
  } finally {
    sqlite.pragma('foreign_keys = ON');
  }
}

function rewriteAll({ cellar, book, records: kept }: CellarSession): number {
  const { sqlite } = cellar;
  const records = rememberRecords(kept);
  const reader = openFileReader(sqlite, records, book);
  const projector = openProjector(sqlite, records, book, openShelvesProjection(sqlite, records));
  for (const table of PROJECTED_TABLES) sqlite.exec(`DELETE FROM "${table}"`);
  let done = 0;
  for (let page = book.page(0, PAGE); page.length > 0; page = book.page(page.at(-1)?.sequence ?? 0, PAGE)) {
    for (const entry of page) {
      const { id: entryId, happenedAtMs, act, sequence } = entry;
      const outcome = applyAct(reader, act, { entryId, happenedAtMs });
      if (!outcome.ok) throw new Error(`entry ${entryId} cannot be replayed: ${outcome.error.type}`);
      projector.apply(entry, sequence, outcome.value);
      done += 1;
    }
  }
  projector.refresh(sqlite.prepare('SELECT id FROM vessel').pluck().all() as VesselId[]);
  const [loose] = sqlite.pragma('foreign_key_check') as { table: string; parent: string }[];
  if (loose !== undefined) throw new Error(`a row of ${loose.table} points at no ${loose.parent}`);
  sqlite
    .prepare('UPDATE cellar SET projection_format = ?, words_format = ? WHERE id = 1')
    .run(PROJECTION_FORMAT, WORDS_FORMAT);
  return done;
}

/** Every table that can be dropped and rebuilt from the book. */
export const PROJECTED_TABLES: readonly string[] = [
  'shelf_row',
  ...WORDS_TABLES,
  'entry_image',
  'entry_subject',
  ...[...RECORD_KINDS].reverse().map((kind) => getTableName(RECORD_TABLES[kind])),
];
