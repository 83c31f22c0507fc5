import type { Database } from 'better-sqlite3';
import type { Found } from '#core/contract/find.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { BatchesQuery } from '../cellar-book/batches-query.ts';
import { foldForSearch, likeAnywhere } from './fold-for-search.ts';

/** Finds vessels, batches, cultures and notes by any part of a word, whatever the case or accents. */
export interface FindQuery {
  everywhere(text: string, limit: number): Found;
  vesselAt(code: string): ShelfRow | null;
}

const NOTHING: Found = { vessels: [], batches: [], cultures: [], notes: [] };
/** The trigram index answers from three characters on. */
const TRIGRAM = 3;

export function openFindQuery(sqlite: Database, batches: BatchesQuery): FindQuery {
  const vessels = sqlite
    .prepare(
      `SELECT shown FROM shelf_row WHERE search LIKE @like ESCAPE '\\'
       ORDER BY (substr(search, 1, length(@folded)) <> @folded), in_use DESC, number LIMIT @limit`,
    )
    .pluck();
  const batchIds = sqlite
    .prepare(
      `SELECT id FROM batch WHERE fold_for_search(name || ' ' || code) LIKE @like ESCAPE '\\'
       ORDER BY (code <> @exact), (substr(fold_for_search(name), 1, length(@folded)) <> @folded), started_at_ms DESC LIMIT @limit`,
    )
    .pluck();
  const cultures = sqlite.prepare(
    `SELECT id AS cultureId, name, sort FROM culture WHERE fold_for_search(name) LIKE @like ESCAPE '\\' ORDER BY name LIMIT @limit`,
  );
  const notes = sqlite.prepare(
    `SELECT entry.entry_id AS entryId, entry.happened_at_ms AS happenedAtMs, note_text.text,
       (SELECT subject_id FROM entry_subject AS s WHERE s.sequence = entry.sequence AND s.kind = 'batch' LIMIT 1) AS batchId,
       (SELECT subject_id FROM entry_subject AS s WHERE s.sequence = entry.sequence AND s.kind = 'vessel' LIMIT 1) AS vesselId,
       (SELECT subject_id FROM entry_subject AS s WHERE s.sequence = entry.sequence AND s.kind = 'culture' LIMIT 1) AS cultureId
     FROM note_text JOIN entry ON entry.sequence = note_text.rowid
     WHERE note_text MATCH @phrase AND NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)
     ORDER BY entry.sequence DESC LIMIT @limit`,
  );
  const bySpot = sqlite.prepare(
    `SELECT shelf_row.shown FROM shelf JOIN vessel ON vessel.shelf_id = shelf.id JOIN shelf_row ON shelf_row.vessel_id = vessel.id
     WHERE shelf.letter = ? AND vessel.position = ?`,
  );
  const byNumber = sqlite.prepare('SELECT shown FROM shelf_row WHERE number = ?');
  const shownIn = (row: unknown): ShelfRow | null =>
    row === undefined ? null : (JSON.parse((row as { shown: string }).shown) as ShelfRow);

  return {
    everywhere(text, limit) {
      // FTS5 ends a phrase at a zero byte, and no text of the cellar has one.
      const typed = text.replaceAll('\0', '').trim();
      if (typed === '') return NOTHING;
      const values = {
        like: likeAnywhere(typed),
        folded: foldForSearch(typed),
        exact: typed.toUpperCase(),
        limit,
      };
      // Inside double quotes FTS5 takes every character as text; a quote is doubled.
      const phrase = `"${typed.replaceAll('"', '""')}"`;
      return {
        vessels: (vessels.all(values) as string[]).map((shown) => JSON.parse(shown) as ShelfRow),
        batches: (batchIds.all(values) as BatchId[]).flatMap((id) => batches.row(id) ?? []),
        cultures: cultures.all(values) as Found['cultures'],
        notes: [...typed].length < TRIGRAM ? [] : (notes.all({ phrase, limit }) as Found['notes']),
      };
    },
    vesselAt(code) {
      const typed = code.trim().toUpperCase();
      const spot = /^([A-Z]{1,2})(\d{1,4})$/.exec(typed);
      if (spot !== null) return shownIn(bySpot.get(spot[1], Number(spot[2])));
      const number = /^#?(\d{1,9})$/.exec(typed);
      return number === null ? null : shownIn(byNumber.get(Number(number[1])));
    },
  };
}
