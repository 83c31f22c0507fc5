import type { Fruit, Heating, Product, Sealing } from '#core/safety/facts-of-uses.ts';
import type { Measurement, SafetyFacts } from '#core/safety/facts.ts';
import type { Use } from '#core/safety/rule.ts';
import {
  CLEAN,
  DAY,
  facts,
  fermentingSince,
  gauged,
  gravity,
  HOUR,
  NOW,
  other,
  ph,
  titrated,
} from './given.ts';

/** Facts under which a use meets every rule: where a search for a wrong green begins. */
export interface BestCase {
  readonly name: string;
  readonly use: Use;
  readonly facts: SafetyFacts;
  /** True where the use rests on a reading of the liquid. */
  readonly needs: boolean;
}

const noAlcohol = other('alcohol', 0.1, { method: 'alcoholLaboratory', uncertainty: 0.1 });

/** Everything known, and nothing against anything. */
const ALL_WELL: Partial<SafetyFacts> = {
  inspection: { ...CLEAN, cover: 'tightCloth' },
  recipient: 'healthyAdult',
  rawMaterial: 'juice',
  containsHoney: false,
  sulfiteAdded: false,
  calledSulfiteFree: false,
  calledAlcoholFree: false,
  concentrated: false,
  pecticEnzymeWithPomace: false,
  pitched: true,
  acetificationBegun: false,
  labelComplete: true,
  localLawChecked: true,
  recipe: 'testedExactly',
  alcoholicBase: 'other',
  storage: { place: 'refrigerator', closedTight: true, testedProcess: false },
  ferment: fermentingSince(NOW - 30 * DAY, {
    meanCelsius: gauged(20),
    hoursAbove27Celsius: 0,
    inRefrigerator: false,
  }),
  salting: { saltGrams: 35, vegetableGrams: 900, waterGrams: 100 },
  submersion: { checkedAtMs: NOW - HOUR, covered: true, exposedHours: 0, slimeColourOrMould: false },
  fruit: {
    sorting: 'sound',
    pickedFrom: 'tree',
    grazedOrchard: false,
    washed: true,
    intended: 'fermentFully',
  },
  sealing: {
    ...{ bottle: 'unrated', makerRatingVolumes: null, primingGramsPerLitre: 0, bubbling: false },
    ...{
      warmedSinceFirstReading: false,
      riseCelsius: 2,
      gushed: false,
      carbonated: false,
      headspaceAndSlow: true,
    },
  },
  vessel: {
    ...{
      material: 'glass',
      contactMinutes: null,
      glaze: null,
      damage: 'sound',
      foodGrade: true,
      scratched: false,
    },
    ...{ heldChemicals: false, light: 'dark', heldVinegarBefore: false },
  },
  cleaning: {
    ...{
      bleach: false,
      acidOrSulfite: false,
      rinsedBetween: true,
      sulfiteWithAcid: false,
      place: 'outdoors',
    },
    ...{ asthmaPresent: false, lastCleanerRinsed: true },
  },
  culture: { keptBack: true, otherHolders: true },
  closing: { closure: 'airlock', headspacePercent: 15 },
};

const still: readonly Measurement[] = [
  gravity(1, { takenAtMs: NOW - 60 * HOUR }),
  gravity(1, { takenAtMs: NOW - HOUR }),
];

function best(
  name: string,
  use: Use,
  product: Product | null,
  change: Partial<SafetyFacts>,
  needs = true,
): BestCase {
  return { name, use, needs, facts: facts({ ...ALL_WELL, product, ...change }) };
}

const vinegar = { measurements: [titrated(7), noAlcohol], acetificationBegun: true };
const sweetBottle = { ...ALL_WELL.sealing, bottle: 'heavyBeer' } as Sealing;
const starter = {
  percent: 15,
  mature: true,
  startPh: { value: 4, uncertainty: 0.1, method: 'phMeterTwoBuffersToday' },
} as const;
const heated: Heating = {
  ...{
    reachedCelsius: gauged(75),
    simmered: true,
    minutes: 20,
    pot: 'sound',
    calledPasteurised: true,
    bottleGlass: 'warm',
  },
};
const juice = {
  heated: true,
  heating: heated,
  fruit: { ...ALL_WELL.fruit, intended: 'heatedJuice' } as Fruit,
};
const tea = { measurements: [ph(3.2, { sampleFrom: 'bottle' }), noAlcohol] };
const sour = { measurements: [ph(3.8)], acetificationBegun: false };
const room = {
  ...{
    measuredAtKneeHeight: true,
    activeLitres: 5,
    pointsPerDay: 1,
    roomLitres: 30_000,
    closedDays: 1,
    symptoms: false,
  },
};
const infusion = {
  ...{
    herbsSanitised: true,
    vinegarHeated: true,
    strained: true,
    garlicOrVegetableLeftIn: false,
    madeAtMs: NOW - 9 * DAY,
  },
};

export const BEST_CASES: readonly BestCase[] = [
  best('label of a vinegar (us)', 'labelAsVinegar', 'vinegar', vinegar),
  best('label of a vinegar (de)', 'labelAsVinegar', 'vinegar', { ...vinegar, jurisdiction: 'de' }),
  best('label of a vinegar (fr)', 'labelAsVinegar', 'vinegar', {
    ...vinegar,
    jurisdiction: 'fr',
    alcoholicBase: 'wine',
  }),
  ...(['keep', 'drink', 'dressSalad', 'giveAway', 'refrigeratePickle'] as const).map((use) =>
    best(`${use}: vinegar`, use, 'vinegar', vinegar),
  ),
  best('a mother kept', 'keepAsCulture', 'vinegar', vinegar, false),
  best('canning with bought vinegar', 'can', null, { origin: 'bought', boughtLabelPercent: 5 }, false),
  best('weak jars', 'weakJars', null, { hoursSinceProcessing: 10 }, false),
  ...(['wine', 'cider', 'mead'] as const).flatMap((product) => [
    best(`drinking ${product}`, 'drink', product, { measurements: still }, false),
    best(`giving ${product}`, 'giveAway', product, { measurements: still }, false),
    best(`sealing ${product}`, 'sealInBottle', product, { measurements: still }),
    best(`sealing primed ${product}`, 'sealInBottle', product, {
      measurements: still,
      sealing: { ...sweetBottle, primingGramsPerLitre: 4 },
    }),
  ]),
  best('drinking heated juice', 'drink', 'juice', juice, false),
  best('giving heated juice', 'giveAway', 'juice', juice, false),
  best('drinking kombucha', 'drink', 'kombucha', tea),
  best('giving kombucha', 'giveAway', 'kombucha', tea),
  best('kombucha kept as a culture', 'keepAsCulture', 'kombucha', tea),
  best('drinking water kefir', 'drink', 'waterKefir', { ...tea, kefirBase: 'sugarWater' }),
  best('giving water kefir', 'giveAway', 'waterKefir', { ...tea, kefirBase: 'sugarWater' }),
  ...(['kombucha', 'waterKefir'] as const).map((product) =>
    best(`sealing ${product}`, 'sealInBottle', product, {
      measurements: [gravity(0.998)],
      sealing: sweetBottle,
      secondFerment: { sugarGramsPerLitre: 0, daysWarm: 2 },
    }),
  ),
  ...(['eat', 'keep', 'giveAway'] as const).flatMap((use) => [
    best(`${use === 'eat' ? 'eating' : use} brined vegetables`, use, 'brinedVegetables', sour),
    best(`${use} kimchi`, use, 'kimchi', sour),
  ]),
  ...(['eat', 'keep'] as const).map((use) =>
    best(`${use} refrigerator pickle`, use, 'refrigeratorPickle', sour),
  ),
  ...(['dressSalad', 'keep'] as const).map((use) =>
    best(`${use} infused vinegar`, use, 'infusedVinegar', { ...vinegar, infusion }),
  ),
  ...(['eat', 'keep', 'dressSalad'] as const).map((use) =>
    best(
      `${use} infused oil`,
      use,
      'infusedOil',
      { infusedOil: { madeAtMs: NOW - DAY, acidified: 'none' } },
      false,
    ),
  ),
  best('starting kombucha', 'startKombucha', null, { starter }, false),
  best('pressing fruit', 'pressFruit', null, {}, false),
  best(
    'handling sulfite',
    'handleSulfite',
    null,
    { sulfiteHandling: { ventilated: true, gloves: true, asthmaPresent: false, intoHotOrStrongAcid: false } },
    false,
  ),
  best(
    'making alcohol',
    'makeAlcohol',
    null,
    { homeAlcohol: { ofAge: true, adultsInHousehold: 2, litresThisYear: 100 } },
    false,
  ),
  best('closing a vessel', 'closeVessel', null, {}, false),
  best('moving bottles', 'moveWarmer', 'cider', { measurements: still }),
  best('heating bottles', 'heatBottles', 'cider', {}, false),
  best(
    'entering a cellar by a detector',
    'enterCellar',
    null,
    {
      measurements: [other('carbonDioxide', 800, { method: 'roomCarbonDioxide', takenAtMs: NOW - 60_000 })],
      roomAir: room,
    },
    false,
  ),
  best('entering a cellar by reckoning', 'enterCellar', null, { roomAir: room }, false),
  best('using a vessel', 'useVessel', 'wine', {}, false),
  best('cleaning', 'clean', null, {}, false),
  best(
    'titrating',
    'titrate',
    null,
    {
      baseHandling: { normality: 0.1, goggles: true, gloves: true, labelledAndLocked: true, byMouth: false },
    },
    false,
  ),
  best(
    'pasteurising',
    'pasteurise',
    'vinegar',
    { heating: { ...heated, reachedCelsius: gauged(66) } },
    false,
  ),
];
