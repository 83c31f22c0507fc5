import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluate } from '#core/safety/evaluate.ts';
import type { AcidityMeasurement, EventKind, SafetyFacts } from '#core/safety/facts.ts';
import { ALL_SAY_KEYS, WHOLE_BOOK } from '#core/safety/rule-book.ts';
import { defineRule, okBecause, type Rule, type Use } from '#core/safety/rule.ts';
import { SOURCES } from '#core/safety/sources.ts';
import { DAY, facts, NOW, titrated, TITRATION } from './given.ts';
import { allFacts, USES } from './random-facts.ts';

describe('the evaluator', () => {
  const met: Rule = defineRule({
    id: 'CAN-02',
    uses: ['can'],
    reasons: ['met'],
    sourceIds: ['POLICY'],
    evidence: ['policy'],
    check: () => okBecause({}),
  });
  const bookOf = (...rules: readonly Rule[]) => ({ ...WHOLE_BOOK, rules });

  it('never clears a use that no rule covers', () => {
    expect(evaluate('keep', facts(), bookOf())).toEqual({
      use: 'keep',
      word: 'notKnown',
      worst: 'unknown_measure_first',
      findings: [],
      measureNext: null,
    });
    expect(evaluate('keep', facts(), bookOf(met)).word).toBe('notKnown');
    expect(evaluate('can', facts(), bookOf(met)).word).toBe('meetsTheRule');
  });
  it('turns a fault in a rule into not known, and still runs the others', () => {
    const faulty: Rule = {
      ...met,
      id: 'TST-02',
      check: () => {
        throw new Error('a bug');
      },
    };
    const verdict = evaluate('can', facts(), bookOf(met, faulty));
    expect(verdict).toMatchObject({ word: 'notKnown', worst: 'unknown_measure_first' });
    expect(verdict.findings).toHaveLength(2);
    expect(verdict.findings[0]).toMatchObject({ ruleId: 'TST-02', reason: 'engine_fault' });
  });
  it('turns a fault in the test of applying into not known', () => {
    const faulty: Rule = {
      ...met,
      applies: () => {
        throw new Error('a bug');
      },
    };
    expect(evaluate('can', facts(), bookOf(faulty)).word).toBe('notKnown');
  });
  it('never clears a use whose cornerstone did not speak', () => {
    const other = { ...met, id: 'TST-01' };
    expect(evaluate('can', facts(), bookOf(other))).toMatchObject({
      word: 'notKnown',
      worst: 'unknown_measure_first',
    });
  });
  it('asks for the product of a use that depends on it', () => {
    expect(evaluate('drink', facts(), WHOLE_BOOK)).toMatchObject({ word: 'notKnown' });
    expect(evaluate('sealInBottle', facts({ product: null }), WHOLE_BOOK).measureNext).toEqual({
      quantity: 'product',
      why: 'missing',
    });
  });
  it('does not let a rule clear when it may not apply', () => {
    const perhaps: Rule = { ...met, applies: () => 'unknown' };
    expect(evaluate('can', facts(), bookOf(perhaps)).word).toBe('notKnown');
  });
  it('names the fact that a rule asks for, and the quantity that a measurement rule speaks of', () => {
    const verdict = evaluate('labelAsVinegar', facts({ measurements: [titrated(5)] }));
    const numbersOf = (id: string) => verdict.findings.find(({ ruleId }) => ruleId === id)?.numbers;
    expect(numbersOf('VIN-06')).toEqual({ find: 'rawMaterial' });
    expect(numbersOf('VIN-01')).not.toHaveProperty('find');
    expect(numbersOf('MEAS-04')).toMatchObject({ quantity: 'acidity' });
  });
  it('names the fact that decides whether a rule applies, for each rule that may not know', () => {
    const unsure = new Set<string>();
    fc.assert(
      fc.property(fc.constantFrom(...USES), allFacts, (use, given) => {
        const inspect = () => ({ measurement: null, answers: [], usable: null, worst: okBecause({}) });
        for (const rule of WHOLE_BOOK.rules) {
          if (rule.uses.includes(use) && rule.applies({ use, facts: given, inspect }) === 'unknown') {
            unsure.add(rule.id);
            expect(rule.appliesBy, rule.id).not.toBeNull();
          }
        }
      }),
      { numRuns: 3_000 },
    );
    const named = WHOLE_BOOK.rules.filter(({ appliesBy }) => appliesBy !== null).map(({ id }) => id);
    expect([...unsure].sort()).toEqual(named.sort());
    const nowhere = facts({ jurisdiction: null, rawMaterial: 'juice', measurements: [titrated(5)] });
    expect(evaluate('labelAsVinegar', nowhere).measureNext).toEqual({
      quantity: 'jurisdiction',
      why: 'jurisdiction_unset',
    });
    const glazed = evaluate('useVessel', facts({ vessel: null }));
    expect(glazed.findings.find(({ ruleId }) => ruleId === 'MAT-03')?.numbers).toMatchObject({
      find: 'vessel.foodGrade',
    });
  });
  it('returns every rule that spoke, worst first', () => {
    const verdict = evaluate('labelAsVinegar', facts({ addedWater: null, measurements: [titrated(3)] }));
    expect(verdict.findings.map(({ ruleId }) => ruleId)).toEqual([
      'VIN-01',
      'VIN-02',
      'VIN-06',
      'VIN-08',
      'MEAS-09',
      'MEAS-01',
      'MEAS-02',
      'MEAS-03',
      'MEAS-04',
      'MEAS-05',
      'MEAS-13',
      'MEAS-06',
    ]);
    expect(verdict.worst).toBe('do_not');
  });
});

const finite = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const wild = fc.oneof(finite(-1, 20), fc.double(), fc.constantFrom(0, 4, 4.2, 5, Number.NaN));
const kinds: readonly EventKind[] = [
  'addWater',
  'addJuice',
  'blend',
  'heat',
  'draw',
  'split',
  'seal',
  'move',
];
const bool = fc.constantFrom(true, false, null);

const measurement: fc.Arbitrary<AcidityMeasurement> = fc.record({
  quantity: fc.constant('acidity' as const),
  value: fc.oneof(wild, finite(2, 9)),
  uncertainty: fc.option(fc.oneof(wild, finite(0.1, 0.5))),
  method: fc.constantFrom('taBurette' as const, 'taSyringeKit' as const, 'taLaboratory' as const, null),
  provenance: fc.constantFrom(
    'measured' as const,
    'measured' as const,
    'boughtLabel' as const,
    'calculated' as const,
    'guessed' as const,
  ),
  takenAtMs: fc.oneof(
    fc.integer({ min: NOW - 250 * DAY, max: NOW + DAY }),
    fc.integer({ min: NOW - 10 * DAY, max: NOW }),
  ),
  acid: fc.constantFrom('acetic' as const, 'malic' as const, 'tartaric' as const, null),
  basis: fc.constantFrom('w/v' as const, 'w/v' as const, 'w/w' as const, null),
  fixedAcidGramsPer100Ml: fc.option(finite(0, 2)),
  titration: fc.constantFrom(TITRATION, TITRATION, TITRATION, null),
});

const anyFacts: fc.Arbitrary<SafetyFacts> = fc.record({
  nowMs: fc.constant(NOW),
  measurements: fc.array(measurement, { maxLength: 3 }),
  compositionEvents: fc.array(
    fc.record({
      atMs: fc.integer({ min: NOW - 250 * DAY, max: NOW }),
      kind: fc.constantFrom(...kinds),
    }),
    { maxLength: 3 },
  ),
  origin: fc.constantFrom('home_made' as const, 'bought' as const, null),
  openToAir: bool,
  liveCulture: bool,
  bottledFull: bool,
  pasteurised: bool,
  addedWater: bool,
  boughtLabelPercent: fc.option(wild),
  hoursSinceProcessing: fc.option(wild),
  jurisdiction: fc.constantFrom(
    'us' as const,
    'us' as const,
    'eu' as const,
    'de' as const,
    'ca' as const,
    null,
  ),
  labelAudience: fc.constantFrom('own' as const, 'gift' as const, 'sale' as const, null),
  rawMaterial: fc.constantFrom('juice' as const, 'juice' as const, 'scrapAndSugarWater' as const, null),
  recipe: fc.constantFrom('testedExactly' as const, 'testedSpicesAltered' as const, 'own' as const, null),
});

const uses: readonly Use[] = ['labelAsVinegar', 'can', 'weakJars', 'keep'];

describe('random facts', () => {
  it('never meet the rule for a label unless a fresh, acetic, measured interval clears 4.0', () => {
    let met = 0;
    fc.assert(
      fc.property(anyFacts, (given) => {
        const verdict = evaluate('labelAsVinegar', given);
        if (verdict.word !== 'meetsTheRule') return;
        met += 1;
        expect(given.rawMaterial).not.toBeNull();
        const newest = given.measurements.reduce((a, b) => (b.takenAtMs >= a.takenAtMs ? b : a));
        expect(given.jurisdiction).not.toBeNull();
        expect(newest.quantity === 'acidity' && newest.acid !== null && newest.basis !== null).toBe(true);
        expect(newest.provenance).not.toBe('guessed');
        if (newest.provenance === 'calculated') expect(given.labelAudience).toBe('own');
        expect(newest.takenAtMs).toBeLessThanOrEqual(NOW);
        expect(NOW - newest.takenAtMs).toBeLessThanOrEqual(180 * DAY);
        for (const change of given.compositionEvents) {
          if (!['draw', 'split', 'seal', 'move'].includes(change.kind)) {
            expect(change.atMs).toBeLessThan(newest.takenAtMs);
          }
        }
        const strength = verdict.findings.find(({ ruleId }) => ruleId === 'VIN-01' || ruleId === 'VIN-05');
        const { value, uncertainty } = strength?.numbers ?? {};
        expect(Number(uncertainty)).toBeGreaterThan(0);
        expect(Number(value) - Number(uncertainty)).toBeGreaterThanOrEqual(
          { us: 4, uk: 4, ca: 4.1, anz: 4.04, de: 5, fr: 6, eu: 6 }[given.jurisdiction ?? 'fr'],
        );
      }),
      { numRuns: 20_000 },
    );
    // The sets are drawn so that some do meet it: a test of nothing would pass as well.
    expect(met).toBeGreaterThan(20);
  });

  it('never clear home-made vinegar, a weak or watered one, or a recipe of your own, for canning', () => {
    let met = 0;
    fc.assert(
      fc.property(anyFacts, (given) => {
        if (evaluate('can', given).word !== 'meetsTheRule') return;
        met += 1;
        expect(given.recipe).toMatch(/^tested/u);
        expect(given.origin).toBe('bought');
        expect(given.boughtLabelPercent).toBeGreaterThanOrEqual(5);
        expect(given.addedWater).toBe(false);
        expect(given.compositionEvents.some(({ kind }) => kind === 'addWater')).toBe(false);
      }),
      { numRuns: 20_000 },
    );
    expect(met).toBeGreaterThan(20);
  });

  it('always come with a wording key that is listed and a source that is known', () => {
    const listed = new Set(ALL_SAY_KEYS);
    fc.assert(
      fc.property(fc.constantFrom(...uses), anyFacts, (use, given) => {
        const verdict = evaluate(use, given);
        for (const finding of verdict.findings) {
          expect(listed.has(finding.sayKey), finding.sayKey).toBe(true);
          for (const id of finding.sourceIds) expect(Object.hasOwn(SOURCES, id), id).toBe(true);
        }
        if (verdict.word === 'meetsTheRule') expect(['ok', 'caution']).toContain(verdict.worst);
        else expect(['unknown_measure_first', 'do_not']).toContain(verdict.worst);
      }),
      { numRuns: 5_000 },
    );
  });

  it('have no effect of their order', () => {
    fc.assert(
      fc.property(anyFacts, (given) => {
        const times = new Set(given.measurements.map(({ takenAtMs }) => takenAtMs));
        fc.pre(times.size === given.measurements.length);
        const turned = {
          ...given,
          measurements: given.measurements.toReversed(),
          compositionEvents: given.compositionEvents.toReversed(),
        };
        const { word, worst } = evaluate('labelAsVinegar', given);
        expect(evaluate('labelAsVinegar', turned)).toMatchObject({ word, worst });
      }),
      { numRuns: 2_000 },
    );
  });
});

describe('the book of rules', () => {
  it('has one rule for each id, each with a source and a listed reason', () => {
    const { rules } = WHOLE_BOOK;
    expect(new Set(rules.map(({ id }) => id)).size).toBe(rules.length);
    for (const rule of rules) {
      expect(rule.sourceIds.length, rule.id).toBeGreaterThan(0);
      expect(rule.reasons.length, rule.id).toBeGreaterThan(0);
    }
    expect(new Set(ALL_SAY_KEYS).size).toBe(ALL_SAY_KEYS.length);
  });
});
