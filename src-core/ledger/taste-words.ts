import { z } from 'zod';

/**
 * The words a tasting is told in, by group: common words of the trade, our own choice, no source. A word once written
 * in a book stays readable: words may be added, never taken away or renamed.
 */
export const TASTE_GROUPS = {
  fruit: ['apple', 'pear', 'stoneFruit', 'berries', 'citrus', 'driedFruit'],
  floral: ['blossom', 'honey', 'tea', 'herbs'],
  sharpness: ['soft', 'bright', 'sharp', 'harsh'],
  sweetness: ['dry', 'offDry', 'sweet', 'cloying'],
  yeast: ['bread', 'nuts', 'yeasty', 'clove'],
  wood: ['oak', 'vanilla', 'smoke', 'tannin'],
  salt: ['salty', 'savoury', 'crisp', 'garlicAndSpice'],
  faults: ['solvent', 'rottenEgg', 'musty', 'mouse', 'stale', 'rancid'],
} as const;

export type TasteGroup = keyof typeof TASTE_GROUPS;
export const TASTE_GROUP_NAMES = Object.keys(TASTE_GROUPS) as TasteGroup[];

export const TASTE_WORDS = [
  ...TASTE_GROUPS.fruit,
  ...TASTE_GROUPS.floral,
  ...TASTE_GROUPS.sharpness,
  ...TASTE_GROUPS.sweetness,
  ...TASTE_GROUPS.yeast,
  ...TASTE_GROUPS.wood,
  ...TASTE_GROUPS.salt,
  ...TASTE_GROUPS.faults,
] as const;
export const TasteWord = z.enum(TASTE_WORDS);
export type TasteWord = z.infer<typeof TasteWord>;

export type FaultWord = (typeof TASTE_GROUPS)['faults'][number];

/** True for a word that names something wrong. It decides nothing: what may be done is decided by the safety rules alone. */
export function isFaultWord(word: TasteWord): word is FaultWord {
  return (TASTE_GROUPS.faults as readonly string[]).includes(word);
}

export const SCORE_MIN = 1;
export const SCORE_MAX = 5;
