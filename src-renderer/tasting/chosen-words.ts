import { TASTE_WORDS, type TasteWord } from '#core/ledger/taste-words.ts';

/** Words as a form holds them: their names with a space between, in the order of the wheel. */
export function wordsIn(text: string): readonly TasteWord[] {
  const named = new Set(text.split(' '));
  return TASTE_WORDS.filter((word) => named.has(word));
}

/** The same text with one word more or less. */
export function toggled(text: string, word: TasteWord): string {
  const now = wordsIn(text);
  const next = now.includes(word) ? now.filter((one) => one !== word) : [...now, word];
  return TASTE_WORDS.filter((one) => next.includes(one)).join(' ');
}
