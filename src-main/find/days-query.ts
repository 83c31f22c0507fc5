import type { Database } from 'better-sqlite3';
import type { FoundDay } from '#core/contract/find.ts';
import type { Act } from '#core/ledger/act.ts';
import { ENTRY_COLUMNS, type BookStore } from '../ledger/book-store.ts';
import type { AskedWords } from './asked-words.ts';
import { foldForSearch } from './fold-for-search.ts';
import { snippetOf } from './snippet.ts';
import { wordsOfLine } from './words-projection.ts';

/** Lines of the book by the words in them, newest first; struck ones are left out. */
export interface DaysQuery {
  page(
    asked: AskedWords,
    given: {
      readonly beforeSequence: number | null;
      readonly limit: number;
      /** Batches shown already: the line that named one is not shown again for that name alone. */
      readonly except: ReadonlySet<string>;
    },
  ): { days: FoundDay[]; more: boolean };
}

export function openDaysQuery(sqlite: Database, book: BookStore): DaysQuery {
  const columns = ENTRY_COLUMNS.split(', ').map((column) => `entry.${column}`);
  const prepare = (shortWords: number) =>
    sqlite.prepare(
      `SELECT ${columns.join(', ')} FROM line_words JOIN entry ON entry.sequence = line_words.rowid
       WHERE line_words MATCH @match AND line_words.rowid < @before
         ${Array.from({ length: shortWords }, (_, i) => `AND line_words.text LIKE @short${i} ESCAPE '\\'`).join(' ')}
         AND NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)
       ORDER BY line_words.rowid DESC LIMIT @limit`,
    );
  const prepared = new Map<number, ReturnType<typeof prepare>>();
  const subjects = sqlite.prepare(
    `SELECT kind, subject_id AS id,
       CASE kind WHEN 'batch' THEN (SELECT name FROM batch WHERE id = subject_id)
         WHEN 'culture' THEN (SELECT name FROM culture WHERE id = subject_id) END AS name,
       CASE kind WHEN 'batch' THEN (SELECT code FROM batch WHERE id = subject_id) END AS code
     FROM entry_subject WHERE sequence = ?`,
  );
  const toldAnew = sqlite.prepare('SELECT act FROM restatement WHERE id = ?').pluck();
  type Subject = { kind: string; id: string; name: string | null; code: string | null };

  return {
    page(asked, { beforeSequence, limit, except }) {
      const { match, words, shortLikes } = asked;
      if (match === null) return { days: [], more: false };
      const count = shortLikes.length;
      const statement = prepared.get(count) ?? prepare(count);
      prepared.set(count, statement);
      const before = beforeSequence ?? Number.MAX_SAFE_INTEGER;
      const shorts = Object.fromEntries(shortLikes.map((like, i) => [`short${i}`, like]));
      // Lines that only name a batch shown already are passed over, so a few more are asked for.
      const rows = statement.all({ match, before, limit: limit + 1 + except.size * 2, ...shorts });
      const found = book
        .fromRows(rows)
        .filter(({ act }) => !namesOnly(act, words, except))
        .map(({ id, sequence, happenedAtMs, act }): FoundDay => {
          const about = subjects.all(sequence) as Subject[];
          const batch = about.find(({ kind, name }) => kind === 'batch' && name !== null);
          const culture = about.find(({ kind, name }) => kind === 'culture' && name !== null);
          const vessel = about.find(({ kind }) => kind === 'vessel');
          const told = toldAnew.get(id) as string | undefined;
          const anew = told === undefined ? null : (JSON.parse(told) as Act);
          const { text, marks } = snippetOf(wordsOfLine(act, anew), words);
          return {
            ...{ entryId: id, sequence, happenedAtMs, text },
            marks: marks.map(([from, to]) => [from, to]),
            batch:
              batch === undefined
                ? null
                : ({
                    batchId: batch.id,
                    code: batch.code ?? '',
                    name: batch.name ?? '',
                  } as FoundDay['batch']),
            vesselId: (vessel?.id ?? null) as FoundDay['vesselId'],
            culture:
              culture === undefined
                ? null
                : ({ cultureId: culture.id, name: culture.name ?? '' } as FoundDay['culture']),
          };
        });
      return { days: found.slice(0, limit), more: found.length > limit };
    },
  };
}

/** Whether all the words stand in the name that the act gave to a batch which is shown already. */
function namesOnly(act: Act, words: readonly string[], shown: ReadonlySet<string>): boolean {
  const named = act.kind === 'startBatch' ? act : act.kind === 'transfer' ? act.newBatch : null;
  if (named === null || !shown.has(named.batchId)) return false;
  const name = foldForSearch(`${named.name} ${named.code}`);
  return words.every((word) => name.includes(word));
}
