import {
  amount,
  lacking,
  warmthBand,
  warmthLimit,
  type FamilyWords,
  type Numbers,
  type VerdictHouse,
} from './sentence.ts';

const hottest = (n: Numbers, h: VerdictHouse): string => `the vinegar reached ${warmthBand(n, h, 'upper')}`;
const coolest = (n: Numbers, h: VerdictHouse): string => `the vinegar reached ${warmthBand(n, h, 'lower')}`;
const minutes = (n: Numbers): string => amount(n, 'minutes', { side: 'lower', decimals: 0 });

/** Heating vinegar for the shelf. */
export const STABILISING_WORDS: FamilyWords = {
  'PAS-01': {
    about: 'how hot the vinegar became, and how long',
    says: {
      met: (n, h) =>
        `Rule PAS-01: ${coolest(n, h)} for ${minutes(n)} minutes, between ${warmthLimit(60, h, 'lower')} and ${warmthLimit(71, h, 'upper')} and not under 10 minutes.`,
      missing: lacking(
        {
          'heating.reachedCelsius': 'How hot the middle of the vinegar became is not on record.',
          'heating.pot': 'What the pot is made of is not on record.',
          'heating.minutes': (n, h) => `${coolest(n, h)}, and how long it stayed there is not on record.`,
        },
        'How hot the vinegar became, for how long and in what pot is not on record.',
      ),
      condition: (n, h) =>
        `${hottest(n, h)}, not shown to stay within ${warmthLimit(71, h, 'upper')}. So hot, acid and aroma go off with the steam: measure the acidity again.`,
      straddles: (n, h) =>
        `${coolest(n, h)}. With the thermometer’s error it may be under ${warmthLimit(60, h, 'lower')}, and that does not count.`,
      wrong_side: (n, h) =>
        `${coolest(n, h)}, under ${warmthLimit(60, h, 'lower')}. Do not call it pasteurised.`,
      category:
        'The pot is of a metal that acid dissolves. Heat vinegar in stainless steel, glass or whole enamel.',
      not_yet: lacking(
        {
          'heating.minutes': (n, h) =>
            `${coolest(n, h)} for ${minutes(n)} minutes. It has to stay there for 10.`,
        },
        (n, h) =>
          `${coolest(n, h)}, not yet ${warmthLimit(60, h, 'lower')}. Heat it on before you rely on it.`,
      ),
    },
  },
  'PAS-02': {
    about: 'keeping the living culture',
    says: {
      met: 'Rule PAS-02: some living vinegar or mother is kept back.',
      missing: lacking(
        {
          'culture.otherHolders':
            'Nothing is kept back, and whether anyone else has this mother is not on record.',
        },
        'Whether some living vinegar or mother is kept back is not on record.',
      ),
      condition:
        'Nothing is kept back, but someone else has this mother. Ask them for some before you need it.',
      category: 'This is the last of its mother, and heat kills it. Keep some back unheated first.',
    },
  },
  'PAS-03': {
    about: 'filling hot vinegar into glass',
    says: {
      met: 'Rule PAS-03: the bottles are warm when the hot vinegar goes in.',
      missing: 'How warm the bottles are when the hot vinegar goes in is not on record.',
      condition: (_, h) =>
        `The bottles are cold. Warm them first, so that glass and vinegar are no more than ${h.temperature === 'F' ? '72\u00A0°F' : '40\u00A0°C'} apart, and keep your face from the fumes.`,
      category:
        'The glass is cracked, or thin and cold. It breaks when hot vinegar meets it: take other bottles.',
    },
  },
};
