import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dixonOutlier, HOME_TITRATION_ERRORS, titrationResult } from '#core/acid/titration-result.ts';
import { mustSucceed } from '#core/base/result.ts';
import { propagate } from '#core/quantities/propagate.ts';
import { titratableAcidity } from '#core/acid/titration.ts';

const given = {
  baseMl: [8.3],
  blankMl: 0,
  normality: 0.5,
  sampleMl: 5,
  acid: 'acetic',
  errors: HOME_TITRATION_ERRORS,
} as const;

describe('the result of a titration', () => {
  it('from one reading carries 3–5 % for a home set', () => {
    const { acidity, uncertainty, outlier } = mustSucceed(titrationResult(given));
    expect(acidity).toBeCloseTo((8.3 * 0.5 * 60.052) / 50, 12);
    expect(uncertainty / acidity).toBeGreaterThan(0.03);
    expect(uncertainty / acidity).toBeLessThan(0.05);
    expect(outlier).toBeNull();
  });
  it('agrees with the general propagation of uncertainty', () => {
    const general = propagate(
      ({ baseMl, normality, sampleMl }) => titratableAcidity({ baseMl, normality, sampleMl, acid: 'acetic' }),
      {
        baseMl: { value: 8.3, uncertainty: 0.05 },
        normality: { value: 0.5, uncertainty: 0.015 },
        sampleMl: { value: 5, uncertainty: 0.1 },
      },
    );
    expect(mustSucceed(titrationResult(given)).uncertainty).toBeCloseTo(mustSucceed(general).uncertainty, 4);
  });
  it('takes off the blank', () => {
    const blank = mustSucceed(titrationResult({ ...given, blankMl: 0.1 }));
    expect(blank.acidity).toBeCloseTo((8.2 * 0.5 * 60.052) / 50, 12);
  });
  it('carries the drop of the blank as well as that of the reading', () => {
    // By hand: end point √2 · 0.05 mL → 0.0425; rest 4.924 · √(0.02² + 0.03²) = 0.1776; together 0.1826 g/100 mL.
    const blank = mustSucceed(titrationResult({ ...given, blankMl: 0.1 }));
    expect(blank.uncertainty).toBeCloseTo(0.1826, 4);
  });
  it('widens when the readings scatter, and says so', () => {
    const close = mustSucceed(titrationResult({ ...given, baseMl: [8.3, 8.32, 8.28] }));
    const loose = mustSucceed(titrationResult({ ...given, baseMl: [8.3, 8.9, 7.7] }));
    expect(close.scatters).toBe(false);
    expect(loose.scatters).toBe(true);
    expect(loose.uncertainty).toBeGreaterThan(close.uncertainty);
    expect(loose.acidity).toBeCloseTo(close.acidity, 9);
  });
  it('of nothing still has an error', () => {
    const nothing = mustSucceed(titrationResult({ ...given, baseMl: [0] }));
    expect(nothing.acidity).toBe(0);
    expect(nothing.uncertainty).toBeGreaterThan(0);
  });
  it('points out a reading that stands apart and keeps it', () => {
    const baseMl = [8.3, 8.31, 9.4, 8.29, 8.3];
    expect(mustSucceed(titrationResult({ ...given, baseMl })).outlier).toBe(2);
    expect(dixonOutlier([8.3, 8.31, 8.29, 8.3, 8.32])).toBeNull();
    expect(dixonOutlier([8.3, 9.3])).toBeNull();
    expect(dixonOutlier([8.3, 8.3, 8.3])).toBeNull();
    expect(dixonOutlier([7.1, 8.3, 8.31])).toBe(0);
  });
  it('is refused without readings, or with a blank larger than they are', () => {
    for (const wrong of [
      titrationResult({ ...given, baseMl: [] }),
      titrationResult({ ...given, blankMl: 9 }),
      titrationResult({ ...given, sampleMl: 0 }),
      titrationResult({ ...given, baseMl: [Number.NaN] }),
      titrationResult({ ...given, normality: 0 }),
      titrationResult({ ...given, baseMl: Array.from({ length: 11 }, () => 8) }),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
  it('is never without an error', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 50, noNaN: true }), { minLength: 1, maxLength: 10 }),
        (baseMl) => {
          const result = mustSucceed(titrationResult({ ...given, baseMl }));
          expect(result.uncertainty).toBeGreaterThan(0);
          expect(Number.isFinite(result.acidity) && Number.isFinite(result.uncertainty)).toBe(true);
        },
      ),
    );
  });
});
