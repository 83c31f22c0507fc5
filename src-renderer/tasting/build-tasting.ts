import type { ActDraft, ActOf } from '#core/ledger/act.ts';
import type { FormReader } from '../acts/form-reader.ts';
import { wordsIn } from './chosen-words.ts';

export const TASTING_FIELDS = { words: '', score: '', text: '', by: '', happenedAtMs: 'now' } as const;
/** Words one tasting may have; the book takes no more. */
const WORDS_MAX = 24;

export function buildTasting(read: FormReader, about: ActOf<'tasteNote'>['about']): ActDraft {
  const words = [...wordsIn(read.raw('words'))];
  const score = /^[1-5]$/u.test(read.raw('score')) ? Number(read.raw('score')) : null;
  const text = read.note('text');
  const by = read.line('by', 60);
  if (words.length === 0 && score === null && text === '') {
    read.problem(
      'words',
      'Nothing is said of the taste yet. Choose a word, give a score, or write what you tasted.',
    );
  }
  if (words.length > WORDS_MAX) {
    read.problem(
      'words',
      `${words.length} words are chosen; at most ${WORDS_MAX} say anything. Take some away.`,
    );
  }
  read.when();
  return { kind: 'tasteNote', about, words, score, text, by };
}
