import { z } from 'zod';

/**
 * What a keeper can tell of a vessel beside its readings: answers to what the safety rules ask. Every field may be
 * null, which is the same as not known. A test keeps these in step with the facts the rules read.
 */
const yesNo = z.boolean().nullable();
const amount = (low: number, high: number) => z.number().min(low).max(high).nullable();
const Gauged = z
  .strictObject({
    value: z.number().min(-50).max(200),
    uncertainty: amount(0, 50),
    method: z.literal('thermometer').nullable(),
  })
  .nullable();
const Moment = z.int().min(0).max(7_258_118_400_000).nullable();
const choice = <const T extends readonly [string, ...string[]]>(...values: T) => z.enum(values).nullable();

export const Inspected = z.strictObject({
  atMs: z.int().min(0),
  growth: choice('none', 'flatFilm', 'jellyDisc', 'fuzzyOrColoured', 'cannotTell'),
  undecidedSinceMs: Moment,
  smell: choice('clean', 'solventFaint', 'solventStrong', 'rottenEgg', 'putrid'),
  solventSinceMs: Moment,
  flies: choice('none', 'inRoom', 'inside', 'larvae'),
  cover: choice('tightCloth', 'cheesecloth', 'closed'),
  eels: choice('absent', 'present'),
  texture: choice('sound', 'cloudyBrine', 'slimySoftPinkOrFoul'),
});

/** The groups of facts, each told whole: telling a group again replaces what was told of it before. */
export const TOLD_GROUPS = {
  inspection: Inspected,
  recipient: z.enum([
    'healthyAdult',
    'infant',
    'child',
    'pregnant',
    'elder',
    'weakImmunity',
    'liverOrKidneyIllness',
    'avoidsAlcohol',
  ]),
  rawMaterial: z.enum(['juice', 'scrapAndSugarWater', 'aceticAcid']),
  recipe: z.enum(['testedExactly', 'testedSpicesAltered', 'own']),
  containsHoney: z.boolean(),
  sulfiteAdded: z.boolean(),
  calledSulfiteFree: z.boolean(),
  calledAlcoholFree: z.boolean(),
  concentrated: z.boolean(),
  pecticEnzymeWithPomace: z.boolean(),
  /** Who gets it with its label: only this house, as a gift, or for money. */
  labelAudience: z.enum(['own', 'gift', 'sale']),
  labelComplete: z.boolean(),
  localLawChecked: z.boolean(),
  storage: z.strictObject({
    place: choice('refrigerator', 'freezer', 'coolCellar', 'warmShelf'),
    closedTight: yesNo,
    testedProcess: yesNo,
  }),
  ferment: z.strictObject({
    startedAtMs: Moment,
    meanCelsius: Gauged,
    hoursAbove27Celsius: amount(0, 10_000),
    inRefrigerator: yesNo,
  }),
  salting: z.strictObject({
    saltGrams: amount(0, 1e6),
    vegetableGrams: amount(0, 1e7),
    waterGrams: amount(0, 1e7),
  }),
  submersion: z.strictObject({
    checkedAtMs: Moment,
    covered: yesNo,
    exposedHours: amount(0, 10_000),
    slimeColourOrMould: yesNo,
  }),
  infusion: z.strictObject({
    herbsSanitised: yesNo,
    vinegarHeated: yesNo,
    strained: yesNo,
    garlicOrVegetableLeftIn: yesNo,
    madeAtMs: Moment,
  }),
  starter: z.strictObject({ percent: amount(0, 100), mature: yesNo, startPh: z.null() }),
  secondFerment: z.strictObject({ sugarGramsPerLitre: amount(0, 500), daysWarm: amount(0, 365) }),
  fruit: z.strictObject({
    sorting: choice('sound', 'bruisedTrimmed', 'mouldy'),
    pickedFrom: choice('tree', 'ground'),
    grazedOrchard: yesNo,
    washed: yesNo,
    intended: choice('rawJuice', 'heatedJuice', 'fermentFully'),
  }),
  heating: z.strictObject({
    reachedCelsius: Gauged,
    simmered: yesNo,
    minutes: amount(0, 1440),
    pot: choice('sound', 'reactive'),
    calledPasteurised: yesNo,
    bottleGlass: choice('warm', 'coldOrdinary', 'crackedOrColdThin'),
  }),
  sealing: z.strictObject({
    bottle: choice('unrated', 'light', 'heavyBeer', 'sparkling', 'makerRated'),
    makerRatingVolumes: amount(0, 12),
    primingGramsPerLitre: amount(0, 100),
    bubbling: yesNo,
    warmedSinceFirstReading: yesNo,
    riseCelsius: amount(0, 40),
    gushed: yesNo,
    carbonated: yesNo,
    headspaceAndSlow: yesNo,
  }),
  closing: z.strictObject({
    closure: choice('airlock', 'cloth', 'looseLid', 'burpedByHand', 'gasTight'),
    headspacePercent: amount(0, 100),
  }),
  vessel: z.strictObject({
    material: choice(
      'glass',
      'stainless',
      'plastic',
      'wood',
      'glazedCeramic',
      'crystal',
      'enamel',
      'copper',
      'brass',
      'iron',
      'aluminium',
      'galvanised',
    ),
    contactMinutes: amount(0, 1e7),
    glaze: choice('makerSaysLeadFree', 'leachTestPassed', 'swabNegative', 'swabPositive', 'decorative'),
    damage: choice('sound', 'chippedOrCracked'),
    foodGrade: yesNo,
    scratched: yesNo,
    heldChemicals: yesNo,
    light: choice('dark', 'brightRoom'),
    heldVinegarBefore: yesNo,
  }),
  cleaning: z.strictObject({
    bleach: yesNo,
    acidOrSulfite: yesNo,
    rinsedBetween: yesNo,
    sulfiteWithAcid: yesNo,
    place: choice('outdoors', 'windowOpen', 'closedRoom'),
    asthmaPresent: yesNo,
    lastCleanerRinsed: yesNo,
  }),
  culture: z.strictObject({ keptBack: yesNo, otherHolders: yesNo }),
} as const;

export type ToldGroup = keyof typeof TOLD_GROUPS;
export const TOLD_GROUP_NAMES = Object.keys(TOLD_GROUPS) as ToldGroup[];

/** One or more groups told at once. */
export const ToldFacts = z.strictObject(TOLD_GROUPS).partial();
export type ToldFacts = z.infer<typeof ToldFacts>;
