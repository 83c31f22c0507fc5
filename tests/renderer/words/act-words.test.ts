import { describe, expect, test } from 'vitest';
import { Act, NOTHING_READ, type ActKind, type ActOf } from '#core/ledger/act.ts';
import { ALL_BATCHES } from '#core/ledger/batch-filter.ts';
import { EntryId } from '#core/ledger/ids.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { sayEntry, sayEntryShort } from '#renderer/words/act-words.ts';

const id = (n: number): string => `019a0000-0000-7000-8000-${String(n).padStart(12, '0')}`;
const JAR = id(1);
const JUG = id(2);
const MOTHER = id(3);
const SHELF = id(4);
const EARLIER = id(5);
const BATCH = id(6);
const PLACE = id(7);
const NAMES: Record<string, string> = {
  [JAR]: 'Jar 2',
  [JUG]: 'Demijohn 1',
  [MOTHER]: 'Old Bess',
  [SHELF]: 'Stone bench',
  [BATCH]: 'Apple must 3',
  [PLACE]: 'Pantry',
};

const VESSEL = {
  name: 'Tall one',
  silhouette: 'jar',
  capacityUl: 2_000_000,
  mouth: 'wide',
  material: 'glass',
  closure: 'cloth',
  note: '',
};
const CULTURE = { name: 'Old Bess', sort: 'mother', source: '', note: '' };

function entry(
  act: unknown,
  names: Record<string, string> = NAMES,
  reversed: EntryRow['reversed'] = null,
): EntryRow {
  return {
    entryId: EntryId.parse(id(99)),
    sequence: 9,
    happenedAtMs: 0,
    writtenAtMs: 0,
    act: Act.parse(act),
    postings: [],
    typed: {},
    struck: false,
    restated: null,
    names,
    reversed,
  };
}
const said = (act: unknown, names?: Record<string, string>) =>
  sayEntry(entry(act, names), HOUSE_RULES_AT_FIRST);
const saidShort = (act: unknown) => sayEntryShort(entry(act), HOUSE_RULES_AT_FIRST);
/** No-break spaces between number and unit read as plain ones here. */
const plain = (text: string) => text.replaceAll('\u00A0', ' ');

const KEPT_FILTER = { ...ALL_BATCHES, columns: null };
const EXAMPLES: Record<ActKind, readonly [act: Record<string, unknown>, full: string, short: string]> = {
  split: [
    {
      ...{ fromVesselId: JAR, leesUl: 200_000 },
      parts: [
        { toVesselId: JUG, volumeUl: 1_000_000, toStage: null, newBatch: null },
        {
          ...{ toVesselId: id(31), volumeUl: 500_000, toStage: 'vinegar' as const },
          newBatch: { batchId: id(32), code: 'PA-26-001', name: 'Part one', ferment: 'fruitVinegar' },
        },
      ],
    },
    'Jar 2 split: 1 L to Demijohn 1, 500 ml to Part one; 200 ml left as lees.',
    'splitting Jar 2 into 2',
  ],
  addPlace: [{ placeId: PLACE, name: 'Pantry', note: '' }, 'Place Pantry added.', 'new place Pantry'],
  editPlace: [
    { placeId: PLACE, name: 'Larder', note: '' },
    'Place changed, now called Larder.',
    'change to place Larder',
  ],
  addShelf: [
    { shelfId: SHELF, placeId: PLACE, name: 'Stone bench', letter: 'A', positions: 8 },
    'Shelf A added, Stone bench, 8 positions.',
    'new shelf A, Stone bench',
  ],
  editShelf: [
    { shelfId: SHELF, name: 'Low bench', positions: 1 },
    'Shelf changed, now called Low bench, 1 position.',
    'change to shelf Low bench',
  ],
  addVessel: [
    { vesselId: JAR, number: 7, ...VESSEL, shelfId: null, position: null },
    'Jar of 2 L, Tall one, with a cloth added as vessel 7.',
    'new vessel 7',
  ],
  editVessel: [
    { vesselId: JAR, ...VESSEL },
    'Jar 2 described anew: jar of 2 L, Tall one, with a cloth.',
    'change to Jar 2',
  ],
  moveVessel: [
    { vesselId: JAR, shelfId: SHELF, position: 3 },
    'Jar 2 put on Stone bench, position 3.',
    'move of Jar 2',
  ],
  retireVessel: [{ vesselId: JAR, reason: 'cracked' }, 'Jar 2 retired: cracked.', 'retiring Jar 2'],
  changeClosure: [
    { vesselId: JAR, closure: 'airlock' },
    'Jar 2 closed with a water lock.',
    'closure of Jar 2',
  ],
  addCulture: [
    {
      cultureId: MOTHER,
      ...CULTURE,
      parentCultureId: null,
      standing: { vesselId: JAR, volumeUl: 300_000, batchId: BATCH, code: 'C-26-001' },
    },
    'Vinegar mother Old Bess added, 300 ml in Jar 2.',
    'new vinegar mother Old Bess',
  ],
  editCulture: [
    { cultureId: MOTHER, ...CULTURE },
    'Vinegar mother described anew, called Old Bess.',
    'change to Old Bess',
  ],
  feedCulture: [
    { cultureId: MOTHER, text: '200 ml cider' },
    'Old Bess fed: 200 ml cider.',
    'feeding Old Bess',
  ],
  startBatch: [
    {
      ...{ batchId: BATCH, code: 'AV-26-003', name: 'Apple must 3', ferment: 'cider', vesselId: JUG },
      ...{ volumeUl: 4_500_000, stage: 'waiting', note: '' },
      ingredients: [{ name: 'windfalls', amountTyped: '9 kg', massUg: 9e12 / 1000 }],
      measured: { ...NOTHING_READ, gravitySg: 1.048, temperatureCelsius: 19 },
    },
    'Started Apple must 3: 4.5 L in Demijohn 1, gravity 1.048 at 19.0 °C, with 9 kg windfalls.',
    'start of Apple must 3',
  ],
  editBatch: [
    { batchId: BATCH, name: 'Apple must 4', ferment: 'wine', note: '' },
    'Leaf changed: called Apple must 4, wine.',
    'change to the leaf of Apple must 4',
  ],
  addTo: [
    {
      ...{ vesselId: JUG, what: 'sugar', volumeUl: 0 },
      ingredient: { name: 'white sugar', amountTyped: '200 g', massUg: 200_000_000 },
    },
    '200 g white sugar added to Demijohn 1.',
    'adding white sugar to Demijohn 1',
  ],
  pitchYeast: [
    { vesselId: JUG, cultureId: null, yeast: 'Perry yeast', massUg: 5_000_000 },
    'Pitched Perry yeast, 5 g, into Demijohn 1.',
    'pitching yeast into Demijohn 1',
  ],
  recordReading: [
    {
      vesselId: JAR,
      values: { ...NOTHING_READ, acidityGramsPer100Ml: 4.1, acidityAs: 'acetic', ph: 3.41, taste: 'sharp' },
    },
    'Acidity 4.1 % as acetic, pH 3.41, tasted: sharp, in Jar 2.',
    'reading 4.1 % on Jar 2',
  ],
  transfer: [
    {
      ...{ fromVesselId: JUG, toVesselId: JAR, volumeUl: 1_400_000, leesUl: 200_000, toStage: 'settling' },
      newBatch: { batchId: BATCH, code: 'AV-26-003', name: 'Apple vinegar 3', ferment: 'fruitVinegar' },
    },
    '1.4 L moved from Demijohn 1 into Jar 2, 200 ml left as lees, now Apple vinegar 3, Settling.',
    'transfer of 1.4 L to Apple vinegar 3',
  ],
  seed: [
    {
      ...{ vesselId: JAR, cultureId: MOTHER, fromVesselId: JUG, volumeUl: 300_000 },
      ...{ what: '', toStage: 'vinegar' },
    },
    '300 ml of Old Bess added from Demijohn 1 to Jar 2, Vinegar ferment.',
    'seeding Jar 2',
  ],
  changeStage: [
    { vesselId: JAR, stage: 'ready', reason: '' },
    'Jar 2 moved on to Ready.',
    'move of Jar 2 to Ready',
  ],
  drawOff: [
    { vesselId: JAR, volumeUl: 250_000, purpose: 'for the kitchen' },
    'Drew off 250 ml from Jar 2: for the kitchen.',
    'drawing off 250 ml from Jar 2',
  ],
  bottle: [
    { vesselId: JAR, bottles: 6, bottleUl: 250_000, lossUl: 40_000, note: '' },
    'Bottled 6 bottles of 250 ml from Jar 2, 40 ml lost.',
    'bottling 6 bottles from Jar 2',
  ],
  discard: [
    { vesselId: JAR, volumeUl: 1_000_000, reason: 'mould' },
    'Threw out 1 L from Jar 2: mould.',
    'throwing out 1 L from Jar 2',
  ],
  settleVolume: [
    { vesselId: JAR, volumeUl: 1_700_000, cause: 'evaporation' },
    'Jar 2 set to 1.7 L, the rest went into the air.',
    'level of Jar 2',
  ],
  tellFacts: [
    { vesselId: JAR, facts: { containsHoney: true, recipe: 'own' } },
    'Told of Jar 2: the recipe, whether honey is in it.',
    'what was told of Jar 2',
  ],
  heat: [
    { vesselId: JAR, reachedCelsius: 65, minutes: 12, note: 'in the big pot' },
    'Jar 2 heated to 65.0 °C for 12 minutes: in the big pot.',
    'heating Jar 2',
  ],
  keepBatchFilter: [
    { filterId: id(41), name: 'Old vinegars', filter: KEPT_FILTER },
    'Filter “Old vinegars” kept.',
    'filter “Old vinegars”',
  ],
  editBatchFilter: [
    { filterId: id(41), name: 'Vinegars', filter: KEPT_FILTER },
    'Filter changed, now called “Vinegars”.',
    'change to the filter “Vinegars”',
  ],
  dropBatchFilter: [{ filterId: id(41) }, 'Filter of the Cellar Book taken away.', 'taking away a filter'],
  overrule: [
    { vesselId: JAR, use: 'dressSalad', reason: 'only for us' },
    'A verdict on Jar 2 gone against (to dress a salad): only for us.',
    'going against a verdict on Jar 2',
  ],
  note: [
    { about: { kind: 'vessel', vesselId: JAR }, text: 'clear, thin veil' },
    'clear, thin veil',
    'note "clear, thin veil"',
  ],
  addPhoto: [
    {
      ...{ about: { kind: 'vessel', vesselId: JAR }, checksum: 'ab'.repeat(32) },
      ...{ widthPx: 4, heightPx: 3, caption: 'the disc on day nine' },
    },
    'Photo of Jar 2: the disc on day nine.',
    'photo "the disc on day nine"',
  ],
  editCaption: [
    { photoId: EARLIER, caption: 'the second disc' },
    'Caption of a photo: the second disc.',
    'caption of a photo',
  ],
  tasteNote: [
    {
      ...{ about: { kind: 'vessel', vesselId: JAR }, words: ['apple', 'offDry'], score: 4 },
      ...{ text: 'a long finish', by: 'the neighbour' },
    },
    'Jar 2 tasted by the neighbour: score 4 of 5; apple, off-dry; a long finish.',
    'tasting of Jar 2',
  ],
  blend: [
    {
      toVesselId: JAR,
      parts: [{ fromVesselId: JUG, volumeUl: 750_000 }],
      ...{ newBatch: null, toStage: null },
    },
    'Blended in Jar 2: 750 ml of Demijohn 1.',
    'blending 1 into Jar 2',
  ],
  drawAndRefill: [
    {
      ...{ vesselId: JAR, drawnUl: 1_000_000, toVesselId: null, newBatch: null, toStage: null },
      ...{ fromVesselId: JUG, refillUl: 900_000 },
    },
    '1 L drawn from Jar 2, refilled with 900 ml of Demijohn 1.',
    'drawing and refilling Jar 2',
  ],
  sample: [
    { vesselId: JAR, volumeUl: 100_000, purpose: 'gravity', note: '' },
    'Sample of 100 ml from Jar 2, for gravity.',
    'sample of 100 ml from Jar 2',
  ],
  filter: [
    { vesselId: JAR, how: 'paper', lossUl: 50_000, note: 'slow' },
    'Jar 2 filtered through paper, 50 ml lost (slow).',
    'filtering Jar 2',
  ],
  cleanVessel: [
    { vesselId: JAR, how: 'sanitised', restUntilMs: null, note: '' },
    'Jar 2 sanitised.',
    'cleaning Jar 2',
  ],
  lendVessel: [
    { vesselId: JAR, holder: 'the neighbour', note: '' },
    'Jar 2 is with the neighbour.',
    'lending Jar 2',
  ],
  takeBottles: [
    { lotId: EARLIER, bottles: 2, how: 'given', holder: 'the neighbour', note: '' },
    '2 bottles given to the neighbour.',
    'taking 2 bottles',
  ],
  returnBottles: [
    { lotId: EARLIER, bottles: 1, toVesselId: JAR, lossUl: 0, toStage: null, note: '' },
    '1 bottle emptied into Jar 2.',
    'emptying 1 bottle into Jar 2',
  ],
  reconcile: [
    {
      ...{ vesselId: JAR, readingId: null, note: '' },
      steps: [
        { kind: 'ferment', sugarUg: 100_000_000, yieldPpm: 910_000 },
        { kind: 'acetify', ethanolUg: 40_000_000, acidSharePpm: 850_000 },
      ],
    },
    'Book of Jar 2 brought up to date: 100 g sugar fermented, yield 91 % of the theory; 40 g alcohol turned, 85 % of it into acid.',
    'bringing the book of Jar 2 up to date',
  ],
  quarantine: [
    {
      ...{ root: { kind: 'culture', cultureId: MOTHER }, vesselIds: [JAR, JUG], lotIds: [EARLIER] },
      reason: 'threads under the film',
    },
    '2 vessels and 1 lot of bottles kept apart with Old Bess (threads under the film).',
    'keeping 2 vessels and 1 lot of bottles apart',
  ],
  releaseBottles: [
    { lotId: EARLIER, reason: 'heated and clear' },
    'Bottles of a batch no longer kept apart (heated and clear).',
    'release of bottles of a batch',
  ],
  restate: [
    {
      reason: 'the wrong jar',
      corrections: [{ entryId: EARLIER, happenedAtMs: 0, act: null }],
    },
    '1 earlier line taken back: the wrong jar.',
    'correction of 1 earlier line',
  ],
  reverse: [
    { entryId: EARLIER, how: 'strike' },
    'Struck through: an earlier line.',
    'striking of an earlier line',
  ],
};

describe('a line of the book in words', () => {
  test.each(Object.entries(EXAMPLES))('%s is said in full and in short', (kind, [act, full, short]) => {
    expect(plain(said({ kind, ...act }))).toBe(full);
    expect(plain(saidShort({ kind, ...act }))).toBe(short);
  });

  test('every kind of act the book knows has an example above', () => {
    const kinds = Act.options.map((option) => option.shape.kind.value);
    expect(Object.keys(EXAMPLES).sort()).toEqual([...new Set(kinds)].sort());
  });

  test.each([
    ['undo', 'Taken back: an earlier line.', 'undoing of an earlier line'],
    ['redo', 'Done again: an earlier line.', 'redoing of an earlier line'],
    ['strike', 'Struck through: an earlier line.', 'striking of an earlier line'],
  ])('reversing by %s has its own word', (how, full, short) => {
    expect(said({ kind: 'reverse', entryId: EARLIER, how })).toBe(full);
    expect(saidShort({ kind: 'reverse', entryId: EARLIER, how })).toBe(short);
  });

  test('a reversal names what it reversed, with the names of that line', () => {
    const values = { ...NOTHING_READ, acidityGramsPer100Ml: 4.1, acidityAs: 'acetic' };
    const original = Act.parse({ kind: 'recordReading', vesselId: JAR, values });
    const reversed = { act: original, happenedAtMs: 0, names: { [JAR]: 'Apple vinegar 3 (A2)' } };
    const row = entry({ kind: 'reverse', entryId: EARLIER, how: 'undo' }, {}, reversed);
    expect(plain(sayEntry(row, HOUSE_RULES_AT_FIRST))).toBe(
      'Taken back: reading 4.1 % on Apple vinegar 3 (A2).',
    );
  });

  test('no id is ever shown, even when a name is missing', () => {
    for (const [kind, [act]] of Object.entries(EXAMPLES)) {
      const line = said({ kind, ...act }, {});
      expect(line).not.toMatch(/[0-9a-f]{8}-/u);
      expect(line).not.toContain('undefined');
    }
  });

  test('an acidity whose acid was not named says so', () => {
    const values = { ...NOTHING_READ, acidityGramsPer100Ml: 4.1 };
    expect(plain(said({ kind: 'recordReading', vesselId: JAR, values }))).toBe(
      'Acidity 4.1 %, acid not named, in Jar 2.',
    );
  });

  test('amounts follow the house units', () => {
    const rules = { ...HOUSE_RULES_AT_FIRST, volume: 'us', temperature: 'F' } as const;
    const act: ActOf<'drawOff'> = Act.parse({
      kind: 'drawOff',
      vesselId: JAR,
      volumeUl: 946_353,
      purpose: '',
    }) as ActOf<'drawOff'>;
    expect(plain(sayEntry(entry(act), rules))).toBe('Drew off 1 qt from Jar 2.');
  });

  test('a long note is cut in the short form and kept whole in the full one', () => {
    const text = `${'plum '.repeat(20)}\nsecond line`;
    const act = { kind: 'note', about: { kind: 'batch', batchId: BATCH }, text };
    expect(said(act)).toBe(text);
    expect(saidShort(act)).toMatch(/^note "plum .*…"$/u);
  });
});
