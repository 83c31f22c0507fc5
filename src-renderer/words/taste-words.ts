import type { ActOf } from '#core/ledger/act.ts';
import {
  isFaultWord,
  SCORE_MAX,
  SCORE_MIN,
  type FaultWord,
  type TasteGroup,
  type TasteWord,
} from '#core/ledger/taste-words.ts';

export const TASTE_GROUP_WORDS: Readonly<Record<TasteGroup, string>> = {
  fruit: 'Fruit',
  floral: 'Flowers and honey',
  sharpness: 'Sharpness',
  sweetness: 'Sweetness',
  yeast: 'Yeast',
  wood: 'Wood and tannin',
  salt: 'Salt and brine',
  faults: 'Faults',
};

export const TASTE_WORD_WORDS: Readonly<Record<TasteWord, string>> = {
  ...{ apple: 'apple', pear: 'pear', stoneFruit: 'stone fruit', berries: 'berries' },
  ...{ citrus: 'citrus', driedFruit: 'dried fruit' },
  ...{ blossom: 'blossom', honey: 'honey', tea: 'tea', herbs: 'herbs' },
  ...{ soft: 'soft', bright: 'bright', sharp: 'sharp', harsh: 'harsh' },
  ...{ dry: 'dry', offDry: 'off-dry', sweet: 'sweet', cloying: 'cloying' },
  ...{ bread: 'bread', nuts: 'nuts', yeasty: 'yeasty', clove: 'clove' },
  ...{ oak: 'oak', vanilla: 'vanilla', smoke: 'smoke', tannin: 'tannin' },
  ...{ salty: 'salty', savoury: 'savoury', crisp: 'crisp', garlicAndSpice: 'garlic and spice' },
  ...{ solvent: 'solvent', rottenEgg: 'rotten egg', musty: 'musty', mouse: 'mouse', stale: 'stale' },
  rancid: 'rancid',
};

export const SCORES = Array.from({ length: SCORE_MAX - SCORE_MIN + 1 }, (_, i) => SCORE_MIN + i);

const SCORE_WORDS: Readonly<Record<number, string>> = {
  1: 'poor',
  2: 'passable',
  3: 'good',
  4: 'very good',
  5: 'the best',
};

/** A score with what it stands for: `4, very good`. */
export function sayScore(score: number): string {
  const words = SCORE_WORDS[score];
  return words === undefined ? String(score) : `${score}, ${words}`;
}

/** What was tasted in one phrase: `score 4 of 5; apple, oak; a long finish`. */
export function sayTasting(told: Pick<ActOf<'tasteNote'>, 'words' | 'score' | 'text'>): string {
  const score = told.score === null ? '' : `score ${told.score} of ${SCORE_MAX}`;
  const words = told.words.map((word) => TASTE_WORD_WORDS[word]).join(', ');
  return [score, words, told.text].filter((part) => part !== '').join('; ');
}

/** Said wherever something is tasted, before any word is chosen. */
export const BEFORE_TASTING =
  'Never taste anything with mould on it, anything held or kept apart, or anything of which you cannot tell what grows on it. A taste shows nothing about safety: only the rules on the leaf do.';

/** What to do on meeting a fault. It says what the word may come from and defers to the rules; common practice, no source. */
const FAULT_ADVICE: Readonly<Record<FaultWord, string>> = {
  solvent:
    'A smell of solvent or nail varnish often comes from too little care with air, or from an unfinished vinegar. Do not go on tasting it.',
  rottenEgg:
    'A smell of rotten egg often comes from hungry yeast. Do not go on tasting it while it is there.',
  musty:
    'A musty taste can come from mould on the vessel, the cork or the fruit. Stop tasting and look for it.',
  mouse: 'A taste of mouse that comes late is a known fault of drinks with little acid and too much air.',
  stale: 'A stale or cardboard taste often comes from air. Look at the closure and the headspace.',
  rancid: 'A rancid or cheesy taste is not part of a sound ferment. Stop tasting it.',
};

/** Advice for the fault words among those chosen, in the order of the wheel; empty when there are none. */
export function faultAdvice(words: readonly TasteWord[]): readonly string[] {
  return words.filter(isFaultWord).map((word) => FAULT_ADVICE[word]);
}

/** Said after any advice on a fault. */
export const AFTER_A_FAULT =
  'Tell what you see and smell under “Look…”: what may be done with it is decided by the safety rules on the leaf and by what they ask you to measure, not by the taste. Never taste anything with mould on it.';
