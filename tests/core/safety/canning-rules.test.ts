import { describe, expect, it } from 'vitest';
import { evaluate } from '#core/safety/evaluate.ts';
import { acidity, event, facts, NOW } from './given.ts';

/** Bought vinegar in a tested recipe that is followed to the letter, so that the bottle decides. */
const bought = (boughtLabelPercent: number | null, change = {}) =>
  evaluate('can', facts({ origin: 'bought', recipe: 'testedExactly', boughtLabelPercent, ...change }));

describe('[CAN-01] home-made vinegar in canning', () => {
  it.each([3, 5, 6, 12])('is never cleared, here at %d %%', (strength) => {
    const verdict = evaluate('can', facts({ measurements: [acidity(strength)] }));
    expect(verdict).toMatchObject({ word: 'doNotUse', worst: 'do_not', measureNext: null });
    expect(verdict.findings[0]).toMatchObject({ ruleId: 'CAN-01', sayKey: 'CAN-01.category' });
  });
  it('an origin that nobody recorded is treated as home-made', () => {
    expect(evaluate('can', facts({ origin: null })).word).toBe('doNotUse');
  });
  it('a label does not make home-made vinegar bought', () => {
    expect(evaluate('can', facts({ boughtLabelPercent: 5 })).word).toBe('doNotUse');
  });
});

describe('[CAN-02] bought vinegar in canning', () => {
  it.each([
    [5, 'meetsTheRule', 'ok', 'met'],
    [5.5, 'meetsTheRule', 'ok', 'met'],
    [6, 'meetsTheRule', 'ok', 'met'],
    [6.1, 'meetsTheRule', 'caution', 'stronger_than_recipe'],
    [4.99, 'doNotUse', 'do_not', 'wrong_side'],
    [4, 'doNotUse', 'do_not', 'wrong_side'],
    [0, 'doNotUse', 'do_not', 'wrong_side'],
    [null, 'notKnown', 'unknown_measure_first', 'missing'],
    [Number.NaN, 'notShownSafeYet', 'unknown_measure_first', 'implausible'],
    [500, 'notShownSafeYet', 'unknown_measure_first', 'implausible'],
  ] as const)('label %s: %s', (percent, word, worst, reason) => {
    const verdict = bought(percent);
    expect(verdict).toMatchObject({ word, worst });
    expect(verdict.findings[0]).toMatchObject({ ruleId: 'CAN-02', reason });
  });
  it('diluted at home is never cleared', () => {
    expect(bought(5, { addedWater: true }).word).toBe('doNotUse');
    expect(bought(5, { compositionEvents: [event('addWater', NOW)] }).word).toBe('doNotUse');
  });
  it('in a recipe that nobody recorded it is not known, and in one of your own it is refused', () => {
    expect(bought(5, { recipe: null })).toMatchObject({
      word: 'notKnown',
      measureNext: { quantity: 'recipe', why: 'missing' },
    });
    expect(bought(5, { recipe: 'own' }).word).toBe('doNotUse');
  });
  it('not known whether it was diluted is not known', () => {
    expect(bought(5, { addedWater: null })).toMatchObject({
      word: 'notKnown',
      measureNext: { quantity: 'addedWater', why: 'missing' },
    });
  });
});

describe('[CAN-03] jars processed with weak vinegar', () => {
  const jars = (hoursSinceProcessing: number | null) => evaluate('weakJars', facts({ hoursSinceProcessing }));
  it.each([
    [0, 'caution', 'refrigerate_now'],
    [22.9, 'caution', 'refrigerate_now'],
    [23, 'do_not', 'deadline'],
    [24, 'do_not', 'deadline'],
    [48, 'do_not', 'deadline'],
    [null, 'do_not', 'missing'],
    [-1, 'do_not', 'implausible'],
    [Number.NaN, 'do_not', 'implausible'],
  ] as const)('%s h: %s', (hours, worst, reason) => {
    const verdict = jars(hours);
    expect(verdict.worst).toBe(worst);
    expect(verdict.findings[0]).toMatchObject({ ruleId: 'CAN-03', reason });
  });
});
