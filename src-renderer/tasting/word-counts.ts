import type { TastingRow } from '#core/contract/tastings.ts';
import { TASTE_WORDS, type TasteWord } from '#core/ledger/taste-words.ts';

export interface WordCount {
  readonly word: TasteWord;
  readonly count: number;
  /** Share of the tastings that used any word, 0 to 1. */
  readonly share: number;
}

/** How often each word was used, the most used first; of words used equally often, in the order of the wheel. */
export function wordCounts(tastings: readonly Pick<TastingRow, 'words'>[]): readonly WordCount[] {
  const told = tastings.filter(({ words }) => words.length > 0).length;
  return TASTE_WORDS.map((word) => {
    const count = tastings.filter(({ words }) => words.includes(word)).length;
    return { word, count, share: told === 0 ? 0 : count / told };
  })
    .filter(({ count }) => count > 0)
    .sort((a, b) => b.count - a.count);
}
