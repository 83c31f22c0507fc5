import {
  amount,
  band,
  hoursIn,
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
const label = (n: Numbers): string => amount(n, 'label', { side: 'lower', unit: '%' });
const homeMade = (n: Numbers): string => `home-made, ${band(n, { side: 'lower', unit: '%' })} as acetic`;
const pH: Sentence = (n, house) => `the pH of the pickle was ${band(n, { side: 'upper' })}${onDay(n, house)}`;
const canningMin = (n: Numbers): string => {
  const value = numberIn(n, 'limit');
  return `${value === null ? '5.0' : limitText(value, 'lower', 1)}${PERCENT}`;
};

/** Canning and pickling. */
export const CANNING_WORDS: FamilyWords = {
  'CAN-01': {
    about: 'home-made vinegar in canning',
    says: {
      category: (n) =>
        n['origin'] === null
          ? 'Where this vinegar comes from is not on record, so it counts as home-made. However strong a home-made vinegar turns out, nothing is canned with it and no shelf pickle put up in it.'
          : `However strong a home-made vinegar turns out, nothing is canned with it and no shelf pickle put up in it. Take shop vinegar marked 5${PERCENT}.`,
    },
  },
  'CAN-02': {
    about: 'bought vinegar for canning',
    says: {
      met: (n) => `Rule CAN-02: bought, marked ${label(n)} and used as it came.`,
      missing: lacking(
        {
          boughtLabelPercent: 'What strength the label of the bought vinegar gives is not on record.',
          addedWater: (n) =>
            `The label says ${label(n)}, but whether water was added at home is not on record.`,
        },
        'What the bought bottle says, or whether water was added at home, is not on record.',
      ),
      implausible: (n) =>
        `${numberIn(n, 'label') === null ? 'What is noted' : label(n)} cannot be what a bottle of vinegar says. Read the label again.`,
      wrong_side: (n) => `The label says ${label(n)}. Canning asks for ${canningMin(n)} or more.`,
      diluted_at_home: 'Water was added at home. Canning asks for bought vinegar just as it came.',
      stronger_than_recipe: (n) =>
        `The label says ${label(n)}. That is strong enough, but tested recipes are not written for it.`,
    },
  },
  'CAN-03': {
    about: 'jars made with weak vinegar',
    says: {
      missing:
        'How long ago the jars were processed is not on record, so they count as too old. Throw them out.',
      deadline: (n) =>
        `The jars have stood ${hoursIn(n)} with vinegar under 5${PERCENT}. From 24 hours on they are thrown out unopened.`,
      refrigerate_now: (n) =>
        `The jars have stood ${hoursIn(n)} with vinegar under 5${PERCENT}. Put them in the refrigerator now and eat them soon.`,
      implausible: 'The time given for the jars cannot be right, so they count as too old. Throw them out.',
    },
  },
  'CAN-04': {
    about: 'the recipe that is canned',
    says: {
      met: 'Rule CAN-04: a tested recipe is followed to the letter.',
      condition:
        'A tested recipe is followed but for its spices. Change nothing more: not the vinegar, the water, the amounts or the time.',
      category:
        'The proportions are your own. However low their pH reads at home, they are not for a shelf: keep the jars in the refrigerator.',
      missing: 'Whether this is a tested recipe or your own is not on record.',
    },
  },
  'CAN-05': {
    about: 'home-made vinegar in the kitchen',
    says: {
      ...withheld('acidity', 'What this home-made vinegar is strong enough for is not shown'),
      missing: 'No acidity is on record, so what this home-made vinegar is strong enough for is not known.',
      condition: (n) => `${homeMade(n)}: dress fresh salads with it, but do not pickle or can with it.`,
      refrigerate_now: (n) =>
        `${homeMade(n)}, not under 5.0${PERCENT}: pickle with it only what goes straight into the refrigerator, and eat that within 4 weeks.`,
      straddles: (n) =>
        `${homeMade(n)}: with its error it may lie under the 5.0${PERCENT} that a refrigerator pickle needs.`,
      wrong_side: (n) =>
        `${homeMade(n)}, under the 5.0${PERCENT} that a refrigerator pickle needs. Do not pickle with it.`,
      category:
        'A pickle made with home-made vinegar never stands at room temperature, however strong the vinegar tests.',
      calculated_only: (n) =>
        `About ${amount(n, 'value', { side: 'lower', unit: '%' })} by calculation. Only a measured acidity lets home-made vinegar pickle.`,
    },
  },
  'CAN-06': {
    about: 'the pH of a pickle',
    says: {
      ...withheld('pH', 'The pickle is not shown to be at or under pH 4.6, above which botulism can grow'),
      met: (n, h) =>
        `Rule CAN-06: ${pH(n, h)}, not over 4.6, and it is kept in the refrigerator or was canned by a tested process.`,
      missing: lacking(
        {
          'storage.place': (n, h) => `${pH(n, h)}, not over 4.6, but where the jar is kept is not on record.`,
        },
        'No pH of the pickle is on record. Above 4.6 botulism can grow, and nothing smells or tastes of it.',
      ),
      straddles: (n, h) => `${pH(n, h)}. With its error it may lie over 4.6, where botulism can grow.`,
      wrong_side: (n, h) => `${pH(n, h)}, over 4.6, where botulism can grow unseen. Throw it out.`,
      calculated_only: 'The pH of the pickle is worked out, not measured, so it does not show 4.6 or less.',
      category: (n, h) =>
        `${pH(n, h)}, but the jar stands outside the refrigerator and no tested process canned it.`,
    },
  },
};
