import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bufferCapacity, PKA, solutionPh, titrationPh, type WeakAcid } from '#core/acid/ph.ts';
import { mustSucceed } from '#core/base/result.ts';

const weakAcid: fc.Arbitrary<WeakAcid> = fc.record({
  molesPerLitre: fc.double({ min: 1e-6, max: 1, noNaN: true }),
  pKa: fc.constantFrom(...Object.values(PKA)),
});
const solution = fc.record({
  acids: fc.array(weakAcid, { maxLength: 4 }),
  strongBaseMolesPerLitre: fc.double({ min: 0, max: 1, noNaN: true }),
});

describe('pH by the balance of charge', () => {
  it('is neutral for water', () => {
    expect(mustSucceed(solutionPh({ acids: [], strongBaseMolesPerLitre: 0 }))).toBeCloseTo(13.995 / 2, 9);
  });

  it('is −log of a strong acid, and pKw + log of a strong base', () => {
    expect(mustSucceed(solutionPh({ acids: [], strongBaseMolesPerLitre: -0.01 }))).toBeCloseTo(2, 9);
    expect(mustSucceed(solutionPh({ acids: [], strongBaseMolesPerLitre: 0.1 }))).toBeCloseTo(12.995, 9);
  });

  it('closes the balance it was solved from', () => {
    fc.assert(
      fc.property(solution, ({ acids, strongBaseMolesPerLitre }) => {
        const pH = mustSucceed(solutionPh({ acids, strongBaseMolesPerLitre }));
        const h = 10 ** -pH;
        let negative = 10 ** (pH - 13.995);
        for (const { molesPerLitre, pKa } of acids) {
          // α by products of dissociation constants over powers of h, another road than the code takes.
          let term = 1;
          const terms = [1];
          for (const value of pKa) {
            term *= 10 ** -value / h;
            terms.push(term);
          }
          const whole = terms.reduce((sum, t) => sum + t, 0);
          negative += molesPerLitre * terms.reduce((sum, t, n) => sum + (n * t) / whole, 0);
        }
        const positive = h + strongBaseMolesPerLitre;
        expect(Math.abs(positive - negative)).toBeLessThan(1e-9 * Math.max(positive, negative) + 1e-15);
      }),
    );
  });

  it('falls with acid and rises with base', () => {
    fc.assert(
      fc.property(solution, weakAcid, ({ acids, strongBaseMolesPerLitre }, more) => {
        const before = mustSucceed(solutionPh({ acids, strongBaseMolesPerLitre }));
        const sourer = mustSucceed(solutionPh({ acids: [...acids, more], strongBaseMolesPerLitre }));
        expect(sourer).toBeLessThanOrEqual(before + 1e-9);
        const base = strongBaseMolesPerLitre + 0.01;
        expect(mustSucceed(solutionPh({ acids, strongBaseMolesPerLitre: base }))).toBeGreaterThan(before);
      }),
    );
  });

  it('hardly moves with salt for acetic acid alone, and does in a lactic brine', () => {
    const acetic = { acids: [{ molesPerLitre: 0.8, pKa: PKA.acetic }], strongBaseMolesPerLitre: 0 };
    const plain = mustSucceed(solutionPh(acetic));
    expect(Math.abs(mustSucceed(solutionPh({ ...acetic, ionicStrength: 0.005 })) - plain)).toBeLessThan(
      0.001,
    );
    const brine = {
      acids: [{ molesPerLitre: 0.1, pKa: PKA.lactic }],
      strongBaseMolesPerLitre: 0.05,
    };
    const shift = mustSucceed(solutionPh({ ...brine, ionicStrength: 0.43 })) - mustSucceed(solutionPh(brine));
    expect(shift).toBeLessThan(-0.1);
    expect(shift).toBeGreaterThan(-0.3);
  });

  it('needs less than one part in a thousand of acetic acid left at pH 8.2, and six at 7.0', () => {
    const share = (pH: number) => 1 / (1 + 10 ** (PKA.acetic[0]! - pH));
    expect(share(8.2)).toBeGreaterThan(0.999);
    expect(share(7)).toBeCloseTo(0.994, 3);
  });

  it('rises all through a titration', () => {
    const acid = { molesPerLitre: 0.1, pKa: PKA.tartaric };
    let last = 0;
    for (let baseMl = 0; baseMl <= 60; baseMl += 0.5) {
      const pH = mustSucceed(titrationPh({ acid, acidMl: 25, baseMolesPerLitre: 0.1, baseMl }));
      expect(pH).toBeGreaterThan(last);
      last = pH;
    }
  });

  it('has the buffer capacity that its own slope shows', () => {
    const acids = [{ molesPerLitre: 0.2, pKa: 4.756 }];
    const at = (base: number) =>
      mustSucceed(
        solutionPh({ acids: [{ molesPerLitre: 0.2, pKa: [4.756] }], strongBaseMolesPerLitre: base }),
      );
    const slope = 0.002 / (at(0.101) - at(0.099));
    expect(mustSucceed(bufferCapacity({ pH: at(0.1), acids }))).toBeCloseTo(slope, 4);
  });

  it('is refused outside its range', () => {
    const acids = [{ molesPerLitre: 0.1, pKa: [4.7] }];
    for (const wrong of [
      solutionPh({ acids: [{ molesPerLitre: 6, pKa: [4] }], strongBaseMolesPerLitre: 0 }),
      solutionPh({ acids: [{ molesPerLitre: Number.NaN, pKa: [4] }], strongBaseMolesPerLitre: 0 }),
      solutionPh({ acids: [{ molesPerLitre: 0.1, pKa: [99] }], strongBaseMolesPerLitre: 0 }),
      solutionPh({ acids, strongBaseMolesPerLitre: 6 }),
      solutionPh({ acids, strongBaseMolesPerLitre: 0, ionicStrength: 0.6 }),
      titrationPh({ acid: acids[0]!, acidMl: 0, baseMolesPerLitre: 0.1, baseMl: 1 }),
      bufferCapacity({ pH: 15, acids: [] }),
    ]) {
      expect(wrong).toMatchObject({ ok: false, error: { type: 'OutOfRange' } });
    }
  });
});
