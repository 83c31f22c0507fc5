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
  type FamilyWords,
  type Numbers,
  type Sentence,
} from './sentence.ts';
import { withheld } from './withheld.ts';

const ABV = `${NBSP}% vol`;
const pH: Sentence = (n, house) => `the pH was ${band(n, { side: 'upper' })}${onDay(n, house)}`;
const sourest: Sentence = (n, house) => `the pH was ${band(n, { side: 'lower' })}${onDay(n, house)}`;
const alcohol = (n: Numbers): string => `alcohol was ${band(n, { side: 'upper', unit: '% vol' })}`;
const hasAlcohol = (n: Numbers): boolean => numberIn(n, 'value') !== null;

/** Kombucha and water kefir. */
export const KOMBUCHA_WORDS: FamilyWords = {
  'KOM-01': {
    about: 'how sour the kombucha is after a week',
    says: {
      ...withheld('pH', 'The kombucha is not shown to have come down to pH 4.2'),
      met: (n, h) => `Rule KOM-01: ${pH(n, h)}, not over 4.2.`,
      missing: lacking(
        {
          'ferment.startedAtMs': (n, h) =>
            `${pH(n, h)}, not shown to be 4.2 or less, and when the tea was set is not on record.`,
        },
        'No pH is on record, so the kombucha is not shown to have come down to pH 4.2.',
      ),
      straddles: (n, h) =>
        `${pH(n, h)} after ${daysIn(n)}. With its error it may lie over 4.2, and by now it must not.`,
      calculated_only:
        'The pH is worked out, not measured, so it does not show that the kombucha came down to 4.2.',
      not_yet: (n, h) =>
        `${pH(n, h)} after ${daysIn(n)}, not yet shown to be 4.2 or less. Let it work on and do not drink it.`,
      deadline: (n, h) =>
        `${pH(n, h)} after ${daysIn(n)}, over 4.2. Throw out tea and culture, and begin again with a stronger starter.`,
    },
  },
  'KOM-02': {
    about: 'kombucha too sour to drink',
    says: {
      ...withheld('pH', 'It is not shown that the kombucha is mild enough to drink'),
      met: (n, h) => `Rule KOM-02: ${sourest(n, h)}, not under 2.5.`,
      missing: 'No pH is on record, so whether the kombucha is too sour to drink is not known.',
      straddles: (n, h) => `${sourest(n, h)}. With its error it may lie under 2.5, too sour to drink.`,
      wrong_side: (n, h) =>
        `${sourest(n, h)}, under 2.5. Do not drink it as it is: use it as starter, or let it become vinegar.`,
      calculated_only: 'The pH is worked out, so it does not show that the kombucha is 2.5 or more.',
    },
  },
  'KOM-03': {
    about: 'the starter of a new kombucha',
    says: {
      met: (n) =>
        `Rule KOM-03: mature starter makes ${amount(n, 'percent', { side: 'lower', unit: '%' })} of the whole, not under 10${NBSP}%, and the pH at the start is ${amount(n, 'ph', { side: 'upper', decimals: 2 })}.`,
      condition: (n) =>
        `Starter makes ${amount(n, 'percent', { side: 'lower', unit: '%' })} of the whole and the pH at the start is ${amount(n, 'ph', { side: 'upper', decimals: 2 })}. Aim for 10${NBSP}% or more and a pH of 4.6 or less; meanwhile measure its pH every day.`,
      wrong_side: (n) =>
        `Starter makes ${amount(n, 'percent', { side: 'lower', unit: '%' })} of the whole, or the tea begins over pH 5. That sours too slowly to hold mould off: add more mature starter.`,
      category:
        'There is only fresh tea and no mature, sour starter in it. Begin with starter from a finished brew.',
      missing: lacking(
        {
          'starter.percent': 'How much starter there is to how much tea is not on record.',
          'starter.mature': 'Whether the starter is mature and sour is not on record.',
          'starter.startPh': 'No pH was measured when the tea was set.',
        },
        'How much starter went in, and how old it is, is not on record.',
      ),
    },
  },
  'KOM-04': {
    about: 'the alcohol in kombucha and kefir',
    says: {
      ...withheld('alcohol', 'How much alcohol is in it is not shown'),
      met: (n) => `Rule KOM-04: ${alcohol(n)}, under 0.5${ABV}, and it is kept cold.`,
      missing: 'No alcohol was measured. Until it is, the label says that it may contain alcohol.',
      print_on_label: (n) =>
        `${alcohol(n)}, not shown by measurement to be under 0.5${ABV}. The label says that it contains alcohol.`,
      category: (n) =>
        hasAlcohol(n)
          ? `It is called alcohol-free, and ${alcohol(n)}, not shown to be under 0.5${ABV}. Take that word off the label.`
          : 'It is called alcohol-free, and no alcohol was measured. Take that word off the label.',
      condition: (n) =>
        `${alcohol(n)}, under 0.5${ABV}, but it is not shown to be kept cold. In the warm a bottle makes more.`,
    },
  },
  'KOM-05': {
    about: 'who drinks what is raw',
    says: {
      met: 'Rule KOM-05: it is for a healthy adult.',
      print_on_label: (n) =>
        n['recipient'] == null
          ? 'Who drinks it is not on record. Raw and with a little alcohol, it is to be kept from small children, and from whoever is pregnant or has weak immunity; the label says so.'
          : `It is meant for ${recipientIn(n)}. What is raw and holds a little alcohol carries a warning on its label.`,
      category: (n) =>
        `It is meant for ${recipientIn(n)}, and what is raw and holds a little alcohol is not for them.`,
    },
  },
  'KOM-06': {
    about: 'kombucha or kefir working on in closed bottles',
    says: {
      met: (n) =>
        `Rule KOM-06: in a rated bottle, warm for ${daysIn(n)} and then chilled, within the 3 days.`,
      missing: lacking(
        {
          'sealing.bottle': 'What kind of bottle it works on in is not on record.',
          'secondFerment.sugarGramsPerLitre':
            'How much sugar went into each litre for the bottle is not on record.',
          'secondFerment.daysWarm': 'How many days the closed bottles stood warm is not on record.',
          'storage.place': 'Whether the closed bottles are in the refrigerator now is not on record.',
        },
        'How the bottles were sugared, closed and kept is not on record.',
      ),
      condition: (n) =>
        (numberIn(n, 'days') ?? Infinity) > 3
          ? `The closed bottles stood warm for ${daysIn(n)}, more than 3, and make gas as long as they are warm. Chill them, and open them slowly over a bowl.`
          : `The closed bottles stood warm for ${daysIn(n)} and are not in the refrigerator, so they go on making gas. Chill them, and open them slowly over a bowl.`,
      category:
        'It is closed in a jar or bottle that is not rated for pressure. It goes on making gas and can burst: loosen the lid.',
    },
  },
  'KEF-01': {
    about: 'how sour the water kefir is',
    says: {
      ...withheld('pH', 'The water kefir is not shown to be sour enough to keep'),
      met: (n, h) => `Rule KEF-01: ${pH(n, h)}, not over the 4.2 to aim for.`,
      missing: lacking(
        {
          'ferment.startedAtMs': (n, h) =>
            `${pH(n, h)}, not shown to be 4.6 or less, and when the kefir was set is not on record.`,
        },
        'No pH is on record, so the water kefir is not shown to be sour enough to keep.',
      ),
      straddles: (n, h) =>
        `${pH(n, h)} after ${hoursIn(n)}. With its error it may lie over 4.6, and by now it must not.`,
      wrong_side: (n, h) => `${pH(n, h)} after ${hoursIn(n)}, over 4.6. It has not soured: throw it out.`,
      calculated_only: 'The pH is worked out, not measured, so it does not show that the water kefir soured.',
      not_yet: (n, h) =>
        `${pH(n, h)} after ${hoursIn(n)}, not yet shown to be 4.6 or less. Let the kefir work on to 72 hours and measure again.`,
      condition: (n, h) =>
        `${pH(n, h)}, not over 4.6 but not shown to be 4.2. Drink it within days out of the refrigerator, or give it more time to sour.`,
    },
  },
  'KEF-02': {
    about: 'the alcohol in water kefir',
    says: {
      ...withheld('alcohol', 'How much alcohol is in the water kefir is not shown'),
      met: (n) => `Rule KEF-02: the kefir’s ${alcohol(n)}, under 0.5${ABV}.`,
      missing:
        'No alcohol was measured. Kefir of juice, or of more than two days, may be no weaker than a beer.',
      print_on_label: (n) =>
        hasAlcohol(n)
          ? `The kefir’s ${alcohol(n)}, not shown to be under 0.5${ABV}. The label says that it contains alcohol.`
          : `Sugar-water kefir of ${hoursIn(n)} holds a little alcohol, and none was measured. The label says that it may contain alcohol.`,
      category: (n) =>
        hasAlcohol(n)
          ? `The kefir is called alcohol-free, and its ${alcohol(n)}, not shown to be under 0.5${ABV}. Take that word off.`
          : 'The kefir is called alcohol-free, and made of juice or so long it counts as stronger. Take that word off.',
    },
  },
};
