import {
  band,
  lacking,
  NBSP,
  numberIn,
  partsPerMillion,
  type FamilyWords,
  type Numbers,
} from './sentence.ts';
import { withheld } from './withheld.ts';

const measured = (n: Numbers): string => {
  const [value, error] = [numberIn(n, 'value'), numberIn(n, 'uncertainty')];
  if (value === null || error === null) return band(n, { side: 'upper', decimals: 0, unit: 'ppm' });
  return `${partsPerMillion(value).replace(`${NBSP}ppm`, '')} ± ${partsPerMillion(error)}`;
};
const foreseen = (n: Numbers): string => partsPerMillion(numberIn(n, 'ppm'));

/** Carbon dioxide in the air of the cellar. */
export const GAS_WORDS: FamilyWords = {
  'CO2-01': {
    about: 'the gas measured in the cellar',
    says: {
      ...withheld('carbonDioxide', 'How much gas lies in the cellar is not shown'),
      met: (n) => `Rule CO2-01: at knee height the air holds ${measured(n)}, under 5,000 ppm.`,
      missing: 'The air was not measured and cannot be worked out. Air the cellar before anyone goes in.',
      condition: (n) =>
        `The air holds ${measured(n)} of carbon dioxide, not shown to be under 5,000. Open up, and do not stay in there to work.`,
      wrong_side: (n) =>
        `The air may hold 30,000 ppm of carbon dioxide or more: ${measured(n)} was measured. Nobody goes in. Open up from outside.`,
      method: lacking(
        {
          'roomAir.measuredAtKneeHeight': (n) =>
            `${measured(n)} was measured, but not at knee height. The gas lies near the floor, and higher up you measure too little.`,
        },
        'How much gas lies in the cellar is not shown: how the air was measured is not on record.',
      ),
    },
  },
  'CO2-02': {
    about: 'the gas to be expected in the cellar',
    says: {
      met: (n) => `Rule CO2-02: by reckoning at most ${foreseen(n)} can gather, under 5,000 ppm.`,
      missing: lacking(
        {
          'roomAir.activeLitres': 'How many litres are fermenting in the room is not on record.',
          'roomAir.pointsPerDay': 'How fast the liveliest of them falls in a day is not on record.',
          'roomAir.roomLitres': 'The size of the room is not on record.',
          'roomAir.closedDays': 'How long the room has been shut is not on record.',
        },
        'How much gas can gather in the room cannot be worked out from what is on record.',
      ),
      condition: (n) =>
        `By reckoning up to ${foreseen(n)} of carbon dioxide can gather, 5,000 or more. Air the room before you go in, and take a detector.`,
      wrong_side: (n) =>
        `By reckoning up to ${foreseen(n)} of carbon dioxide can gather, over 30,000. Nobody goes in before the room has been aired from outside.`,
    },
  },
  'CO2-03': {
    about: 'signs of bad air in the people in the cellar',
    says: {
      met: 'Rule CO2-03: nobody feels a headache, a racing heart or shaking.',
      missing: 'Whether anyone feels a headache, a racing heart or shaking is not on record.',
      category:
        'Someone feels it: an aching head, a pounding heart, shaking. Everybody leaves now, and help is called; to fetch a person is no reason to go back alone. A burning candle proves nothing.',
    },
  },
};
