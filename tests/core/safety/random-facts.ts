import fc from 'fast-check';
import type { FactsOfUses, Product } from '#core/safety/facts-of-uses.ts';
import type { Measurement, SafetyFacts } from '#core/safety/facts.ts';
import { WHOLE_BOOK } from '#core/safety/rule-book.ts';
import type { Use } from '#core/safety/rule.ts';
import { DAY, HOUR, NOW, TITRATION } from './given.ts';

const bool = fc.constantFrom(true, false, null);
const orNull = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: null, freq: 8 });
const one = <const T extends readonly unknown[]>(...values: T) =>
  fc.constantFrom(...(values as readonly T[number][]));
const num = (min: number, max: number) =>
  fc.oneof(
    { weight: 9, arbitrary: fc.double({ min, max, noNaN: true }) },
    { weight: 1, arbitrary: fc.double() },
  );
const moment = (days: number) => orNull(fc.integer({ min: NOW - days * DAY, max: NOW }));
const gauge = (min: number, max: number) =>
  orNull(
    fc.record({
      value: num(min, max),
      uncertainty: orNull(num(0, 3)),
      method: one('thermometer', 'phMeterTwoBuffersToday', null),
    }),
  );

/** Every use that a rule speaks to. */
export const USES: readonly Use[] = [...new Set(WHOLE_BOOK.rules.flatMap(({ uses }) => uses))];
const PRODUCTS = [
  ...['vinegar', 'wine', 'cider', 'mead', 'juice', 'kombucha', 'waterKefir', 'brinedVegetables', 'kimchi'],
  ...['refrigeratorPickle', 'infusedVinegar', 'infusedOil'],
] as readonly Product[];

const common = {
  provenance: one('measured', 'measured', 'measured', 'boughtLabel', 'calculated', 'guessed'),
  takenAtMs: fc.oneof(
    { weight: 3, arbitrary: fc.integer({ min: NOW - 5 * HOUR, max: NOW - 1 }) },
    { weight: 2, arbitrary: fc.integer({ min: NOW - 20 * DAY, max: NOW + HOUR }) },
  ),
  uncertainty: orNull(fc.oneof(num(0.02, 0.5), fc.constantFrom(0.001, 0.002))),
};
const measurement: fc.Arbitrary<Measurement> = fc.oneof(
  fc.record({
    ...common,
    quantity: fc.constant('acidity' as const),
    value: num(2, 9),
    method: one('taBurette', 'taSyringeKit', 'taLaboratory', null),
    acid: one('acetic', 'acetic', 'acetic', 'malic', null),
    basis: one('w/v', 'w/v', 'w/v', 'w/w', null),
    fixedAcidGramsPer100Ml: orNull(num(0, 1)),
    titration: one(TITRATION, TITRATION, null),
  }),
  fc.record({
    ...common,
    quantity: fc.constant('pH' as const),
    value: num(2.2, 5.5),
    method: one(
      'phMeterTwoBuffersToday',
      'phMeterTwoBuffersToday',
      'phMeterWithinAWeek',
      'phStripNarrow',
      null,
    ),
    sampleFrom: one('blended', 'blended', 'brine', null),
    equilibriumShown: bool,
  }),
  fc.record({
    ...common,
    quantity: fc.constant('gravity' as const),
    value: num(0.994, 1.02),
    method: one('hydrometer', 'hydrometerNarrow', 'refractometer', null),
    temperatureCorrected: one(true, true, false, null),
    degreesOff: orNull(num(-10, 10)),
  }),
  fc.record({
    ...common,
    quantity: one('alcohol', 'sulfite', 'carbonDioxide'),
    value: fc.oneof(num(0, 15), num(300, 40_000)),
    method: one('alcoholLaboratory', 'sulfiteKit', 'roomCarbonDioxide', null),
  }),
);

const inspection = fc.record({
  atMs: fc.integer({ min: NOW - 9 * DAY, max: NOW }),
  growth: one('none', 'none', 'none', 'flatFilm', 'jellyDisc', 'fuzzyOrColoured', 'cannotTell', null),
  undecidedSinceMs: moment(4),
  smell: one('clean', 'clean', 'clean', 'solventFaint', 'solventStrong', 'rottenEgg', 'putrid', null),
  solventSinceMs: moment(60),
  flies: one('none', 'none', 'inRoom', 'inside', 'larvae', null),
  cover: one('tightCloth', 'cheesecloth', 'closed', null),
  eels: one('absent', 'absent', 'present', null),
  texture: one('sound', 'sound', 'cloudyBrine', 'slimySoftPinkOrFoul', null),
});

const ofUses: fc.Arbitrary<FactsOfUses> = fc.record({
  product: orNull(fc.constantFrom(...PRODUCTS)),
  recipient: one('healthyAdult', 'healthyAdult', 'infant', 'child', 'elder', 'pregnant', null),
  rawMaterial: one('juice', 'juice', 'scrapAndSugarWater', 'aceticAcid', null),
  containsHoney: bool,
  sulfiteAdded: bool,
  calledSulfiteFree: bool,
  calledAlcoholFree: bool,
  kefirBase: one('sugarWater', 'juice', null),
  concentrated: one(false, false, true, null),
  pecticEnzymeWithPomace: bool,
  heated: bool,
  pitched: bool,
  acetificationBegun: one(false, false, true, null),
  alcoholSpentAtMs: moment(50),
  grainClaim: orNull(fc.record({ grain: orNull(num(0, 100)) })),
  recipe: one('testedExactly', 'testedSpicesAltered', 'own', null),
  labelComplete: bool,
  localLawChecked: bool,
  inspection: orNull(inspection),
  storage: orNull(
    fc.record({
      place: one('refrigerator', 'freezer', 'coolCellar', 'warmShelf', null),
      closedTight: bool,
      testedProcess: bool,
    }),
  ),
  ferment: orNull(
    fc.record({
      startedAtMs: moment(40),
      meanCelsius: gauge(8, 30),
      hoursAbove27Celsius: orNull(num(0, 60)),
      inRefrigerator: bool,
    }),
  ),
  salting: orNull(
    fc.record({
      saltGrams: orNull(num(0, 60)),
      vegetableGrams: orNull(num(500, 1500)),
      waterGrams: orNull(num(0, 800)),
    }),
  ),
  submersion: orNull(
    fc.record({
      checkedAtMs: moment(6),
      covered: bool,
      exposedHours: orNull(num(0, 50)),
      slimeColourOrMould: bool,
    }),
  ),
  infusion: orNull(
    fc.record({
      herbsSanitised: bool,
      vinegarHeated: bool,
      strained: bool,
      garlicOrVegetableLeftIn: bool,
      madeAtMs: moment(200),
    }),
  ),
  infusedOil: orNull(
    fc.record({ madeAtMs: moment(8), acidified: one('testedCitric', 'vinegar', 'none', null) }),
  ),
  starter: orNull(fc.record({ percent: orNull(num(0, 30)), mature: bool, startPh: gauge(3, 6) })),
  secondFerment: orNull(fc.record({ sugarGramsPerLitre: orNull(num(0, 10)), daysWarm: orNull(num(0, 8)) })),
  fruit: orNull(
    fc.record({
      sorting: one('sound', 'sound', 'bruisedTrimmed', 'mouldy', null),
      pickedFrom: one('tree', 'ground', null),
      grazedOrchard: bool,
      washed: bool,
      intended: one('rawJuice', 'heatedJuice', 'fermentFully', null),
    }),
  ),
  heating: orNull(
    fc.record({
      reachedCelsius: gauge(50, 85),
      simmered: bool,
      minutes: orNull(num(0, 60)),
      pot: one('sound', 'reactive', null),
      calledPasteurised: bool,
      bottleGlass: one('warm', 'coldOrdinary', 'crackedOrColdThin', null),
    }),
  ),
  sealing: orNull(
    fc.record({
      bottle: one('unrated', 'light', 'heavyBeer', 'sparkling', 'makerRated', null),
      makerRatingVolumes: orNull(num(1, 7)),
      primingGramsPerLitre: orNull(num(0, 12)),
      bubbling: one(false, false, true, null),
      warmedSinceFirstReading: one(false, false, true, null),
      riseCelsius: orNull(num(-5, 15)),
      gushed: bool,
      carbonated: bool,
      headspaceAndSlow: bool,
    }),
  ),
  roomAir: orNull(
    fc.record({
      measuredAtKneeHeight: bool,
      activeLitres: orNull(num(0, 500)),
      pointsPerDay: orNull(num(0, 12)),
      roomLitres: orNull(num(0, 60_000)),
      closedDays: orNull(num(0, 10)),
      symptoms: bool,
    }),
  ),
  vessel: orNull(
    fc.record({
      material: one('glass', 'stainless', 'plastic', 'wood', 'glazedCeramic', 'copper', 'galvanised', null),
      contactMinutes: orNull(num(0, 100)),
      glaze: one('makerSaysLeadFree', 'swabNegative', 'swabPositive', 'decorative', null),
      damage: one('sound', 'sound', 'chippedOrCracked', null),
      foodGrade: bool,
      scratched: bool,
      heldChemicals: bool,
      light: one('dark', 'brightRoom', null),
      heldVinegarBefore: bool,
    }),
  ),
  culture: orNull(fc.record({ keptBack: bool, otherHolders: bool })),
});

/** Facts of one vessel, drawn so that some of them meet a rule. */
export const anyFacts: fc.Arbitrary<SafetyFacts> = fc
  .tuple(
    fc.record({
      measurements: fc.array(measurement, { maxLength: 4 }),
      compositionEvents: fc.array(
        fc.record({
          atMs: fc.integer({ min: NOW - 30 * DAY, max: NOW }),
          kind: one('draw', 'seal', 'move', 'addWater', 'addSugar', 'sulfite', 'blend', 'heat'),
        }),
        { maxLength: 2 },
      ),
      origin: one('home_made', 'bought', null),
      openToAir: bool,
      liveCulture: bool,
      bottledFull: bool,
      pasteurised: bool,
      addedWater: bool,
      boughtLabelPercent: orNull(num(3, 8)),
      hoursSinceProcessing: orNull(num(0, 60)),
      jurisdiction: one('us', 'us', 'eu', 'de', 'uk', null),
      labelAudience: one('own', 'gift', 'sale', null),
    }),
    ofUses,
  )
  .map(([base, more]) => ({ nowMs: NOW, ...base, ...more }));

const ofHandling: fc.Arbitrary<FactsOfUses> = fc.record({
  sulfiteHandling: orNull(
    fc.record({ ventilated: bool, gloves: bool, asthmaPresent: bool, intoHotOrStrongAcid: bool }),
  ),
  closing: orNull(
    fc.record({
      closure: one('airlock', 'cloth', 'looseLid', 'burpedByHand', 'gasTight', null),
      headspacePercent: orNull(num(0, 100)),
    }),
  ),
  cleaning: orNull(
    fc.record({
      bleach: bool,
      acidOrSulfite: bool,
      rinsedBetween: bool,
      sulfiteWithAcid: bool,
      place: one('outdoors', 'windowOpen', 'closedRoom', null),
      asthmaPresent: bool,
      lastCleanerRinsed: bool,
    }),
  ),
  baseHandling: orNull(
    fc.record({
      normality: orNull(num(0, 2)),
      goggles: bool,
      gloves: bool,
      labelledAndLocked: bool,
      byMouth: one(false, false, true, null),
    }),
  ),
  homeAlcohol: orNull(
    fc.record({
      ofAge: one(true, true, false, null),
      adultsInHousehold: orNull(fc.integer({ min: 1, max: 4 })),
      litresThisYear: orNull(num(0, 900)),
    }),
  ),
  beforeAcetification: orNull(
    fc.record({
      alcohol: fc.record({ value: num(2, 9), uncertainty: num(0.1, 1) }),
      acidity: fc.record({ value: num(0, 1), uncertainty: num(0.1, 0.4) }),
    }),
  ),
});

/** The same with all that the rules for handling, cleaning and law ask as well. */
export const allFacts: fc.Arbitrary<SafetyFacts> = fc
  .tuple(anyFacts, ofHandling, one('wine', 'fortifiedWine', 'other', null))
  .map(([given, more, alcoholicBase]) => ({ ...given, ...more, alcoholicBase }));
