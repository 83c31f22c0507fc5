import fc from 'fast-check';
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cornerstonesOf } from '#core/safety/cornerstones.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import type { FactsOfUses, Product } from '#core/safety/facts-of-uses.ts';
import type { Measurement, SafetyFacts } from '#core/safety/facts.ts';
import { intervalOf } from '#core/safety/interval.ts';
import { sayKeysOf, WHOLE_BOOK } from '#core/safety/rule-book.ts';
import type { Use } from '#core/safety/rule.ts';
import { SOURCES, type Source } from '#core/safety/sources.ts';
import { CLEAN, DAY, facts, HOUR, NOW, TITRATION } from './given.ts';

const { rules, measurementRules } = WHOLE_BOOK;
const all = [...rules, ...measurementRules];

const FAMILIES = {
  MEAS: 14,
  VIN: 11,
  CAN: 6,
  INF: 2,
  VEG: 9,
  KOM: 6,
  KEF: 2,
  CID: 4,
  WIN: 4,
  HON: 1,
  LAW: 2,
  PRS: 6,
  CO2: 3,
  MAT: 6,
  CLN: 4,
  MLD: 3,
  FLY: 1,
  ETH: 1,
  OFF: 1,
  PAS: 3,
};

describe('the whole book', () => {
  it('has 89 rules, each once, in its family', () => {
    const expected = Object.entries(FAMILIES).flatMap(([family, count]) =>
      Array.from({ length: count }, (_, i) => `${family}-${String(i + 1).padStart(2, '0')}`),
    );
    expect(all.map(({ id }) => id).sort()).toEqual(expected.sort());
    expect(all).toHaveLength(89);
  });

  it('names a source for every rule, read or else owned to be policy, practice or memory', () => {
    const sources: Readonly<Record<string, Source>> = SOURCES;
    for (const { id, sourceIds, evidence, reasons } of all) {
      expect(sourceIds.length, id).toBeGreaterThan(0);
      for (const source of sourceIds) expect(sources[source], `${id} ${source}`).toBeDefined();
      const read = sourceIds.some((source) => sources[source]?.status.startsWith('seen'));
      const owned = evidence.some(
        (kind) => kind === 'policy' || kind === 'common practice' || kind === 'memory',
      );
      expect(read || owned, id).toBe(true);
      expect(new Set(reasons).size, id).toBe(reasons.length);
    }
  });

  it('may not be overruled where a typed reason is not even offered', () => {
    const firm = rules.filter(({ mayBeOverruled }) => !mayBeOverruled).map(({ id }) => id);
    expect(firm.sort()).toEqual(
      [
        ...['CAN-01', 'CAN-02', 'CAN-03', 'CAN-04', 'CAN-05', 'CAN-06', 'VEG-01', 'VEG-02', 'VEG-08'],
        ...['MLD-01', 'MLD-02', 'MLD-03', 'CLN-01', 'PRS-03', 'CO2-01', 'CO2-03', 'MAT-01', 'MAT-02'],
        ...['HON-01', 'WIN-04'],
      ].sort(),
    );
  });

  it('has cases for every rule', () => {
    const folder = new URL('.', import.meta.url);
    const text = readdirSync(folder)
      .filter((name) => name.endsWith('.test.ts'))
      .map((name) => readFileSync(new URL(name, folder), 'utf8'))
      .join('\n');
    for (const { id } of all) expect(text.includes(`[${id}]`), id).toBe(true);
  });

  it('prints on the label the cautions that must not be lost', () => {
    const printed = rules.filter(({ printsOnLabel }) => printsOnLabel).map(({ id }) => id);
    for (const id of ['HON-01', 'WIN-01', 'KOM-04', 'KOM-05', 'CID-03', 'CAN-05'])
      expect(printed).toContain(id);
  });
});

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

const USES = [...new Set(rules.flatMap(({ uses }) => uses))];
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

const anyFacts: fc.Arbitrary<SafetyFacts> = fc
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

const HARMLESS = new Set(['draw', 'seal', 'move', 'split', 'open']);

describe('100,000 random sets of facts', () => {
  const listed = new Set(sayKeysOf(WHOLE_BOOK));

  it('never meet a rule when a needed number is missing, stale or within U of the limit', () => {
    let met = 0;
    fc.assert(
      fc.property(fc.constantFrom(...USES), anyFacts, (use, given) => {
        const verdict = evaluate(use, given, WHOLE_BOOK);
        for (const finding of verdict.findings) {
          if (!listed.has(finding.sayKey)) throw new Error(`${finding.sayKey} is not listed`);
          if (finding.reason === 'engine_fault') throw new Error(`${finding.ruleId} failed`);
          if ((finding.verdict === 'ok') !== (finding.reason === 'met')) throw new Error(finding.sayKey);
        }
        if (verdict.word !== 'meetsTheRule') {
          if (verdict.worst === 'ok' || verdict.worst === 'caution')
            throw new Error('a bad word for a good verdict');
          return;
        }
        met += 1;
        assertAllKnown(
          use,
          given,
          verdict.findings.map(({ ruleId }) => ruleId),
        );
        for (const { verdict: of } of verdict.findings)
          if (of !== 'ok' && of !== 'caution') throw new Error(of);
      }),
      { numRuns: 100_000 },
    );
    // The sets are drawn so that some do meet a rule: a test of nothing would pass as well.
    expect(met).toBeGreaterThan(20);
  }, 120_000);

  it('fall back to not known when any one measured quantity is taken away', () => {
    fc.assert(
      fc.property(fc.constantFrom(...USES), anyFacts, (use, given) => {
        const verdict = evaluate(use, given, WHOLE_BOOK);
        if (verdict.word !== 'meetsTheRule') return;
        const spoke = new Set(verdict.findings.filter((f) => f.verdict === 'ok').map(({ ruleId }) => ruleId));
        const needed = rules
          .filter(({ id, limit }) => limit !== null && spoke.has(id))
          .flatMap(({ needs }) => needs);
        for (const quantity of needed) {
          const without = {
            ...given,
            measurements: given.measurements.filter((m) => m.quantity !== quantity),
          };
          expect(evaluate(use, without, WHOLE_BOOK).word).toBe('notKnown');
        }
      }),
      { numRuns: 20_000 },
    );
  }, 60_000);
});

/** Checked here by another road than the rules take: cornerstones spoke, and each needed number is there, fresh and sound. */
function assertAllKnown(use: Use, given: SafetyFacts, spoke: readonly string[]): void {
  const cornerstones = cornerstonesOf(use, given);
  if (cornerstones === null) throw new Error(`${use} has no rule`);
  for (const any of cornerstones) {
    if (!any.some((id) => spoke.includes(id))) throw new Error(`${use}: none of ${any.join()} spoke`);
  }
  for (const rule of rules) {
    if (!spoke.includes(rule.id) || rule.limit === null) continue;
    const { quantity, side, value: limit } = rule.limit;
    const readings = given.measurements.filter((m) => m.quantity === quantity);
    const newest = readings.toSorted((a, b) => a.takenAtMs - b.takenAtMs).at(-1);
    if (!newest) throw new Error(`${rule.id} cleared without ${quantity}`);
    if (newest.provenance === 'guessed') throw new Error(`${rule.id} cleared by a guess`);
    if (newest.takenAtMs > NOW) throw new Error(`${rule.id} cleared by a reading to come`);
    if (NOW - newest.takenAtMs > 180 * DAY) throw new Error(`${rule.id} cleared by an old reading`);
    for (const event of given.compositionEvents) {
      const changes = !HARMLESS.has(event.kind);
      if (changes && event.atMs >= newest.takenAtMs) throw new Error(`${rule.id} cleared by a stale reading`);
    }
    const interval = intervalOf(newest);
    if (interval === null || !(interval.uncertainty > 0))
      throw new Error(`${rule.id} cleared without an error`);
    if (['VEG-01', 'VEG-08', 'KOM-01', 'KEF-01', 'CAN-05'].includes(rule.id)) continue;
    const low = interval.value - interval.uncertainty;
    const high = interval.value + interval.uncertainty;
    if (side === 'lower' && !(low >= limit)) throw new Error(`${rule.id} cleared at ${low}`);
    if (side === 'upper' && !(high <= limit)) throw new Error(`${rule.id} cleared at ${high}`);
  }
}

describe('a full evaluation', () => {
  it('of a use takes well under a millisecond', () => {
    const given = facts({ product: 'brinedVegetables', inspection: CLEAN, heating: null });
    const runs = 5_000;
    const began = performance.now();
    for (let i = 0; i < runs; i += 1) evaluate('eat', given, WHOLE_BOOK);
    // The bench holds it to 50 µs; here it is only kept from becoming something else.
    expect(((performance.now() - began) / runs) * 1000).toBeLessThan(1000);
  });
});
