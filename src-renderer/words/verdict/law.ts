import { formatQuantity, shownText } from '#core/quantities/format-quantity.ts';
import { lacking, numberIn, type FamilyWords, type Numbers, type VerdictHouse } from './sentence.ts';

/** The litres made are rounded up, and what may be made down. */
const volume = (n: Numbers, key: 'litres' | 'limit', house: VerdictHouse): string => {
  const litres = numberIn(n, key);
  const units = { volume: house.volume ?? 'metric', temperature: 'C', gravity: 'SG' } as const;
  const side = key === 'litres' ? 'upper' : 'lower';
  return litres === null
    ? 'an unknown volume'
    : shownText(formatQuantity({ kind: 'volume', value: litres * 1e6, house: units, side }));
};

/** Making alcohol at home, giving and selling. */
export const LAW_WORDS: FamilyWords = {
  'LAW-01': {
    about: 'the law on home-made alcohol',
    says: {
      met: (n, h) =>
        `Rule LAW-01: ${volume(n, 'litres', h)} this year, not over the ${volume(n, 'limit', h)} a household like yours may make in the United States for its own use.`,
      missing: lacking(
        {
          'homeAlcohol.ofAge': 'Whether you are of the age to make alcohol is not on record.',
          'homeAlcohol.adultsInHousehold':
            'How many adults are in the household is not on record, and the volume allowed depends on it.',
          'homeAlcohol.litresThisYear': 'How much alcohol was made this year is not on record.',
        },
        'Age, household and volume of home-made alcohol are not on record.',
      ),
      condition:
        'The rules on home-made alcohol differ from place to place, and Undercroft does not know those of yours. Ask before you begin.',
      category: 'Whoever makes it is under the age for alcohol. Do not make it.',
      wrong_side: (n, h) =>
        `${volume(n, 'litres', h)} this year, over the ${volume(n, 'limit', h)} a household like yours may make in the United States.`,
    },
  },
  'LAW-02': {
    about: 'giving away or selling',
    says: {
      met: 'Rule LAW-02: it is a gift, and its label is complete.',
      missing: 'Whether it stays with you, is given away or is sold is not on record.',
      condition:
        'Before it leaves the house its label must be complete: name, strength, date and every caution. If it is sold, local law was checked and stays yours to keep.',
      category:
        'It is for sale, and no check of your local food and alcohol law is on record. Do not sell it.',
      jurisdiction_unset:
        'House Rules name no country, so the rules for giving away and selling are not known.',
    },
  },
};
