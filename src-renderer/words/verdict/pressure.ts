import { roundedText } from '#core/quantities/round.ts';
import {
  amount,
  band,
  lacking,
  NBSP,
  numberIn,
  onDay,
  warmthLimit,
  type FamilyWords,
  type Numbers,
  type VerdictHouse,
} from './sentence.ts';
import { withheld } from './withheld.ts';

const gravity = (n: Numbers): string => `gravity is ${band(n, { side: 'upper', decimals: 3 })}`;
const volumes = (n: Numbers, key: string, side: 'lower' | 'upper'): string => amount(n, key, { side });
const headspace = (n: Numbers): string => {
  const percent = numberIn(n, 'headspacePercent');
  return `${percent === null ? 'an unknown part' : `${roundedText(percent, 0, 'lower')}${NBSP}%`} of the vessel is free`;
};
/** A rise of temperature, never told smaller than it is. */
const rise = (n: Numbers, house: VerdictHouse): string => {
  const celsius = numberIn(n, 'rise');
  if (celsius === null) return 'an unknown rise';
  const fahrenheit = house.temperature === 'F';
  const degrees = roundedText(fahrenheit ? (celsius * 9) / 5 : celsius, 0, 'upper');
  return `a rise of ${degrees}${NBSP}${fahrenheit ? '°F' : '°C'}`;
};

/** Gas shut in: sealing, bottles and their ratings, warmth. */
export const PRESSURE_WORDS: FamilyWords = {
  'PRS-01': {
    about: 'whether it has finished fermenting',
    says: {
      ...withheld('gravity', 'It is not shown to have finished'),
      met: (n) =>
        `Rule PRS-01: readings at least 48 hours apart lie within 0.001, and the ${gravity(n)}, not over 1.002.`,
      missing: lacking(
        {
          gravity: (n) =>
            numberIn(n, 'readings') === null
              ? 'No gravity is on record, so it is not shown to have finished.'
              : 'There is only one gravity that counts. It takes two, at least 48 hours apart, to show that it has finished.',
          'sealing.bubbling': 'The gravity stands still, but whether it bubbles is not on record.',
          'sealing.warmedSinceFirstReading':
            'The gravity stands still, but whether sugar went in or the room grew warmer since is not on record.',
        },
        'Two gravities at least 48 hours apart are not on record, so it is not shown to have finished.',
      ),
      condition: (n) =>
        `It stands still, but the ${gravity(n)}, not shown to be 1.002 or less: it may be stuck and not finished. Sugar is left that can wake.`,
      falling: (n) =>
        `The gravity has fallen by ${amount(n, 'spread', { side: 'upper', decimals: 4 })} between readings, more than 0.001. It still ferments: leave the airlock on.`,
      category: (n, h) =>
        numberIn(n, 'changedAtMs') === null
          ? 'It bubbles, was sweetened, or stands warmer than at the first gravity. It can go on fermenting: leave the airlock on.'
          : `Something went in${onDay(n, h, 'changedAtMs')}, after the last gravity. It can go on fermenting: leave the airlock on.`,
      readings_disagree: (n) =>
        `Its gravities lie ${amount(n, 'spread', { side: 'upper', decimals: 4 })} apart, more than 0.001, and not because it fell. They do not show that it stands still.`,
      stale_event:
        'Something went in after the last gravity, so whatever that said of standing still no longer counts.',
    },
  },
  'PRS-02': {
    about: 'the pressure in the bottle',
    says: {
      ...withheld('gravity', 'How much gas can still form in the bottle is not shown'),
      met: (n) =>
        `Rule PRS-02: at most ${volumes(n, 'volumes', 'upper')} volumes of gas can form, and the bottle holds ${volumes(n, 'rating', 'lower')}.`,
      missing: lacking(
        {
          'sealing.bottle': 'What kind of bottle it is, or what its maker rates it for, is not on record.',
          'sealing.primingGramsPerLitre':
            'How much sugar goes into each litre for the fizz is not on record; none counts as 0.',
        },
        'Bottle, priming sugar or gravity is not on record, so the gas that can form is not known.',
      ),
      condition: (n) =>
        `Up to ${volumes(n, 'volumes', 'upper')} volumes of gas can form, close to the ${volumes(n, 'rating', 'lower')} that the bottle holds. Keep it cool, and cover it when you open it.`,
      wrong_side: (n) =>
        `Up to ${volumes(n, 'volumes', 'upper')} volumes of gas can form, and the bottle holds ${volumes(n, 'rating', 'lower')}. It can burst: do not seal it.`,
    },
  },
  'PRS-03': {
    about: 'jars and bottles not made for pressure',
    says: {
      ...withheld('gravity', 'It is not shown that no gas forms in a vessel that is not rated'),
      met: 'Rule PRS-03: it is proven finished, so the unrated vessel holds no pressure.',
      missing: lacking(
        {
          'sealing.bottle': 'Whether the bottle or jar is rated for pressure is not on record.',
        },
        'No gravity shows that the drink is finished. If a jar or bottle not rated for pressure is closed on it, let the gas out now, through a cloth.',
      ),
      condition: (n) =>
        `The ${gravity(n)}, not over 1.002, but not proven to stand still. In a vessel not rated for pressure loosen the lid, and measure again.`,
      category:
        'It bubbles, and a vessel not rated for pressure must not be closed on it. Where one is, loosen the lid now, through a cloth.',
      wrong_side: (n) =>
        `The ${gravity(n)}, over 1.002: sugar is left to make gas. Where a vessel not rated for pressure is closed on it, loosen the lid now, through a cloth.`,
    },
  },
  'PRS-04': {
    about: 'how a working vessel is closed',
    says: {
      met: (n) => `Rule PRS-04: gas can leave, and ${headspace(n)} for foam.`,
      missing: lacking(
        {
          'closing.closure': 'How the vessel is closed while it works is not on record.',
          'closing.headspacePercent': 'How much of the vessel is free for foam is not on record.',
        },
        'How the working vessel is closed and filled is not on record.',
      ),
      condition: (n) =>
        `A lid is opened by hand, or there is little room: ${headspace(n)}. Fit an airlock or a cloth, and leave 10${NBSP}% free.`,
      category:
        'It is closed gas-tight while it works. The gas must leave: fit an airlock, a cloth or a loose lid.',
    },
  },
  'PRS-05': {
    about: 'sealed bottles that grow warmer',
    says: {
      missing: lacking(
        {
          'sealing.riseCelsius': 'How much warmer the sealed bottles will stand is not on record.',
          'sealing.bottle': 'What kind of bottle will stand warmer is not on record.',
          'sealing.gushed': 'Whether one of the bottles has gushed already is not on record.',
        },
        'At what gravity the bottles were sealed, after all that went in, is not on record.',
      ),
      condition: (n, h) =>
        `With ${rise(n, h)} and a gravity of ${band(n, { side: 'upper', decimals: 3 })} the yeast may wake. Cover the bottles, and look at one after a few days.`,
      category: (n, h) =>
        numberIn(n, 'value') === null
          ? 'A bottle has gushed. Put all of them in the cold, then take each outdoors under a cloth to let the gas off.'
          : `The bottles are not rated, their gravity is over 1.002, and ${rise(n, h)} can wake the yeast. Leave them cool; if they are warm already, make them cold and try one outdoors, wrapped in a cloth.`,
    },
  },
  'PRS-06': {
    about: 'heating closed bottles',
    says: {
      met: 'Rule PRS-06: the drink is still, each bottle has headspace, and they warm up slowly.',
      missing: 'Whether the closed bottles hold gas is not on record.',
      condition:
        'The drink is still, but headspace in each bottle and slow warming are not on record. Leave space, and warm the bath with the bottles in it.',
      category: (_, h) =>
        `The closed bottles hold gas. Over ${warmthLimit(60, h, 'upper')} they can explode: do not heat them.`,
    },
  },
};
