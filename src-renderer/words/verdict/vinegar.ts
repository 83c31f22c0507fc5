import {
  amount,
  band,
  daysIn,
  lacking,
  limitText,
  NBSP,
  numberIn,
  onDay,
  type FamilyWords,
  type Numbers,
  type Sentence,
} from './sentence.ts';
import { withheld } from './withheld.ts';

const PERCENT = `${NBSP}%`;
/** Above this an acidity limit of a place is its upper end. */
const UPPER_FROM = 10;

const isUpper = (n: Numbers): boolean => (numberIn(n, 'limit') ?? 0) > UPPER_FROM;

const limit = (n: Numbers): string => {
  const value = numberIn(n, 'limit');
  return value === null ? 'the limit' : `${limitText(value, isUpper(n) ? 'upper' : 'lower', 1)}${PERCENT}`;
};

/** `Acidity was 5.20 ± 0.30 % as acetic on 2026-11-19`. */
const acidity: Sentence = (n, house) =>
  `acidity was ${band(n, { side: isUpper(n) ? 'upper' : 'lower', unit: '%' })} as acetic${onDay(n, house)}`;
/** The same held against an upper limit. */
const strongest = (n: Numbers): string => `${band(n, { side: 'upper', unit: '%' })} as acetic`;
const weakest = (n: Numbers): string => `${band(n, { side: 'lower', unit: '%' })} as acetic`;
const about = (n: Numbers): string => amount(n, 'value', { side: 'lower', unit: '%' });

const alcohol: Sentence = (n, house) =>
  `alcohol was ${band(n, { side: 'upper', unit: '% vol' })}${onDay(n, house)}`;
const alcoholLimit = (n: Numbers): string => {
  const value = numberIn(n, 'limit');
  return value === null ? 'what EU practice allows' : `${limitText(value, 'upper', 1)}${NBSP}% vol`;
};

/** What a vinegar may be called, how strong it must be, and how it keeps. */
export const VINEGAR_WORDS: FamilyWords = {
  'VIN-01': {
    about: 'the strength of vinegar in the United States',
    says: {
      ...withheld('acidity', (n) => `It is not shown to reach ${limit(n)} acetic acid`),
      met: (n, h) => `Rule VIN-01: ${acidity(n, h)}, not under ${limit(n)}.`,
      missing: (n) => `No acidity is on record, so it is not shown to reach ${limit(n)} acetic acid.`,
      straddles: (n, h) => `${acidity(n, h)}. With its error it may lie on either side of ${limit(n)}.`,
      wrong_side: (n, h) => `${acidity(n, h)}, under ${limit(n)}: do not label it vinegar.`,
      calculated_only: (n) =>
        `The acidity on record is worked out, not measured, so it does not show ${limit(n)}.`,
      own_use_about: (n) =>
        `About ${about(n)} by calculation. That will do for a label on your own shelf, written as “about”.`,
      jurisdiction_unset: (n) =>
        `It reaches ${limit(n)}, the mark in the United States. Other countries ask for more, and House Rules name no country.`,
    },
  },
  'VIN-02': {
    about: 'the strength after water was added',
    says: {
      ...withheld(
        'acidity',
        (n) => `With any water in it it must reach ${limit(n)} acetic acid, and that is not shown`,
      ),
      met: (n, h) =>
        `Rule VIN-02: measured after the water went in, ${acidity(n, h)}. Print that strength on the label.`,
      missing: lacking(
        {
          addedWater:
            'Whether water was added is not on record. A label must give the strength as it is now, and say that water went in.',
          acidity: 'Nothing on record shows the strength with any water in it. A label must give that.',
        },
        'Whether water was added is not on record, or nothing was measured after it went in. A label must give the strength as it is now.',
      ),
      straddles: (n, h) =>
        `With any water in it, ${acidity(n, h)}: within its error of ${limit(n)}, on either side.`,
      wrong_side: (n, h) =>
        `With any water in it, ${acidity(n, h)}, under ${limit(n)}: do not label it vinegar.`,
      calculated_only: 'The strength after the water is worked out, not measured. Measure it again.',
      own_use_about: (n) =>
        `About ${about(n)} after the water, by calculation. That will do for your own shelf, written as “about”.`,
    },
  },
  'VIN-03': {
    about: 'the strength of wine vinegar in the EU',
    says: {
      ...withheld(
        'acidity',
        (n) => `It is not shown to reach the ${limit(n)} that the EU asks of wine vinegar`,
      ),
      met: (n, h) =>
        `Rule VIN-03: ${acidity(n, h)}, not under the ${limit(n)} that the EU asks of wine vinegar.`,
      missing: (n) =>
        `No acidity is on record, so it is not shown to reach the ${limit(n)} that the EU asks of wine vinegar.`,
      straddles: (n, h) =>
        `${acidity(n, h)}. With its error it may lie on either side of the ${limit(n)} that the EU asks of wine vinegar.`,
      wrong_side: (n, h) => `${acidity(n, h)}, under ${limit(n)}: in the EU do not label it wine vinegar.`,
      calculated_only: (n) =>
        `The acidity on record is worked out, so it does not show the ${limit(n)} that the EU asks of wine vinegar.`,
      own_use_about: (n) =>
        `About ${about(n)} by calculation. On your own shelf you may call it wine vinegar of “about” that strength.`,
    },
  },
  'VIN-04': {
    about: 'the alcohol left in vinegar',
    says: {
      ...withheld(
        'alcohol',
        (n) => `It is not shown that no more than ${alcoholLimit(n)} of alcohol is left`,
      ),
      met: (n, h) =>
        `Rule VIN-04: ${alcohol(n, h)}, not over the ${alcoholLimit(n)} that EU practice leaves in a vinegar.`,
      missing: lacking(
        {
          jurisdiction:
            'The EU limits the alcohol left in a vinegar, and House Rules do not say whether you are there.',
        },
        (n) =>
          `No alcohol was measured at the end, so it is not shown that no more than ${alcoholLimit(n)} is left.`,
      ),
      straddles: (n, h) => `${alcohol(n, h)}. With its error it may be more than ${alcoholLimit(n)}.`,
      wrong_side: (n, h) =>
        `${alcohol(n, h)}, over ${alcoholLimit(n)}: the mother has not finished. Wait before you label it.`,
      calculated_only: (n) =>
        `The alcohol on record is worked out from gravities, so it does not show ${alcoholLimit(n)} or less.`,
    },
  },
  'VIN-05': {
    about: 'the strength of vinegar in your country',
    says: {
      ...withheld(
        'acidity',
        (n) => `It is not shown to meet the ${limit(n)} that the country in House Rules asks`,
      ),
      met: (n, h) =>
        `Rule VIN-05: ${acidity(n, h)}, within what the country in House Rules asks, ${limit(n)}.`,
      missing: lacking(
        {
          jurisdiction: 'How strong a vinegar must be differs by country, and House Rules do not say yours.',
        },
        (n) =>
          `No acidity is on record, so it is not shown to reach the ${limit(n)} that the country in House Rules asks.`,
      ),
      straddles: (n, h) =>
        `${acidity(n, h)}. With its error it may lie on either side of the ${limit(n)} that the country in House Rules asks.`,
      wrong_side: (n, h) =>
        `${acidity(n, h)}, on the wrong side of the ${limit(n)} that the country in House Rules asks: do not label it vinegar there.`,
      calculated_only: (n) =>
        `The acidity on record is worked out, not measured, so it does not show the ${limit(n)} that the country in House Rules asks.`,
      own_use_about: (n) =>
        `About ${about(n)} by calculation. For your country too a label on your own shelf may give it as “about”.`,
      jurisdiction_unset: 'How strong a vinegar must be differs by country, and House Rules name none.',
    },
  },
  'VIN-06': {
    about: 'the name of the vinegar',
    says: {
      met: 'Rule VIN-06: it began as juice that turned to alcohol and then to vinegar, so the fruit may stand in its name.',
      condition:
        'It began as scraps or peel in sugared water. Say so in its name; the plain name of the fruit’s vinegar belongs to juice.',
      category: 'It was made from acetic acid, and acetic acid in water is not vinegar. Do not call it that.',
      missing: 'What it was made from is not on record, so what it may be called is not known.',
    },
  },
  'VIN-07': {
    about: 'strength given in grain',
    says: {
      met: (n) =>
        `Rule VIN-07: ${amount(n, 'grain', { side: 'lower', decimals: 0 })} grain is ${amount(n, 'percent', { side: 'lower', unit: '%' })}. Canning asks for 50 grain, which is 5.0${PERCENT}.`,
      unit_ambiguous: 'The label says “grain” without a number, so it tells no strength.',
    },
  },
  'VIN-08': {
    about: 'acid strong enough to burn',
    says: {
      ...withheld('acidity', 'It is not known whether this vinegar is strong enough to burn'),
      met: (n) =>
        `Rule VIN-08: at ${strongest(n)} it stays under 10${PERCENT}, from where vinegar irritates skin and eyes.`,
      condition: (n) =>
        `At ${strongest(n)} this vinegar irritates skin and eyes. Wear gloves and goggles, and neither drink it nor dress food with it undiluted.`,
      category: (n) =>
        `At ${strongest(n)}, over 15${PERCENT}, this is no vinegar for the table. Do not taste it, and check how it was measured.`,
      straddles: (n) =>
        `At ${strongest(n)} it may lie over 15${PERCENT}, where a vinegar no longer belongs on the table. Do not taste it meanwhile.`,
      missing: 'No acidity is on record, so it is not known whether this vinegar is strong enough to burn.',
    },
  },
  'VIN-09': {
    about: 'how vinegar keeps in store',
    says: {
      ...withheld('acidity', 'It is not shown that this vinegar keeps at room temperature'),
      met: (n) =>
        `Rule VIN-09: at ${weakest(n)} it is not under 4.0${PERCENT}, from where vinegar keeps at room temperature.`,
      condition: (n) =>
        `At ${weakest(n)} it is not shown to reach 4.0${PERCENT}, and a shelf is no place for it. Use it within weeks, chilled, or leave it to its mother.`,
      category: (n) =>
        `At ${weakest(n)}, under 3.0${PERCENT}, it stands warm and is not shown to be open to the air. So weak it spoils there.`,
      straddles: (n) => `At ${weakest(n)} it may lie under 3.0${PERCENT}, too weak to stand closed and warm.`,
      missing: lacking(
        {
          'storage.place': (n) =>
            `At ${weakest(n)} it keeps only cold or open to its mother, and where it stands is not on record.`,
        },
        'No acidity is on record, so how well this vinegar keeps is not known.',
      ),
      calculated_only: (n) =>
        `About ${about(n)} by calculation. Only a measured acidity shows that it keeps on a shelf.`,
    },
  },
  'VIN-10': {
    about: 'vinegar eels',
    says: {
      met: 'Rule VIN-10: held against the light, no vinegar eels were seen.',
      condition:
        'There are vinegar eels in it, fine threads that wriggle. They do no harm, but keep this mother from all others, and filter and heat what you take from it.',
      category:
        'There are vinegar eels in it, so neither it nor its mother goes to anyone else. Filter and heat it, and keep it for yourself.',
      missing: 'Whether vinegar eels are in it is not on record.',
    },
  },
  'VIN-11': {
    about: 'vinegar left on its mother after the alcohol is gone',
    says: {
      ...withheld('acidity', 'It is not shown that the acid has held since the alcohol ran out'),
      met: (n) =>
        `Rule VIN-11: the alcohol ran out ${daysIn(n)} ago, and the acidity measured since has not fallen.`,
      missing: lacking(
        {
          acidity: (n) =>
            `The alcohol ran out ${daysIn(n)} ago, and no acidity was measured since. A mother without alcohol lives on the acid.`,
        },
        'When the alcohol ran out is not on record. A mother without alcohol lives on the acid.',
      ),
      falling: (n) =>
        `Acidity fell from ${amount(n, 'before', { side: 'lower', decimals: 2, unit: '%' })} to ${amount(n, 'value', { side: 'lower', decimals: 2, unit: '%' })} as acetic: the mother has run out of alcohol and lives on the acid. Do not print the old strength.`,
      ageing: (n) =>
        `It has stood open on its mother for ${daysIn(n)} since the alcohol ran out. Measure it again, then bottle it full.`,
    },
  },
};
