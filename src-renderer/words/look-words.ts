import type { Sight } from '#core/safety/look-guide.ts';
import { RULES } from '#core/safety/rule-book.ts';
import { SOURCES, type Source } from '#core/safety/sources.ts';

type WordsOf<Value extends string> = Readonly<Record<Value, string>>;

/** What is asked of a growth, in the order it is looked at, with plain names for what may be seen. */
export const SIGHT_WORDS: {
  readonly [F in Exclude<keyof Sight, 'surface'>]: {
    readonly question: string;
    readonly choices: WordsOf<NonNullable<Sight[F]>>;
  };
} = {
  feel: { question: 'Does it look wet or dry?', choices: { wet: 'wet, shiny', dry: 'dry, powdery' } },
  colour: {
    question: 'What colour is it?',
    choices: {
      whiteOrCream: 'white or cream',
      clearOrTan: 'clear, tan or the colour of the liquid',
      blueGreenBlackPinkOrange: 'blue, green, black, pink or orange, even one spot',
    },
  },
  shape: {
    question: 'What shape has it?',
    choices: {
      smoothDisc: 'a smooth, even disc of jelly',
      wrinkledFilm: 'a thin film, smooth or wrinkled',
      raisedRoundSpots: 'raised round spots',
    },
  },
  where: {
    question: 'Where is it?',
    choices: {
      onLiquid: 'on the liquid or in it',
      onSolidsAboveBrine: 'on something that stands out of the brine',
      onGlass: 'on the wall of the vessel',
    },
  },
};

export const SURFACE_WORDS = {
  bare: 'Nothing grows there',
  flat: 'Something flat',
  fuzzy: 'Something fuzzy or furry',
  cannotTell: 'I cannot tell',
} as const;

/** What a look has found, what it likely is, and what to do. Never that it is safe. */
const SIGNS: Readonly<Record<string, { readonly title: string; readonly advice: string }>> = {
  none: {
    title: 'Nothing grows on it',
    advice: 'Go on as before. While it works or stands open, a look counts for a week.',
  },
  mother: {
    title: 'Likely a mother: the disc of the culture itself',
    advice: 'It is usually harmless. Leave it, and look again within a week.',
  },
  strayDisc: {
    title: 'A disc of jelly where none belongs',
    advice:
      'It is likely the work of vinegar bacteria, usually harmless, but it turns this sour. Skim it off, keep air out, and watch.',
  },
  flatFilm: {
    title: 'Likely film yeast',
    advice:
      'It is usually harmless. Skim it off, keep everything under the liquid, mend the cover, and use it soon. On vegetables past their day with a pH that is not below the limit, throw it all out.',
  },
  cannotTell: {
    title: 'It cannot be told yet',
    advice:
      'Hold it for at most two days. Do not taste it and do not share it. If it turns fuzzy or coloured, or is still growing and not to be told then, throw it out.',
  },
  fuzzyOrColoured: {
    title: 'Mould',
    advice:
      'Throw all of it out: the liquid, the culture, and anything wooden that touched it. Skimming does not save it, nor does acid, and it is not for cleaning either.',
  },
  'MLD-03.deadline': {
    title: 'Two days have passed and it still cannot be told',
    advice: 'Throw all of it out, the culture too.',
  },
  'FLY-01.category': {
    title: 'Flies or their maggots are in it',
    advice:
      'Throw it out. Some advice lets the culture be washed and kept; the stricter advice is followed here.',
  },
  'FLY-01.condition': {
    title: 'Flies are about, or the cover lets them in',
    advice: 'Cover it with tight cloth or a coffee filter, not with cheesecloth.',
  },
  'OFF-01.category': { title: 'It smells rotten', advice: 'Throw it out. Do not taste it.' },
  'OFF-01.condition': {
    title: 'It smells of rotten eggs',
    advice: 'Rack it and give it air, then smell it again. Do not taste it before.',
  },
  'ETH-01.condition': {
    title: 'It smells faintly of varnish',
    advice: 'Give it more air and surface at 20 to 28 °C, and smell it again in two weeks.',
  },
  'ETH-01.not_yet': {
    title: 'It smells strongly of varnish',
    advice:
      'Give it air and hold it. If the smell has not faded within four weeks of the first time, do not use it and do not give it away.',
  },
  'ETH-01.deadline': {
    title: 'It has smelled of varnish for four weeks or more',
    advice: 'Do not use it and do not give it away.',
  },
  'VEG-06.condition': { title: 'The brine is cloudy', advice: 'That alone is normal in a ferment at work.' },
  'VEG-06.category': {
    title: 'Slimy, soft, pink or foul',
    advice: 'Throw it out without tasting it.',
  },
  'VIN-10.condition': {
    title: 'Vinegar eels',
    advice:
      'They do no harm, but filter and heat the vinegar, keep its culture apart, and pass neither on to anyone.',
  },
};

/** The words of one sign. A sign without words of ours is told as something to hold for, never left out. */
export function saySign(key: string): { readonly title: string; readonly advice: string } {
  return (
    SIGNS[key] ?? {
      title: `Rule ${key} has something to say that this version has no words for`,
      advice: 'Hold it, do not taste it, and look again tomorrow.',
    }
  );
}

/** What the sign that would decide it is, as a request. */
export const ASK_NEXT: Readonly<Record<keyof Sight, string>> = {
  surface: 'Look closer: is it flat, or is it fuzzy?',
  feel: 'Look closer: is it wet or dry?',
  colour: 'Look closer, in good light: what colour is it?',
  shape: 'Look closer: what shape has it?',
  where: 'Look closer: where is it?',
};

export const NEVER_TASTE = 'Never taste a doubtful jar to find out.';

/** The titles of what stands behind some rules, each once. */
export function sourcesBehind(ruleIds: readonly string[]): readonly string[] {
  const ids = new Set(RULES.filter(({ id }) => ruleIds.includes(id)).flatMap(({ sourceIds }) => sourceIds));
  const sources: Readonly<Record<string, Source>> = SOURCES;
  return [...ids].flatMap((id) => sources[id]?.title ?? []);
}
