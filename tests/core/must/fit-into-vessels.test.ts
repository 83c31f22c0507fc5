import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitIntoVessels } from '#core/must/fit-into-vessels.ts';

const litre = 1_000_000;
const vessels = [
  { vesselId: 'demijohn', capacityUl: 10 * litre },
  { vesselId: 'jug', capacityUl: 4 * litre },
  { vesselId: 'jar', capacityUl: 2 * litre },
];

describe('juice into vessels', () => {
  it('takes the smallest that holds it all', () => {
    expect(fitIntoVessels({ volumeUl: 3 * litre, vessels }).fills).toEqual([
      { vesselId: 'jug', volumeUl: 3 * litre },
    ]);
  });
  it('fills the largest and puts the rest in the smallest that holds it', () => {
    const fit = fitIntoVessels({ volumeUl: 10 * litre, vessels });
    expect(fit.fills).toEqual([
      { vesselId: 'demijohn', volumeUl: 8.5 * litre },
      { vesselId: 'jar', volumeUl: 1.5 * litre },
    ]);
    expect(fit.shortUl).toBe(0);
    expect(fit.spareUl).toBe(0.2 * litre);
  });
  it('names what is short', () => {
    expect(fitIntoVessels({ volumeUl: 20 * litre, vessels }).shortUl).toBe(20 * litre - 13.6 * litre);
    expect(fitIntoVessels({ volumeUl: litre, vessels: [] })).toEqual({
      fills: [],
      shortUl: litre,
      spareUl: 0,
    });
    expect(fitIntoVessels({ volumeUl: 0, vessels }).fills).toEqual([]);
  });
  it('loses and invents nothing, uses no vessel twice and overfills none', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 300 * litre }),
        fc.array(fc.integer({ min: 0, max: 60 * litre }), { maxLength: 12 }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        (volumeUl, capacities, fillShare) => {
          const room = capacities.map((capacityUl, i) => ({ vesselId: String(i), capacityUl }));
          const { fills, shortUl } = fitIntoVessels({ volumeUl, vessels: room, fillShare });
          expect(fills.reduce((sum, fill) => sum + fill.volumeUl, shortUl)).toBe(volumeUl);
          expect(new Set(fills.map(({ vesselId }) => vesselId)).size).toBe(fills.length);
          for (const fill of fills) {
            expect(fill.volumeUl).toBeGreaterThan(0);
            expect(fill.volumeUl).toBeLessThanOrEqual((capacities[Number(fill.vesselId)] ?? 0) * fillShare);
          }
          if (shortUl > 0) {
            const usable = room.filter(({ capacityUl }) => Math.floor(capacityUl * fillShare) > 0);
            expect(fills).toHaveLength(usable.length);
          }
        },
      ),
    );
  });
});
