import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SILHOUETTES } from '#core/ledger/stage.ts';
import { SHAPES } from '#renderer/marks/shapes.ts';
import {
  DRAWN_WIDTH_MIN_PX,
  halfWidthAt,
  levelAt,
  outlinePath,
  sizeMm,
  sizePx,
} from '#renderer/marks/silhouettes.ts';

/** Volume in µL up to a height (0 to 1), by summing thin discs: a second way to the same number. */
function discs(silhouette: (typeof SILHOUETTES)[number], capacityUl: number, height: number): number {
  const { width, height: tall } = sizeMm(silhouette, capacityUl);
  const slices = 20_000;
  let cubicMm = 0;
  for (let i = 0; i < slices; i++) {
    const t = ((i + 0.5) / slices) * height;
    const radius = (halfWidthAt(silhouette, t) * width) / 2;
    cubicMm += Math.PI * radius * radius * ((tall * height) / slices);
  }
  return cubicMm;
}

describe('vessel silhouettes', () => {
  it.each(SILHOUETTES)('a %s drawn at true scale holds its capacity up to the brim', (silhouette) => {
    for (const capacityUl of [500_000, 5_000_000, 23_000_000]) {
      // One cubic millimetre is one microlitre (SI Brochure, 9th edition: 1 L = 1 dm³).
      expect(discs(silhouette, capacityUl, SHAPES[silhouette].brim) / capacityUl).toBeCloseTo(1, 3);
    }
  });

  it.each(SILHOUETTES)('a %s eight times as large is twice as wide and twice as high', (silhouette) => {
    const small = sizeMm(silhouette, 2_000_000);
    const large = sizeMm(silhouette, 16_000_000);
    expect(large.width / small.width).toBeCloseTo(2, 9);
    expect(large.height / small.height).toBeCloseTo(2, 9);
  });

  it('stops growing above 60 L and shrinking below 22 px', () => {
    expect(sizeMm('cask', 500_000_000)).toEqual(sizeMm('cask', 60_000_000));
    expect(sizePx('bottle', 20_000).width).toBe(DRAWN_WIDTH_MIN_PX);
  });

  it.each(SILHOUETTES)('the level in a %s encloses the share of the volume it stands for', (silhouette) => {
    fc.assert(
      fc.property(fc.double({ min: 0.02, max: 1, noNaN: true }), (share) => {
        const held = discs(silhouette, 1_000_000, levelAt(silhouette, share));
        expect(held / 1_000_000).toBeCloseTo(share, 2);
      }),
      { numRuns: 30 },
    );
  });

  it('the level rises with the volume and stays between base and brim', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...SILHOUETTES),
        fc.double({ min: -1, max: 2, noNaN: true }),
        fc.double({ min: -1, max: 2, noNaN: true }),
        (silhouette, a, b) => {
          const [low, high] = a < b ? [a, b] : [b, a];
          expect(levelAt(silhouette, low)).toBeLessThanOrEqual(levelAt(silhouette, high) + 1e-12);
          expect(levelAt(silhouette, low)).toBeGreaterThanOrEqual(0);
          expect(levelAt(silhouette, high)).toBeLessThanOrEqual(SHAPES[silhouette].brim + 1e-12);
        },
      ),
    );
  });

  it('half a demijohn stands below the middle of what it can be filled to', () => {
    expect(levelAt('demijohn', 0.5)).toBeLessThan(SHAPES.demijohn.brim / 2);
    expect(levelAt('demijohn', 0)).toBe(0);
  });

  it('draws a closed outline that stands on its base and mirrors itself', () => {
    const path = outlinePath('demijohn', 100, 150);
    expect(path).toMatch(/^M-42 0L/);
    expect(path.endsWith('L42 0Z')).toBe(true);
  });
});
