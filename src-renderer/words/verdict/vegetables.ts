import {
  amount,
  band,
  daysIn,
  hoursIn,
  lacking,
  NBSP,
  numberIn,
  onDay,
  recipientIn,
  warmthBand,
  warmthLimit,
  type FamilyWords,
  type Numbers,
  type Sentence,
} from './sentence.ts';
import { withheld } from './withheld.ts';

const PERCENT = `${NBSP}%`;
const pH: Sentence = (n, house) => `the pH was ${band(n, { side: 'upper' })}${onDay(n, house)}`;
const salt = (n: Numbers): string =>
  `salt is ${band(n, { side: 'lower', unit: '%' })} of vegetables, water and salt together`;
const saltiest = (n: Numbers): string =>
  `salt is ${band(n, { side: 'upper', unit: '%' })} of vegetables, water and salt together`;
/** "day 9" of days in full, never a day fewer than have passed. */
const dayNumber = (n: Numbers): string => amount(n, 'elapsed', { side: 'upper', decimals: 0 });
const isOverdue = (n: Numbers): boolean =>
  (numberIn(n, 'elapsed') ?? -1) >= (numberIn(n, 'deadline') ?? Infinity);

const AT_RISK = 'infants, pregnant or old people, or anyone whose immunity is weak';

/** Vegetables in salt or brine. */
export const VEGETABLE_WORDS: FamilyWords = {
  'VEG-01': {
    about: 'how sour the vegetables have become in time',
    says: {
      ...withheld('pH', 'The jar is not shown to have soured below pH 4.6', (n) =>
        isOverdue(n) ? ` It is day ${dayNumber(n)} and the time is up: measure today or throw it out.` : '',
      ),
      met: (n, h) => `Rule VEG-01: ${pH(n, h)}, under 4.6.`,
      missing: lacking(
        {
          'ferment.startedAtMs': (n, h) =>
            `${pH(n, h)}, not shown to be under 4.6, and when the salt went in is not on record.`,
        },
        (n) =>
          isOverdue(n)
            ? `It is day ${dayNumber(n)} and no pH is on record. The time to sour is up: measure today or throw the jar out.`
            : 'No pH is on record, so the jar is not shown to have soured below pH 4.6.',
      ),
      calculated_only:
        'The pH is worked out, not measured, so it does not show that the jar has soured below 4.6.',
      not_yet: (n, h) =>
        `${pH(n, h)}, not yet shown to be under 4.6 on day ${dayNumber(n)}. Let it work on, neither eat nor chill it, and measure every day until day ${amount(n, 'deadline', { side: 'lower', decimals: 0 })}.`,
      deadline: (n, h) =>
        `${pH(n, h)}, not shown to be under 4.6 on day ${dayNumber(n)}, and day ${amount(n, 'deadline', { side: 'lower', decimals: 0 })} was the last for it. Throw the jar out.`,
    },
  },
  'VEG-02': {
    about: 'whether the vegetables stay sour',
    says: {
      ...withheld('pH', 'It is not shown that the jar is still as sour as it was'),
      met: (n) =>
        `Rule VEG-02: the pH is ${band(n, { side: 'upper' })} and has not risen above its lowest, ${amount(n, 'lowest', { side: 'lower', decimals: 2 })}.`,
      missing: 'No pH is on record that could be held against an earlier one.',
      falling: (n) =>
        `The pH has risen from ${amount(n, 'lowest', { side: 'lower', decimals: 2 })} to ${amount(n, 'value', { side: 'upper', decimals: 2 })}, further than the readings can err. Something eats the acid: throw the jar out.`,
      condition: (n) =>
        `The pH is ${amount(n, 'rise', { side: 'upper', decimals: 2 })} above its lowest, which the errors of the readings can explain. Measure again tomorrow.`,
      wrong_side: (n) =>
        `The pH was once under 4.6 and is now ${band(n, { side: 'upper' })}, no longer shown to be. It is spoiling: throw the jar out.`,
    },
  },
  'VEG-03': {
    about: 'the salt',
    says: {
      met: (n) => `Rule VEG-03: ${salt(n)}, between 2.0 and 5.0${PERCENT}.`,
      missing: lacking(
        {
          'salting.saltGrams': 'The weight of the salt is not on record.',
          'salting.vegetableGrams':
            'The weight of the vegetables is not on record. A percentage of the water alone does not count.',
          'salting.waterGrams': 'The weight of the water is not on record; none counts as 0.',
          salting: 'The weights of salt, vegetables and water on record make no percentage.',
        },
        'Salt counts as a part of salt, vegetables and water together, and one of the three weights is not on record.',
      ),
      condition: (n) =>
        (numberIn(n, 'value') ?? 0) - (numberIn(n, 'uncertainty') ?? 0) < (numberIn(n, 'low') ?? 2)
          ? `${salt(n)}, not shown to reach 2.0${PERCENT}. With so little the wrong germs hold out longer: keep the jar cool and the pH measured.`
          : `${saltiest(n)}, not shown to stay within 5.0${PERCENT}. With so much the jar sours slowly: keep the pH measured.`,
      wrong_side: (n) => `${salt(n)}, under 1.5${PERCENT}. That is too little to keep the wrong germs down.`,
      straddles: (n) =>
        `${salt(n)}. With the error of the scales it may lie under the 1.5${PERCENT} that no jar goes below.`,
      implausible: (n) =>
        `${saltiest(n)}, over 10${PERCENT}, in which a jar hardly sours: one of the weights may be wrong.`,
    },
  },
  'VEG-04': {
    about: 'how warm the vegetables stand',
    says: {
      met: (n, h) =>
        `Rule VEG-04: on average ${warmthBand(n, h, 'none')}, between ${warmthLimit(15.5, h, 'lower')} and ${warmthLimit(24, h, 'upper')}.`,
      missing: lacking(
        {
          'ferment.hoursAbove27Celsius': (n, h) =>
            `On average ${warmthBand(n, h, 'upper')}, but for how many hours it stood over ${warmthLimit(27, h, 'upper')} is not on record; none counts as 0.`,
        },
        'How warm the jar stands is not on record.',
      ),
      condition: (n, h) =>
        (numberIn(n, 'value') ?? 0) > 20
          ? `On average ${warmthBand(n, h, 'upper')}, not shown to stay within ${warmthLimit(24, h, 'upper')}. Vegetables turn soft in such warmth: find a cooler place.`
          : `On average ${warmthBand(n, h, 'lower')}, not shown to reach ${warmthLimit(15.5, h, 'lower')}. In such cold the jar sours slowly, or not at all: find a warmer place.`,
      category: (n, h) => {
        const value = numberIn(n, 'value');
        if (value !== null && value < 10) {
          return `On average ${warmthBand(n, h, 'lower')}, under ${warmthLimit(10, h, 'lower')}: too cold from the start for the right germs to take hold.`;
        }
        return `It stood over ${warmthLimit(27, h, 'upper')}, for more than a day or on average. In such warmth the wrong germs take hold.`;
      },
    },
  },
  'VEG-05': {
    about: 'whether everything stays under the brine',
    says: {
      met: 'Rule VEG-05: at the last look everything lay under the brine.',
      missing: lacking(
        {
          'submersion.checkedAtMs': 'When the brine was last looked at is not on record.',
          'submersion.covered': 'Whether everything lies under the brine is not on record.',
          'submersion.exposedHours': 'Vegetables stand out of the brine, and for how long is not on record.',
          'submersion.slimeColourOrMould': (n) =>
            `Vegetables stood out of the brine for ${hoursIn(n)}, and whether they turned slimy, coloured or mouldy is not on record.`,
        },
        'Whether everything lies under the brine is not known.',
      ),
      stale_age:
        'The brine was last looked at more than 4 days ago, too long for the first two weeks of a jar.',
      condition: (n) =>
        `Vegetables stood out of the brine for ${hoursIn(n)}. Press them under and top up with brine that was boiled and has cooled.`,
      category: (n) =>
        `Vegetables stood out of the brine for ${hoursIn(n)} and show slime, colour or mould. Throw the jar out.`,
    },
  },
  'VEG-06': {
    about: 'soft, slimy, pink or foul vegetables',
    says: {
      met: 'Rule VEG-06: the vegetables were looked at and found firm, clean and of their own colour.',
      missing: 'Whether the vegetables are firm and clean is not on record.',
      condition:
        'The brine is cloudy. That alone is usual while it works; watch for slime, colour and smell.',
      category:
        'The vegetables are soft, slimy, pink or foul. Throw them out, and do not taste them to make sure.',
    },
  },
  'VEG-07': {
    about: 'how finished vegetables are kept',
    says: {
      met: 'Rule VEG-07: kept in the refrigerator, or canned by a tested process.',
      missing: 'Where the finished jar is kept is not on record.',
      condition: (_, h) =>
        `It is kept cool but not in the refrigerator. That asks for ${warmthLimit(15, h, 'upper')} at most and a pH every week.`,
      category:
        'It stands warm, and no tested process canned it. A finished ferment does not keep like that.',
    },
  },
  'VEG-08': {
    about: 'how sour the kimchi has become in time',
    says: {
      ...withheld('pH', 'The kimchi is not shown to have soured below pH 4.6', (n) =>
        isOverdue(n)
          ? ` ${hoursIn(n, 'elapsed')} have passed and the time is up: measure today or throw it out.`
          : '',
      ),
      met: (n, h) => `Rule VEG-08: ${pH(n, h)}, under 4.6 as kimchi must be.`,
      missing: lacking(
        {
          'ferment.startedAtMs': (n, h) =>
            `${pH(n, h)}, not shown to be under 4.6, and when the kimchi was salted is not on record.`,
        },
        (n) =>
          isOverdue(n)
            ? `${hoursIn(n, 'elapsed')} have passed and no pH is on record. The kimchi’s time is up: measure today or throw it out.`
            : 'No pH is on record, so the kimchi is not shown to have soured below pH 4.6.',
      ),
      calculated_only:
        'The pH is worked out, not measured, so it does not show that the kimchi has soured below 4.6.',
      not_yet: (n, h) =>
        `${pH(n, h)}, not yet shown to be under 4.6 after ${hoursIn(n, 'elapsed')}. Do not eat it; measure every 12 hours until ${hoursIn(n, 'deadline')} have passed.`,
      deadline: (n, h) =>
        `${pH(n, h)}, not shown to be under 4.6 after ${hoursIn(n, 'elapsed')}, and it had ${hoursIn(n, 'deadline')} for that. Throw the kimchi out.`,
    },
  },
  'VEG-09': {
    about: 'very young ferments and people at risk',
    says: {
      met: (n) => `Rule VEG-09: at ${daysIn(n)} it is past the 14 days in which raw cabbage is the riskiest.`,
      missing: 'When the salt went in is not on record, so its age is not known.',
      print_on_label: (n) =>
        (numberIn(n, 'days') ?? 0) < 14
          ? `At ${daysIn(n)} it is under 14 days old, and germs that stand acid may live in it still. Keep it from ${AT_RISK}, and say so on the label.`
          : `At ${daysIn(n)} it is old enough, but a pH under 4.6 is not shown. Keep it from ${AT_RISK}, and say so on the label.`,
      category: (n) =>
        `It is meant for ${recipientIn(n)}, and at ${daysIn(n)} it is under 14 days old. Germs that stand acid may live in it still.`,
    },
  },
};
