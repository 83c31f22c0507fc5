import { amount, daysIn, lacking, NBSP, numberIn, type FamilyWords, type Numbers } from './sentence.ts';
import { withheld } from './withheld.ts';

const base = (n: Numbers): string => amount(n, 'strength', { side: 'lower', unit: '%' });

/** Herbs, fruit and garlic in vinegar and in oil. */
export const INFUSION_WORDS: FamilyWords = {
  'INF-01': {
    about: 'herbs or fruit steeped in vinegar',
    says: {
      met: (n) =>
        `Rule INF-01: the vinegar beneath shows ${base(n)}, not under 5${NBSP}%; the herbs were cleaned and are strained out; it has stood ${daysIn(n)}, within its time.`,
      condition: (n) =>
        (numberIn(n, 'strength') ?? 5) < 5
          ? `The vinegar beneath shows ${base(n)}, under 5${NBSP}%. Keep the steeped vinegar in the refrigerator.`
          : (numberIn(n, 'days') ?? 0) > 180
            ? `The steeped vinegar has stood ${daysIn(n)}. In the refrigerator it keeps 6 to 8 months: use it up.`
            : 'The herbs were not cleaned, the vinegar not heated or the herbs not all strained out. Keep the steeped vinegar in the refrigerator.',
      category: `Steeped vinegar keeps outside the refrigerator only on a cool shelf, and only when it is 5${NBSP}% or more, heated, made with cleaned herbs and strained. Here not all of that is shown.`,
      ...withheld('acidity', 'How strong the vinegar beneath is is not shown'),
      missing: lacking(
        {
          acidity: 'The vinegar beneath was not measured, and no label gives its strength.',
          'infusion.herbsSanitised':
            'Whether the herbs or fruit were cleaned of germs first is not on record.',
          'infusion.vinegarHeated':
            'Whether the vinegar was heated before the herbs went in is not on record.',
          'infusion.strained': 'Whether the herbs or fruit are strained out is not on record.',
          'infusion.garlicOrVegetableLeftIn':
            'Whether garlic or vegetables are left in the steeped vinegar is not on record.',
          'infusion.madeAtMs': 'When the herbs or fruit went into the vinegar is not on record.',
          'storage.place': 'Where the steeped vinegar is kept is not on record.',
        },
        'How the steeped vinegar was made and kept is not on record in full.',
      ),
      wrong_side: (n) =>
        `The vinegar beneath shows ${base(n)}, under 4${NBSP}%. It is too weak to steep anything in.`,
      deadline: (n) =>
        `The steeped vinegar has stood ${daysIn(n)}. Its time is 3 months on a cool shelf and 8 in the refrigerator.`,
    },
  },
  'INF-02': {
    about: 'garlic, herbs or vegetables in oil',
    says: {
      met: 'Rule INF-02: the garlic or herbs were soured by the tested citric-acid method before they went into the oil.',
      condition: (n) =>
        numberIn(n, 'limit') === null
          ? 'What is fresh in this oil is kept by the cold alone. Leave it in the freezer until you use it.'
          : `It has stood ${daysIn(n)} in the refrigerator. Use it up within 4 days of making it, or freeze it: botulism grows unseen where oil shuts out the air.`,
      category:
        'Garlic, herbs or vegetables in oil that stand warm, or were soured with vinegar, can carry botulism without any smell or taste. Throw it out.',
      missing: lacking(
        {
          'infusedOil.acidified':
            'Whether the garlic or herbs were soured before they went into the oil, and how, is not on record.',
          'infusedOil.madeAtMs': 'When the garlic or herbs went into the oil is not on record.',
          'storage.place': 'Where the oil is kept is not on record.',
        },
        'How old the oil is and where it is kept is not on record.',
      ),
      deadline: (n) =>
        `The oil is ${daysIn(n)} old. Fresh garlic, herbs or vegetables in oil last 4 days in the refrigerator. Throw it out.`,
    },
  },
};
