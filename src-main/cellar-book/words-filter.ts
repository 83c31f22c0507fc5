import type { Database } from 'better-sqlite3';
import { askedWords } from '../find/asked-words.ts';

/** Which batches have all the words, each in its own name, code, note or ingredients or in any unstruck line about it. */
export interface WordsFilter {
  /** The ids as JSON text, for `json_each`. The same question is answered from memory until the book grows. */
  idsWith(text: string, bookLength: number): string;
}

export function openWordsFilter(sqlite: Database): WordsFilter {
  const byWord = sqlite
    .prepare(
      `SELECT batch_id FROM batch_number WHERE number IN (SELECT rowid FROM batch_words WHERE batch_words MATCH @match)
       UNION
       SELECT entry_subject.subject_id FROM line_words
         CROSS JOIN entry_subject ON entry_subject.sequence = line_words.rowid AND entry_subject.kind = 'batch'
       WHERE line_words MATCH @match AND line_words.rowid NOT IN (
         SELECT entry.sequence FROM strike CROSS JOIN entry ON entry.entry_id = strike.id)`,
    )
    .pluck();
  const byShortWord = sqlite
    .prepare(
      `SELECT batch_id FROM batch_number JOIN batch_words ON batch_words.rowid = batch_number.number
       WHERE batch_words.text LIKE ? ESCAPE '\\'`,
    )
    .pluck();
  let last = { question: '', ids: '[]' };

  return {
    idsWith(text, bookLength) {
      const { words } = askedWords(text);
      const question = JSON.stringify([words, bookLength]);
      if (question === last.question) return last.ids;
      const sets = words.map((word) => {
        const { match, shortLikes } = askedWords(`"${word}"`);
        const ids = match === null ? byShortWord.all(shortLikes[0] ?? '%') : byWord.all({ match });
        return new Set(ids as string[]);
      });
      const [first, ...rest] = sets;
      const ids = [...(first ?? [])].filter((id) => rest.every((set) => set.has(id)));
      last = { question, ids: JSON.stringify(ids) };
      return last.ids;
    },
  };
}
