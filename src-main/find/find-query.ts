import type { Database } from 'better-sqlite3';
import type { Found, FoundDay, FoundLabel } from '#core/contract/find.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { BatchesQuery } from '../cellar-book/batches-query.ts';
import type { BookStore } from '../ledger/book-store.ts';
import { askedWords, type AskedWords } from './asked-words.ts';
import { openDaysQuery } from './days-query.ts';
import { openLabelFinder } from './label-finder.ts';
import { foldForSearch, likeAnywhere } from './fold-for-search.ts';

/** Finds vessels, batches, cultures and lines of the book by any part of a word, whatever the case or accents. */
export interface FindQuery {
  everywhere(text: string, limit: number): Found;
  days(text: string, beforeSequence: number | null, limit: number): { days: FoundDay[]; more: boolean };
  vesselAt(code: string): ShelfRow | null;
  label(id: string): FoundLabel | null;
}

/** Batches looked at before the best few are chosen: the newest that have the words in their name or code. */
const CANDIDATES = 400;

export function openFindQuery(sqlite: Database, book: BookStore, batches: BatchesQuery): FindQuery {
  const days = openDaysQuery(sqlite, book);
  const vessels = sqlite
    .prepare(
      `SELECT shown FROM shelf_row WHERE search LIKE @like ESCAPE '\\'
       ORDER BY (substr(search, 1, length(@folded)) <> @folded), in_use DESC, number LIMIT @limit`,
    )
    .pluck();
  const cultures = sqlite.prepare(
    `SELECT id AS cultureId, name, sort FROM culture WHERE fold_for_search(name) LIKE @like ESCAPE '\\' ORDER BY name LIMIT @limit`,
  );
  const batchesNamed = openBatchesNamed(sqlite);
  const label = openLabelFinder(sqlite, batches);
  const bySpot = sqlite.prepare(
    `SELECT shelf_row.shown FROM shelf JOIN vessel ON vessel.shelf_id = shelf.id JOIN shelf_row ON shelf_row.vessel_id = vessel.id
     WHERE shelf.letter = ? AND vessel.position = ?`,
  );
  const byNumber = sqlite.prepare('SELECT shown FROM shelf_row WHERE number = ?');
  const shownIn = (row: unknown): ShelfRow | null =>
    row === undefined ? null : (JSON.parse((row as { shown: string }).shown) as ShelfRow);

  return {
    everywhere(text, limit) {
      const typed = text.replaceAll('\0', '').trim();
      if (typed === '') return { vessels: [], batches: [], cultures: [], days: [] };
      const values = { like: likeAnywhere(typed), folded: foldForSearch(typed), limit };
      const asked = askedWords(typed);
      // An id off a label names one thing, which then comes first.
      const labelled = label(typed);
      const exact = labelled === null || labelled.kind === 'vessel' ? [] : [labelled.batch];
      const found = firstOf(
        [...exact, ...batchesNamed(typed, asked, limit).flatMap((id) => batches.row(id) ?? [])],
        ({ batchId }) => batchId,
        limit,
      );
      const named = new Set<string>(found.map(({ batchId }) => batchId));
      return {
        vessels: firstOf(
          [
            ...(labelled?.kind === 'vessel' ? [labelled.row] : []),
            ...(vessels.all(values) as string[]).map((shown) => JSON.parse(shown) as ShelfRow),
          ],
          ({ vesselId }) => vesselId,
          limit,
        ),
        batches: found,
        cultures: cultures.all(values) as Found['cultures'],
        days: days.page(asked, { beforeSequence: null, limit, except: named }).days,
      };
    },
    days: (text, beforeSequence, limit) =>
      days.page(askedWords(text), { beforeSequence, limit, except: new Set() }),
    label,
    vesselAt(code) {
      const typed = code.trim().toUpperCase();
      const spot = /^([A-Z]{1,2})(\d{1,4})$/.exec(typed);
      if (spot !== null) return shownIn(bySpot.get(spot[1], Number(spot[2])));
      const number = /^#?(\d{1,9})$/.exec(typed);
      return number === null ? null : shownIn(byNumber.get(Number(number[1])));
    },
  };
}

/** The first few, each once. */
function firstOf<T>(all: readonly T[], keyOf: (one: T) => string, limit: number): T[] {
  return [...new Map([...all].reverse().map((one) => [keyOf(one), one])).values()].reverse().slice(0, limit);
}

/** Batches by name or code: the code itself first, then names that begin with what was typed, then the newest. */
function openBatchesNamed(sqlite: Database): (typed: string, asked: AskedWords, limit: number) => BatchId[] {
  const byCode = sqlite.prepare('SELECT id FROM batch WHERE code = ?').pluck();
  const columns = `SELECT batch.id, fold_for_search(batch.name || ' ' || batch.code) AS named FROM batch`;
  const byWords = sqlite.prepare(
    `${columns} JOIN batch_number ON batch_number.batch_id = batch.id
     WHERE batch_number.number IN (SELECT rowid FROM batch_words WHERE batch_words MATCH ? ORDER BY rowid DESC LIMIT ${CANDIDATES})
     ORDER BY started_at_ms DESC`,
  );
  const newest = sqlite.prepare(
    `${columns} WHERE named LIKE ? ESCAPE '\\' ORDER BY started_at_ms DESC LIMIT ${CANDIDATES}`,
  );
  return (typed, asked, limit) => {
    const exact = byCode.pluck().get(typed.toUpperCase()) as BatchId | undefined;
    const rows = (asked.match === null ? newest.all(likeAnywhere(typed)) : byWords.all(asked.match)) as {
      id: BatchId;
      named: string;
    }[];
    const folded = foldForSearch(typed);
    const hits = rows.filter(({ named }) => asked.words.every((word) => named.includes(word)));
    const begins = hits.filter(({ named }) => named.startsWith(folded));
    const rest = hits.filter(({ named }) => !named.startsWith(folded));
    const ids = [...(exact === undefined ? [] : [exact]), ...[...begins, ...rest].map(({ id }) => id)];
    return [...new Set(ids)].slice(0, limit);
  };
}
