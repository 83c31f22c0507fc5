import { describe, expect, it } from 'vitest';
import { evaluate } from '#core/safety/evaluate.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { DAY, event, facts, HOUR, NOW, other, titrated } from './given.ts';

/** To be called vinegar, made from juice and titrated with everything written down, so that strength decides. */
function label(change: Partial<SafetyFacts>) {
  const verdict = evaluate('labelAsVinegar', facts({ rawMaterial: 'juice', ...change }));
  const finding = (id: string) => verdict.findings.find(({ ruleId }) => ruleId === id);
  return { ...verdict, vin01: finding('VIN-01'), vin02: finding('VIN-02') };
}

describe('[VIN-01] vinegar labelled in the US', () => {
  it('above 4.0 by more than the error meets the rule', () => {
    const verdict = label({ measurements: [titrated(4.5)] });
    expect(verdict).toMatchObject({ word: 'meetsTheRule', worst: 'ok', measureNext: null });
    expect(verdict.vin01).toMatchObject({ verdict: 'ok', reason: 'met', sayKey: 'VIN-01.met' });
    expect(verdict.vin01?.numbers).toMatchObject({ value: 4.5, uncertainty: 0.2, limit: 4 });
  });
  it('touching 4.0 with its whole interval meets it, for 4.0 is included', () => {
    expect(label({ measurements: [titrated(4.5, { uncertainty: 0.5 })] }).word).toBe('meetsTheRule');
  });
  it('exactly at 4.0 straddles', () => {
    const verdict = label({ measurements: [titrated(4)] });
    expect(verdict).toMatchObject({ word: 'notShownSafeYet', worst: 'unknown_measure_first' });
    expect(verdict.vin01).toMatchObject({ reason: 'straddles' });
    expect(verdict.findings.map(({ ruleId }) => ruleId)).toContain('MEAS-01');
    expect(verdict.measureNext).toEqual({ quantity: 'acidity', why: 'straddles' });
  });
  it('below 4.0 by more than the error: do not label it so', () => {
    const verdict = label({ measurements: [titrated(3.5)] });
    expect(verdict).toMatchObject({ word: 'notShownSafeYet', worst: 'do_not' });
    expect(verdict.vin01).toMatchObject({ verdict: 'do_not', reason: 'wrong_side' });
  });
  it('missing is not known', () => {
    const verdict = label({});
    expect(verdict).toMatchObject({ word: 'notKnown', worst: 'unknown_measure_first' });
    expect(verdict.vin01).toMatchObject({ reason: 'missing' });
    expect(verdict.measureNext).toEqual({ quantity: 'acidity', why: 'missing' });
  });
  it('a titration of which nothing was written down is not known, and nor is what it was made from', () => {
    const untold = titrated(4.5, { titration: null });
    expect(label({ measurements: [untold] })).toMatchObject({
      word: 'notShownSafeYet',
      measureNext: { quantity: 'normality', why: 'method' },
      vin01: { verdict: 'unknown_measure_first', reason: 'method' },
    });
    expect(label({ rawMaterial: null, measurements: [titrated(4.5)] })).toMatchObject({
      word: 'notKnown',
      measureNext: { quantity: 'rawMaterial', why: 'missing' },
      vin01: { verdict: 'ok' },
    });
  });
  it('a pH never stands in for strength', () => {
    expect(label({ measurements: [other('pH', 2.6)] }).word).toBe('notKnown');
  });
  it('stale by a change or by age is not known', () => {
    const measurements = [titrated(6)];
    expect(label({ measurements, compositionEvents: [event('addJuice', NOW)] })).toMatchObject({
      word: 'notKnown',
      measureNext: { quantity: 'acidity', why: 'stale_event' },
    });
    const old = [titrated(6, { takenAtMs: NOW - 200 * DAY })];
    expect(label({ measurements: old })).toMatchObject({
      word: 'notKnown',
      measureNext: { why: 'stale_age' },
    });
  });
  it('without the acid it was counted as, it is not shown', () => {
    const verdict = label({ measurements: [titrated(6, { acid: null })] });
    expect(verdict).toMatchObject({ word: 'notShownSafeYet', worst: 'unknown_measure_first' });
    expect(verdict.vin01).toMatchObject({ reason: 'basis' });
  });
  it('converted from another acid before it is compared', () => {
    expect(label({ measurements: [titrated(4.5, { acid: 'tartaric' })] }).vin01?.verdict).toBe('do_not');
    const verdict = label({ measurements: [titrated(6, { acid: 'tartaric' })] });
    expect(verdict).toMatchObject({ word: 'meetsTheRule', worst: 'caution' });
  });
  it('calculated never clears it for a gift, and is “about” for the own shelf', () => {
    const measurements = [titrated(5, { provenance: 'calculated' })];
    expect(label({ measurements })).toMatchObject({
      word: 'notShownSafeYet',
      worst: 'unknown_measure_first',
    });
    expect(label({ measurements, labelAudience: null }).word).toBe('notShownSafeYet');
    expect(label({ measurements, labelAudience: 'own' }).vin01).toMatchObject({
      verdict: 'caution',
      reason: 'own_use_about',
    });
  });
  it('calculated can still forbid', () => {
    expect(label({ measurements: [titrated(3, { provenance: 'calculated' })] }).worst).toBe('do_not');
  });
  it('guessed is nothing', () => {
    expect(label({ measurements: [titrated(9, { provenance: 'guessed' })] }).word).toBe('notKnown');
  });
  it('a default error is shown beside a met rule', () => {
    const verdict = label({ measurements: [titrated(5, { uncertainty: null })] });
    expect(verdict).toMatchObject({ word: 'meetsTheRule', worst: 'caution' });
    expect(verdict.findings.find(({ ruleId }) => ruleId === 'MEAS-02')?.reason).toBe('default_uncertainty');
  });
  it('no country chosen is not known, however strong, and still forbids', () => {
    expect(label({ jurisdiction: null, measurements: [titrated(9)] })).toMatchObject({
      word: 'notKnown',
      measureNext: { quantity: 'jurisdiction', why: 'jurisdiction_unset' },
    });
    expect(label({ jurisdiction: null, measurements: [titrated(3)] }).worst).toBe('do_not');
  });
});

describe('[VIN-02] vinegar cut with water', () => {
  const watered = { addedWater: true, compositionEvents: [event('addWater', NOW - 2 * HOUR)] };
  it('measured after the water, above the limit', () => {
    expect(label({ ...watered, measurements: [titrated(4.5)] })).toMatchObject({
      word: 'meetsTheRule',
      vin02: { verdict: 'ok', reason: 'met' },
    });
  });
  it('at the limit straddles, below forbids', () => {
    expect(label({ ...watered, measurements: [titrated(4)] }).vin02?.reason).toBe('straddles');
    expect(label({ ...watered, measurements: [titrated(3)] }).vin02?.verdict).toBe('do_not');
  });
  it('measured only before the water is not known', () => {
    const measurements = [titrated(7, { takenAtMs: NOW - 3 * HOUR })];
    expect(label({ ...watered, measurements })).toMatchObject({
      word: 'notKnown',
      vin02: { verdict: 'unknown_measure_first', reason: 'stale_event' },
    });
  });
  it('for the own shelf a calculated strength is “about”', () => {
    const measurements = [titrated(5, { provenance: 'calculated' })];
    expect(label({ ...watered, measurements, labelAudience: 'own' }).vin02).toMatchObject({
      verdict: 'caution',
      reason: 'own_use_about',
    });
    expect(label({ ...watered, measurements, labelAudience: 'sale' }).vin02?.reason).toBe('calculated_only');
  });
  it('water in the book counts even if nobody ticked it', () => {
    const change = { addedWater: null, compositionEvents: [event('addWater', NOW - 2 * HOUR)] };
    expect(label({ ...change, measurements: [titrated(5)] }).vin02?.verdict).toBe('ok');
  });
  it('not knowing whether water went in is not known', () => {
    expect(label({ addedWater: null, measurements: [titrated(5)] })).toMatchObject({
      word: 'notKnown',
      vin02: { reason: 'missing' },
    });
  });
  it('says nothing where no water went in', () => {
    expect(label({ measurements: [titrated(5)] }).vin02).toBeUndefined();
  });
});

describe('[VIN-05] vinegar labelled elsewhere', () => {
  const place = (
    jurisdiction: SafetyFacts['jurisdiction'],
    value: number,
    alcoholicBase: 'wine' | 'other' | null,
  ) =>
    label({ jurisdiction, alcoholicBase, measurements: [titrated(value)] }).findings.find(
      ({ ruleId }) => ruleId === 'VIN-05',
    )?.verdict;
  it.each([
    ['ca', 4.5, 'ok'],
    ['ca', 4.1, 'unknown_measure_first'],
    ['ca', 3.8, 'do_not'],
    ['ca', 12.3, 'unknown_measure_first'],
    ['ca', 13, 'do_not'],
    ['de', 5.5, 'ok'],
    ['de', 5, 'unknown_measure_first'],
    ['de', 4.5, 'do_not'],
    ['fr', 5.5, 'ok'],
    ['fr', 5, 'unknown_measure_first'],
    ['eu', 5.5, 'ok'],
    ['eu', 4.7, 'do_not'],
    ['uk', 4.3, 'ok'],
    ['uk', 4, 'unknown_measure_first'],
    ['uk', 3, 'do_not'],
    ['anz', 4.3, 'ok'],
    ['anz', 4.2, 'unknown_measure_first'],
    ['anz', 3.8, 'do_not'],
  ] as const)('%s at %d: %s', (jurisdiction, value, verdict) =>
    expect(place(jurisdiction, value, 'other')).toBe(verdict),
  );
  it('a wine vinegar, or a base nobody recorded, needs 6 in France and the EU', () => {
    expect(place('fr', 5.5, 'wine')).toBe('do_not');
    expect(place('fr', 5.5, null)).toBe('do_not');
    expect(place('eu', 6.5, 'wine')).toBe('ok');
  });
  it('missing, stale and no country are not known', () => {
    expect(label({ jurisdiction: 'de' })).toMatchObject({ word: 'notKnown', worst: 'unknown_measure_first' });
    const stale = { measurements: [titrated(6)], compositionEvents: [event('blend', NOW)] };
    expect(label({ jurisdiction: 'de', ...stale }).word).toBe('notKnown');
    expect(label({ jurisdiction: null, measurements: [titrated(9)] }).word).toBe('notKnown');
  });
});
