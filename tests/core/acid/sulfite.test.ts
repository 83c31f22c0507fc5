import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  freeSulfiteFor,
  metabisulfiteGrams,
  molecularSulfite,
  sulfiteAgainstVinegar,
} from '#core/acid/sulfite.ts';
import { mustSucceed } from '#core/base/result.ts';

const pH = fc.double({ min: 2, max: 5, noNaN: true });

describe('sulfite', () => {
  it('goes from molecular to free and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        fc.double({ min: 2, max: 4, noNaN: true }),
        (molecular, at) => {
          const free = mustSucceed(freeSulfiteFor({ molecularMgPerLitre: molecular, pH: at }));
          fc.pre(free <= 500);
          expect(mustSucceed(molecularSulfite({ freeMgPerLitre: free, pH: at }))).toBeCloseTo(molecular, 9);
        },
      ),
    );
  });
  it('is never more molecular than free, and less the higher the pH', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 500, noNaN: true }), pH, (freeMgPerLitre, at) => {
        const molecular = mustSucceed(molecularSulfite({ freeMgPerLitre, pH: at }));
        expect(molecular).toBeLessThanOrEqual(freeMgPerLitre);
        if (at <= 4.9 && freeMgPerLitre > 1) {
          expect(mustSucceed(molecularSulfite({ freeMgPerLitre, pH: at + 0.1 }))).toBeLessThan(molecular);
        }
      }),
    );
  });
  it('by the laboratory’s 1.77 is 9 % lower', () => {
    const given = { freeMgPerLitre: 30, pH: 3.4 };
    const ratio =
      mustSucceed(molecularSulfite({ ...given, pK1: 1.77 })) / mustSucceed(molecularSulfite(given));
    expect(ratio).toBeCloseTo(0.91, 2);
  });
  it('weighs more powder by the plan than by theory', () => {
    const { theory, plan } = mustSucceed(metabisulfiteGrams({ addMgPerLitre: 50, volumeLitres: 10 }));
    expect(theory).toBeCloseTo(0.868, 3);
    expect(plan).toBe(1);
  });
  it.each([
    [0, 3.4, 'none'],
    [2, 3.8, 'none'],
    [3, 3.4, 'mayHinder'],
    [20, 4.8, 'mayHinder'],
    [25, 3.4, 'stops'],
  ] as const)('%d mg/L free at pH %d against vinegar: %s', (freeMgPerLitre, at, conflict) =>
    expect(mustSucceed(sulfiteAgainstVinegar({ freeMgPerLitre, pH: at })).conflict).toBe(conflict),
  );
  it('is refused outside its range', () => {
    for (const wrong of [
      molecularSulfite({ freeMgPerLitre: -1, pH: 3 }),
      molecularSulfite({ freeMgPerLitre: 10, pH: 6 }),
      freeSulfiteFor({ molecularMgPerLitre: 6, pH: 3 }),
      metabisulfiteGrams({ addMgPerLitre: 600, volumeLitres: 1 }),
      sulfiteAgainstVinegar({ freeMgPerLitre: 10, pH: Number.NaN }),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});
