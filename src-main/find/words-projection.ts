import type { Database } from 'better-sqlite3';
import type { Act } from '#core/ledger/act.ts';
import type { BatchRecord, Change } from '#core/ledger/records.ts';
import type { BookStore, StoredEntry } from '../ledger/book-store.ts';
import { wordsWritten } from '../ledger/words-written.ts';
import { foldForSearch } from './fold-for-search.ts';

/** Raised whenever the same book gives other words to be found by. */
export const WORDS_FORMAT = 2;
const PAGE = 2000;

/**
 * Keeps what the full-text search reads: the words of every line of the book under the line's number, and the words of
 * every batch as it stands. All are kept folded, so case and accents never hide them.
 */
export interface WordsProjection {
  /** Writes down the words of one line; called in the transaction that appends it. */
  writeLine(sequence: number, act: Act): void;
  /** Writes down the words of the batches that changed, and of the lines that are told anew or no longer are. */
  writeChanged(changes: readonly Change[], book: BookStore): void;
  /** Writes all anew when they were last written in another format than this program's. */
  bringUpToDate(book: BookStore): void;
}

/** The words a line is found by, as they are kept: its own, and those it was told anew in. */
export function lineWords(act: Act, toldAnew: Act | null): string {
  return foldForSearch(wordsOfLine(act, toldAnew));
}

/** The same as they were written, for showing the place. */
export function wordsOfLine(act: Act, toldAnew: Act | null): string {
  const words = [wordsWritten(act), toldAnew === null ? '' : wordsWritten(toldAnew)];
  return [...new Set(words)].filter((text) => text !== '').join('\n');
}

/** The words a batch is found by, as they are kept. */
export function batchWords({ name, code, note, ingredients }: Omit<BatchRecord, 'writtenBy'>): string {
  return foldForSearch([name, code, note, ...ingredients.map((i) => i.name)].filter(Boolean).join('\n'));
}

interface Restated {
  readonly id: string;
  readonly act: string;
}

export function openWordsProjection(sqlite: Database): WordsProjection {
  const removeLine = sqlite.prepare('DELETE FROM line_words WHERE rowid = ?');
  const insertLine = sqlite.prepare('INSERT INTO line_words (rowid, text) VALUES (?, ?)');
  const numberOf = sqlite.prepare('SELECT number FROM batch_number WHERE batch_id = ?').pluck();
  const giveNumber = sqlite.prepare('INSERT INTO batch_number (batch_id) VALUES (?)');
  const takeNumber = sqlite.prepare('DELETE FROM batch_number WHERE number = ?');
  const insertBatch = sqlite.prepare('INSERT INTO batch_words (rowid, text) VALUES (?, ?)');
  const updateBatch = sqlite.prepare('UPDATE batch_words SET text = ? WHERE rowid = ?');
  const deleteBatch = sqlite.prepare('DELETE FROM batch_words WHERE rowid = ?');

  const writeLine = (sequence: number, act: Act, toldAnew: Act | null = null): void => {
    const words = lineWords(act, toldAnew);
    if (words !== '') insertLine.run(sequence, words);
  };

  const writeToldAnew = (line: StoredEntry | null, toldAnew: Act | null): void => {
    if (line === null) return;
    removeLine.run(line.sequence);
    writeLine(line.sequence, line.act, toldAnew);
  };

  const writeBatch = (id: string, before: BatchRecord | null, after: BatchRecord | null): void => {
    const number = numberOf.get(id) as number | undefined;
    if (after === null) {
      if (number === undefined) return;
      deleteBatch.run(number);
      takeNumber.run(number);
      return;
    }
    const words = batchWords(after);
    if (number === undefined) insertBatch.run(giveNumber.run(id).lastInsertRowid, words);
    else if (before === null || batchWords(before) !== words) updateBatch.run(words, number);
  };

  const rewrite = (book: BookStore): void => {
    sqlite.exec('DELETE FROM line_words; DELETE FROM batch_words; DELETE FROM batch_number;');
    for (let after = 0; ;) {
      const page = book.page(after, PAGE);
      for (const { sequence, act } of page) writeLine(sequence, act);
      const last = page.at(-1);
      if (last === undefined) break;
      after = last.sequence;
    }
    for (const row of sqlite.prepare('SELECT id, act FROM restatement').all() as Restated[]) {
      writeToldAnew(book.byId(row.id), JSON.parse(row.act) as Act);
    }
    const batches = sqlite.prepare(
      'SELECT id, name, code, note, ingredients FROM batch ORDER BY started_at_ms',
    );
    for (const row of batches.all() as { id: string; ingredients: string }[]) {
      const ingredients = JSON.parse(row.ingredients) as BatchRecord['ingredients'];
      writeBatch(row.id, null, { ...row, ingredients } as unknown as BatchRecord);
    }
  };

  return {
    writeLine: (sequence, act) => {
      writeLine(sequence, act);
    },
    writeChanged(changes, book) {
      for (const change of changes) {
        if (change.kind === 'batch') writeBatch(change.id, change.before, change.after);
        if (change.kind === 'restatement')
          writeToldAnew(book.byId(change.id), change.after === null ? null : change.after.act);
      }
    },
    bringUpToDate(book) {
      const format = sqlite.prepare('SELECT words_format FROM cellar WHERE id = 1').pluck().get();
      if (format === WORDS_FORMAT) return;
      sqlite
        .transaction(() => {
          rewrite(book);
          sqlite.prepare('UPDATE cellar SET words_format = ? WHERE id = 1').run(WORDS_FORMAT);
        })
        .immediate();
    },
  };
}

/** Every table the search keeps, in an order in which they can be emptied. */
export const WORDS_TABLES: readonly string[] = ['line_words', 'batch_words', 'batch_number'];
