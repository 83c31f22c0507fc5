import fc from 'fast-check';
import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cornerstonesOf } from '#core/safety/cornerstones.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { intervalOf } from '#core/safety/interval.ts';
import { sayKeysOf, WHOLE_BOOK } from '#core/safety/rule-book.ts';
import type { Use } from '#core/safety/rule.ts';
import { SOURCES, type Source } from '#core/safety/sources.ts';
import { CLEAN, DAY, facts, NOW } from './given.ts';
import { anyFacts, USES } from './random-facts.ts';

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
