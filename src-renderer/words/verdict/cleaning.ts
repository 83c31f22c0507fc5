import { roundedText } from '#core/quantities/round.ts';
import { lacking, NBSP, numberIn, type FamilyWords, type Numbers } from './sentence.ts';

const strength = (n: Numbers): string => {
  const value = numberIn(n, 'normality');
  return value === null ? '' : ` of ${roundedText(value, 2, 'upper').replace(/(\.\d)0$/u, '$1')}${NBSP}N`;
};

/** Kits have up to 0.2 N. */
const isOverKit = (n: Numbers): boolean => (numberIn(n, 'normality') ?? 0) > 0.2;

/** Bleach, sulfite, caustic, and what they leave behind. */
export const CLEANING_WORDS: FamilyWords = {
  'CLN-01': {
    about: 'bleach and acid',
    says: {
      met: 'Rule CLN-01: there is no bleach, or plenty of water rinsed between it and any acid.',
      missing: lacking(
        {
          'cleaning.bleach': 'Whether there is bleach in what you clean with is not on record.',
          'cleaning.acidOrSulfite':
            'Whether vinegar, acid or sulfite was in the vessel, the sink or the cloth is not on record.',
        },
        'What is in the cleaner, and what was there before, is not on record.',
      ),
      category:
        'Bleach would meet acid or sulfite without a full rinse between them, and that gives off a poison gas. Stop, open a window, and rinse with much water.',
    },
  },
  'CLN-02': {
    about: 'sulfite mixed with acid as a rinse',
    says: {
      met: 'Rule CLN-02: no sulfite is mixed with acid, or it is done outdoors with nobody near who has asthma.',
      missing: lacking(
        {
          'cleaning.sulfiteWithAcid': 'Whether the rinse mixes sulfite with acid is not on record.',
          'cleaning.asthmaPresent': 'Whether anyone near the sulfite rinse has asthma is not on record.',
          'cleaning.place': 'Where you mix the sulfite rinse is not on record.',
        },
        'How the sulfite rinse is mixed is not on record.',
      ),
      condition:
        'Mixed with acid, sulfite gives off a choking gas. An open window is the least: outdoors is better, and keep your head from over the bucket.',
      category:
        'Mixed with acid, sulfite gives off a choking gas, and the room is closed or someone with asthma is near. Do not mix it there.',
    },
  },
  'CLN-03': {
    about: 'sodium hydroxide',
    says: {
      met: (n) => `Rule CLN-03: sodium hydroxide${strength(n)}, as kits have it, with goggles and gloves on.`,
      missing: lacking(
        {
          'baseHandling.normality': 'The strength of the sodium hydroxide is not on record.',
          'baseHandling.goggles': 'Whether you wear goggles for the sodium hydroxide is not on record.',
          'baseHandling.gloves': 'Whether you wear gloves for the sodium hydroxide is not on record.',
          'baseHandling.labelledAndLocked':
            'Whether the sodium hydroxide is labelled and locked away is not on record.',
          'baseHandling.byMouth': 'Whether the sodium hydroxide is drawn up by mouth is not on record.',
        },
        'How the sodium hydroxide is handled is not on record.',
      ),
      condition: (n) =>
        isOverKit(n)
          ? `Sodium hydroxide${strength(n)} is stronger than kits have it. Wear gloves as well as goggles, and rinse any splash for 15 minutes.`
          : `Your hands are bare, and sodium hydroxide${strength(n)} burns them. Put gloves on, and rinse any splash for 15 minutes.`,
      category: (n) => {
        const value = numberIn(n, 'normality');
        if (value === null) {
          return 'The sodium hydroxide is drawn up by mouth, or is not labelled and locked away. It burns a throat and blinds: stop that first.';
        }
        return value > 1
          ? `Sodium hydroxide${strength(n)} is too strong to handle at home, over 1${NBSP}N. Do not use it.`
          : `Sodium hydroxide${strength(n)} without goggles on blinds at one splash. Do not use it like that.`;
      },
    },
  },
  'CLN-04': {
    about: 'what the last cleaner left behind',
    says: {
      met: 'Rule CLN-04: the last cleaner was rinsed out.',
      missing: 'Whether the last cleaner was rinsed out is not on record.',
      category: 'The last cleaner was not rinsed out. Rinse until nothing smells of it.',
    },
  },
};
