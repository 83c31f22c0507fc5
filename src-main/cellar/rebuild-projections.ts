import { applyAct } from '#core/ledger/post-entry.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { RECORD_KINDS } from '#core/ledger/records.ts';
import { getTableName } from 'drizzle-orm';
import { WORDS_FORMAT, WORDS_TABLES } from '../find/words-projection.ts';
import { RECORD_TABLES } from '../ledger/ledger.tables.ts';
import { openProjector } from '../ledger/projector.ts';
import { openShelvesProjection } from '../shelves/shelves-projection.ts';
import type { CellarSession } from './session.ts';

const PAGE = 2000;

/** How the book is projected now. A change of the records raises it, and a file written in another is rebuilt when it is opened. */
const PROJECTION_FORMAT = 1;

/** Rebuilds a file that was projected in another way than this program's. */
export function bringProjectionsUpToDate(session: CellarSession): void {
  const { sqlite } = session.cellar;
  const format = sqlite.prepare('SELECT projection_format FROM cellar WHERE id = 1').pluck().get();
  if (format !== PROJECTION_FORMAT) rebuildProjections(session);
}

/** Drops everything that follows from the book and writes it anew from the first line, in one transaction. Returns the number of entries. */
export function rebuildProjections(session: CellarSession): number {
  const { cellar, book, records, reader } = session;
  const { sqlite } = cellar;
  const shelves = openShelvesProjection(sqlite, records);
  const projector = openProjector(sqlite, records, book, shelves);
  return sqlite
    .transaction(() => {
      for (const table of PROJECTED_TABLES) sqlite.exec(`DELETE FROM "${table}"`);
      let done = 0;
      for (
        let page = book.page(0, PAGE);
        page.length > 0;
        page = book.page(page.at(-1)?.sequence ?? 0, PAGE)
      ) {
        for (const entry of page) {
          const outcome = applyAct(reader, entry.act, {
            entryId: entry.id,
            happenedAtMs: entry.happenedAtMs,
          });
          if (!outcome.ok) throw new Error(`entry ${entry.id} cannot be replayed: ${outcome.error.type}`);
          projector.apply(entry, entry.sequence, outcome.value);
          done += 1;
        }
      }
      projector.refresh(sqlite.prepare('SELECT id FROM vessel').pluck().all() as VesselId[]);
      sqlite
        .prepare('UPDATE cellar SET projection_format = ?, words_format = ? WHERE id = 1')
        .run(PROJECTION_FORMAT, WORDS_FORMAT);
      return done;
    })
    .immediate();
}

/** Every table that can be dropped and rebuilt from the book. */
export const PROJECTED_TABLES: readonly string[] = [
  'shelf_row',
  ...WORDS_TABLES,
  'entry_image',
  'entry_subject',
  ...[...RECORD_KINDS].reverse().map((kind) => getTableName(RECORD_TABLES[kind])),
];
