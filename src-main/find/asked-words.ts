import { foldForSearch, likeAnywhere } from './fold-for-search.ts';

/** The trigram index answers from three characters on. */
const TRIGRAM = 3;
const MOST_WORDS = 12;

/** What is looked for: every word must be there, in any order; what stands in double quotes stays together. */
export interface AskedWords {
  /** Folded words and phrases, as they are looked for. */
  readonly words: readonly string[];
  /** For MATCH on a trigram table; null when no word is long enough for it. */
  readonly match: string | null;
  /** LIKE patterns of the words too short for the index. */
  readonly shortLikes: readonly string[];
}

export function askedWords(text: string): AskedWords {
  // FTS5 ends a phrase at a zero byte, and no text of the cellar has one.
  const folded = foldForSearch(text.replaceAll('\0', '').trim());
  const words = [...folded.matchAll(/"([^"]*)"?|[^\s"]+/gu)]
    .map(([whole, quoted]) => (quoted ?? whole).trim())
    .filter((word) => word !== '')
    .slice(0, MOST_WORDS);
  const isLong = (word: string): boolean => [...word].length >= TRIGRAM;
  const long = words.filter(isLong);
  return {
    words,
    // Inside double quotes FTS5 takes every character as text, and no word here has a quote in it.
    match: long.length === 0 ? null : long.map((word) => `"${word}"`).join(' AND '),
    shortLikes: words.filter((word) => !isLong(word)).map(likeAnywhere),
  };
}
