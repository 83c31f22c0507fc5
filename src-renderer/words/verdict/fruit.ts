import {
  lacking,
  recipientIn,
  warmthBand,
  warmthLimit,
  type FamilyWords,
  type Sentence,
} from './sentence.ts';

const heatLimit: Sentence = (_, house) => warmthLimit(71, house, 'lower');

/** Fruit for pressing, and its juice. */
export const FRUIT_WORDS: FamilyWords = {
  'CID-01': {
    about: 'mouldy or rotten fruit in the press',
    says: {
      met: 'Rule CID-01: the fruit was sorted and only sound fruit pressed.',
      missing: 'Whether the fruit was sorted before it was pressed is not on record.',
      condition:
        'Bruised but firm fruit went in, with each small bad spot cut out 2.5 cm round. Anything softer or mouldy stays out.',
      category:
        'Mouldy or rotten fruit went into the press. Its poison outlasts heat, and fermenting is not relied on to destroy it: give none of this to anyone to drink.',
    },
  },
  'CID-02': {
    about: 'windfalls and raw juice',
    says: {
      met: 'Rule CID-02: picked from the tree and washed, or its juice is heated.',
      missing: lacking(
        {
          'fruit.intended': 'Whether the juice is to be drunk raw, heated or fermented out is not on record.',
          'fruit.pickedFrom':
            'Whether the fruit was picked from the tree or up from the ground is not on record.',
          'fruit.washed': 'Whether the fruit was washed is not on record.',
          'fruit.grazedOrchard': 'Whether animals graze where the fruit grew is not on record.',
        },
        'Where the fruit of this juice comes from is not on record.',
      ),
      condition: (n) =>
        n['pickedFrom'] === undefined
          ? 'The fruit was not washed, and its juice is to be drunk raw. Wash it before it is pressed, or heat the juice.'
          : 'The fruit lay on the ground, grew where animals graze, or was not washed. Drink nothing of it raw; ferment it right through to alcohol and on to vinegar, or heat it.',
      category:
        'The fruit lay on the ground or grew where animals graze, and its juice is to be drunk raw. Such fruit can carry dangerous gut germs: heat the juice first.',
    },
  },
  'CID-03': {
    about: 'raw juice given to others',
    says: {
      met: 'Rule CID-03: the juice was heated.',
      missing: 'Who the raw juice is for is not on record. The label carries the warning until it is.',
      print_on_label:
        'The juice was not heated. A healthy adult may have it once warned, and the label carries the warning.',
      category: (n) =>
        `The juice was not heated and is meant for ${recipientIn(n)}, whom its germs can make very ill.`,
    },
  },
  'CID-04': {
    about: 'how hot the juice became',
    says: {
      met: (n, h) =>
        n['value'] == null
          ? 'Rule CID-04: the whole pot of juice simmered.'
          : `Rule CID-04: the juice reached ${warmthBand(n, h, 'lower')} throughout, not under ${heatLimit(n, h)}.`,
      missing: (_, h) =>
        `How hot the juice became is not on record, nor that it simmered. It needs ${warmthLimit(71, h, 'lower')} throughout.`,
      condition: (n, h) =>
        `The juice reached ${warmthBand(n, h, 'lower')}, not shown to reach ${heatLimit(n, h)}. Heat it once more.`,
      straddles: (n, h) =>
        `The juice reached ${warmthBand(n, h, 'lower')}. With the thermometer’s error it may be under ${warmthLimit(68, h, 'lower')}, too cool to count as heated.`,
      wrong_side: (n, h) =>
        `The juice reached only ${warmthBand(n, h, 'lower')}, under ${warmthLimit(68, h, 'lower')}. Do not call it pasteurised, and treat it as raw.`,
    },
  },
};
