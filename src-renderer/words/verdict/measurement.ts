import { roundedText } from '#core/quantities/round.ts';
import { sayDate, sayDays } from '../time-words.ts';
import {
  amount,
  lacking,
  limitText,
  NBSP,
  numberIn,
  type FamilyWords,
  type Numbers,
  type Sentence,
} from './sentence.ts';

const MS_PER_MINUTE = 60_000;
const MS_PER_HOUR = 60 * MS_PER_MINUTE;
const MS_PER_DAY = 24 * MS_PER_HOUR;

const CHANGES: Readonly<Record<string, string>> = {
  addWater: 'water went in',
  addJuice: 'juice went in',
  addWine: 'wine went in',
  addSugar: 'sugar went in',
  addHoney: 'honey went in',
  addFruit: 'fruit went in',
  addSalt: 'salt went in',
  addAcid: 'acid went in',
  blend: 'it was blended',
  refill: 'it was topped up',
  splitWithResidue: 'it was divided over what was left',
  prime: 'it was primed',
  sulfite: 'sulfite went in',
  heat: 'it was heated',
  concentrate: 'it was concentrated',
};

const QUANTITIES: Readonly<Record<string, string>> = {
  acidity: 'the acidity',
  pH: 'the pH',
  gravity: 'the gravity',
  alcohol: 'the alcohol',
  temperature: 'the temperature',
  salt: 'the salt',
  sulfite: 'the sulfite',
  carbonDioxide: 'the carbon dioxide of the room',
};
/** What was measured, such as "the acidity". */
const measured = (n: Numbers): string => QUANTITIES[String(n['quantity'])] ?? 'the number';

const staleEvent: Sentence = (n, house) => {
  const atMs = numberIn(n, 'changedAtMs');
  const change = CHANGES[String(n['change'])] ?? 'something changed it';
  return atMs === null
    ? `The vessel was changed after ${measured(n)} was measured, which tells nothing of what is in it now.`
    : `On ${sayDate(atMs, house)} ${change}, after ${measured(n)} was measured, so that no longer tells what is in the vessel.`;
};

const ageOf = (n: Numbers): string => span(numberIn(n, 'ageMs'), 'up');
const lastsFor = (n: Numbers): string => span(numberIn(n, 'limitMs'), 'down');
function span(ms: number | null, way: 'up' | 'down'): string {
  if (ms === null) return 'an unknown time';
  const whole = (parts: number): number => (way === 'up' ? Math.ceil(parts) : Math.floor(parts));
  if (ms >= 2 * MS_PER_DAY) return sayDays(whole(ms / MS_PER_DAY));
  if (ms >= 2 * MS_PER_HOUR) return `${whole(ms / MS_PER_HOUR)} hours`;
  return `${whole(ms / MS_PER_MINUTE)} minutes`;
}

/** A number as it was given, with as many decimals as it needs up to four. */
const plain = (n: Numbers, key: string): string => {
  const value = numberIn(n, key);
  return value === null ? 'the number' : roundedText(value, 4).replace(/\.?0+$/u, '');
};

/** An error with three decimals where it is a gravity's, and two otherwise. */
const error = (n: Numbers): string => {
  const value = numberIn(n, 'uncertainty');
  if (value === null) return 'its method';
  return roundedText(value, value < 0.01 ? 4 : 2, 'upper').replace(/(\.\d\d)0+$/u, '$1');
};

/** What every number must pass before a rule may use it. */
export const MEASUREMENT_WORDS: FamilyWords = {
  'MEAS-01': {
    about: 'readings near a limit, and readings that disagree',
    says: {
      met: 'Rule MEAS-01: no other reading of that time speaks against it.',
      straddles:
        'The reading lies within its error of the limit, so it settles nothing. Measure again with a finer method.',
      readings_disagree: (n) => {
        const apart = amount(n, 'difference', { side: 'upper', decimals: 3 });
        return numberIn(n, 'difference') === null
          ? `Two readings of ${measured(n)} are further apart than their errors allow, so neither is used.`
          : `Two readings of ${measured(n)} are ${apart} apart, further than their errors of ${amount(n, 'combined', { side: 'lower', decimals: 3 })} together allow, so neither is used.`;
      },
    },
  },
  'MEAS-02': {
    about: 'the error of the reading',
    says: {
      met: 'Rule MEAS-02: the reading carries an error of its own.',
      default_uncertainty: (n) =>
        `No error was given with ${measured(n)}, or too small a one for the method, so a cautious ± ${error(n)} was taken.`,
      method: (n) => `Neither how ${measured(n)} was measured nor how exactly is on record.`,
    },
  },
  'MEAS-03': {
    about: 'what went in after the reading',
    says: { met: 'Rule MEAS-03: nothing was put in after the reading.', stale_event: staleEvent },
  },
  'MEAS-04': {
    about: 'the age of the reading',
    says: {
      met: 'Rule MEAS-04: the reading is young enough.',
      ageing: (n) =>
        `${measured(n)} was measured ${ageOf(n)} ago and will soon be too old: it counts for ${lastsFor(n)}.`,
      stale_age: (n) =>
        `${measured(n)} was measured ${ageOf(n)} ago. For what is here it counts for ${lastsFor(n)}.`,
    },
  },
  'MEAS-05': {
    about: 'the acid the titration counts',
    says: {
      met: 'Rule MEAS-05: the acidity is counted as acetic acid.',
      converted: (n) => {
        const counted = `Counted ${n['basis'] === 'w/w' ? 'by weight ' : ''}as ${String(n['acid'] ?? 'another')} acid, ${amount(n, 'value', { side: 'lower', decimals: 2, unit: '%' })}`;
        return numberIn(n, 'asAcetic') === null
          ? `${counted}. It cannot be turned into acetic acid without its error or its method.`
          : `${counted}; turned into ${amount(n, 'asAcetic', { side: 'lower', decimals: 2, unit: '%' })} as acetic before it was checked.`;
      },
      fixed_acid_unknown:
        'The fruit’s own acid is counted in, since it was not measured apart, so the true acetic acid is somewhat less.',
      basis: 'Which acid the titration was counted as is not on record.',
    },
  },
  'MEAS-06': {
    about: 'how the titration was done',
    says: {
      met: 'Rule MEAS-06: the sodium hydroxide was checked within half a year, and the end point fits the sample.',
      widened: `The sodium hydroxide was last checked over half a year ago. It weakens, which makes acid look stronger, so an error of 15${NBSP}% was taken.`,
      method: lacking(
        {
          normality:
            'The strength of the sodium hydroxide is not on record. Kits come with 0.1 N and with 0.2 N.',
          endPoint:
            'The end point is not on record, or was a colour in a dark sample, where it cannot be seen.',
          degassed: 'The sample may have been fizzy and was not degassed. The gas counts as acid.',
        },
        'The titration is not on record in full, so its acidity cannot be used.',
      ),
      uncalibrated:
        'The sodium hydroxide was not checked within a year, nor newly opened. When it weakens, weak vinegar looks strong.',
    },
  },
  'MEAS-07': {
    about: 'paper strips for pH',
    says: {
      met: 'Rule MEAS-07: a meter, or paper at pH 4.0 or less.',
      method: (n) =>
        `Paper showed pH ${amount(n, 'value', { side: 'upper', decimals: 1 })}. Above 4.0 paper is too coarse for this: use a meter.`,
    },
  },
  'MEAS-08': {
    about: 'the pH meter’s buffers',
    says: {
      met: 'Rule MEAS-08: the meter was set to two buffers that day.',
      widened:
        'The meter was set to its buffers within the week and not that day, so an error of at least ± 0.2 was taken.',
      uncalibrated:
        'The meter is not known to have been set to two buffers within a week. Set it today, then measure again.',
    },
  },
  'MEAS-09': {
    about: 'numbers that do not fit their unit',
    says: {
      met: 'Rule MEAS-09: the number fits its unit.',
      implausible: (n) => {
        const [low, high] = [numberIn(n, 'low'), numberIn(n, 'high')];
        const range =
          low === null || high === null
            ? ''
            : ` It would lie between ${limitText(low, 'upper')} and ${limitText(high, 'lower')}, at a time that has passed.`;
        return `${plain(n, 'value')} for ${measured(n)} does not fit its unit or its date.${range} Look at unit and decimal mark again.`;
      },
    },
  },
  'MEAS-10': {
    about: 'acid beyond what the alcohol gives',
    says: {
      met: 'Rule MEAS-10: the alcohol there was could make this much acid.',
      condition: (n) =>
        `${amount(n, 'value', { side: 'none', decimals: 2, unit: '%' })} of acid is a little beyond what the alcohol there was turns into, ${amount(n, 'ceiling', { side: 'lower', decimals: 2, unit: '%' })}. The errors of the readings may explain it.`,
      implausible: (n) =>
        `${amount(n, 'value', { side: 'none', decimals: 2, unit: '%' })} of acid is beyond what the alcohol there was turns into, ${amount(n, 'ceiling', { side: 'lower', decimals: 2, unit: '%' })}. One of the readings cannot be right.`,
    },
  },
  'MEAS-11': {
    about: 'pH in place of strength',
    says: {
      met: 'Rule MEAS-11: the acidity itself was measured.',
      missing:
        'Only a pH is on record. It tells how sour the liquid is, not how much acid it holds: titrate it.',
    },
  },
  'MEAS-12': {
    about: 'where the pH was taken',
    says: {
      met: 'Rule MEAS-12: the pH is of the vegetables themselves.',
      not_equilibrium:
        'The pH is of the brine, was taken too soon, or nobody noted of what. Brine sours first and what lies in it later: blend some of that and measure it.',
    },
  },
  'MEAS-13': {
    about: 'where the number comes from',
    says: {
      met: 'Rule MEAS-13: it was measured, or is printed on a bought bottle.',
      calculated_only: (n) =>
        `${measured(n)} is worked out, not measured. Only a measurement can meet a limit.`,
      guessed: (n) => `${measured(n)} is a guess, so it cannot be used.`,
    },
  },
  'MEAS-14': {
    about: 'how the gravity was taken',
    says: {
      met: 'Rule MEAS-14: a hydrometer, brought to its own temperature.',
      widened: 'The gravity was not corrected for temperature; it was close enough to take ± 0.001 more.',
      method: (n) =>
        n['degreesOff'] === undefined
          ? 'The gravity was taken by refractometer after yeast went in, or where a mother is at work. Alcohol and acid shift it.'
          : 'The gravity was not brought to the hydrometer’s own temperature, and the sample’s is not on record or too far from it. Warmth shifts it.',
    },
  },
};
