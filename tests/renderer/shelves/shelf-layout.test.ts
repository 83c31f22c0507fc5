import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SILHOUETTES } from '#core/ledger/stage.ts';
import { sizePx } from '#renderer/marks/silhouettes.ts';
import {
  columnLeft,
  DENSITIES,
  densityFor,
  layOut,
  plankAt,
  plankOfSlot,
  planksBetween,
  SIDE_PAD,
  slotAt,
  totalHeight,
  type LaidGroup,
} from '#renderer/shelves/shelf-layout.ts';

const group = (key: string, slots: number, litres = 2): LaidGroup => ({
  key,
  slots,
  tallest: slots === 0 ? [] : [{ silhouette: 'jar', capacityUl: litres * 1e6 }],
});
const ask = (groups: readonly LaidGroup[], over: Partial<Parameters<typeof layOut>[0]> = {}) =>
  layOut({ groups, width: 920, density: 'roomy', zoom: 1, textScale: 1, ...over });

describe('shelf layout', () => {
  it('puts a shelf that fits on one plank and spreads its places over the width', () => {
    const layout = ask([group('a', 8)]);
    expect(layout.plankCount).toBe(1);
    expect(layout.slotWidth[0]).toBeCloseTo((920 - 2 * SIDE_PAD) / 8, 3);
  });

  it('lets a long shelf go on, on planks as equal as can be', () => {
    const layout = ask([group('a', 24)]);
    expect(layout.plankCount).toBe(3);
    expect([...layout.slotCount]).toEqual([8, 8, 8]);
    expect([...layout.firstSlot]).toEqual([0, 8, 16]);
  });

  it('makes a row as high as its tallest vessel with room for a tag', () => {
    const low = ask([group('a', 4, 1)]);
    const high = ask([group('a', 4, 23)]);
    const grown = sizePx('jar', 23e6).height - sizePx('jar', 1e6).height;
    expect(totalHeight(high) - totalHeight(low)).toBeCloseTo(grown, -0.5);
  });

  it('widens the slots where a vessel is wider than the least slot', () => {
    const layout = ask([{ key: 'a', slots: 40, tallest: [{ silhouette: 'cask', capacityUl: 60e6 }] }]);
    expect(layout.slotWidth[0]).toBeGreaterThan(sizePx('cask', 60e6).width);
  });

  it('draws an empty shelf too, and a cellar without any as nothing', () => {
    expect(ask([group('a', 0)]).plankCount).toBe(1);
    expect(ask([]).plankCount).toBe(0);
    expect(totalHeight(ask([]))).toBe(0);
    expect(planksBetween(ask([]), 0, 800)).toEqual({ first: 0, last: -1 });
  });

  it('packs dots closely and heads only the first of their rows', () => {
    const layout = ask([group('a', 100)], { density: 'dots' });
    expect(layout.slotWidth[0]).toBe(28);
    expect(layout.headHeight[0]).toBeGreaterThan(0);
    expect(layout.headHeight[1]).toBe(0);
  });

  it('shows about as many as the densities promise in 920 by 680 px', () => {
    const inSight = (density: (typeof DENSITIES)[number]): number => {
      const layout = ask([group('a', 5000)], { density });
      const { first, last } = planksBetween(layout, 0, 680, 0);
      return layout.slotCount.slice(first, last + 1).reduce((sum, count) => sum + count, 0);
    };
    expect(inSight('roomy')).toBeGreaterThanOrEqual(24);
    expect(inSight('close')).toBeGreaterThanOrEqual(70);
    expect(inSight('dots')).toBeGreaterThanOrEqual(700);
  });

  it('is opened roomy up to 200, then close, then as dots', () => {
    expect([200, 201, 1500, 1501].map(densityFor)).toEqual(['roomy', 'close', 'close', 'dots']);
  });

  it('lays out ten thousand vessels in well under a frame', () => {
    const groups = Array.from({ length: 200 }, (_, i) => group(`g${i}`, 50));
    ask(groups);
    const before = performance.now();
    for (let i = 0; i < 10; i++) ask(groups);
    expect((performance.now() - before) / 10).toBeLessThan(16);
  });
});

describe('finding on the layout', () => {
  const someLayout = fc
    .record({
      slots: fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 1, maxLength: 12 }),
      width: fc.integer({ min: 240, max: 2400 }),
      density: fc.constantFrom(...DENSITIES),
      zoom: fc.constantFrom(0.5, 1, 1.4, 2),
      silhouette: fc.constantFrom(...SILHOUETTES),
    })
    .map(({ slots, width, density, zoom, silhouette }) => ({
      slots,
      layout: layOut({
        ...{ width, density, zoom, textScale: 1 },
        groups: slots.map((count, i) => ({
          ...{ key: String(i), slots: count },
          tallest: count === 0 ? [] : [{ silhouette, capacityUl: 5e6 }],
        })),
      }),
    }));

  it('gives every slot one place, and finds it there again', () => {
    fc.assert(
      fc.property(someLayout, ({ slots, layout }) => {
        for (const [g, count] of slots.entries()) {
          for (let slot = 0; slot < count; slot++) {
            const plank = plankOfSlot(layout, g, slot);
            expect(plank).toBeGreaterThanOrEqual(0);
            const column = slot - (layout.firstSlot[plank] ?? 0);
            const x = columnLeft(layout, plank, column + 0.5);
            const y = (layout.top[plank] ?? 0) + (layout.base[plank] ?? 0) - 2;
            expect(slotAt(layout, x, y)).toEqual({ plank, column });
          }
          expect(plankOfSlot(layout, g, -1)).toBe(-1);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('finds the plank of a height as a walk from the top would', () => {
    fc.assert(
      fc.property(someLayout, fc.double({ min: 0, max: 1, noNaN: true }), ({ layout }, part) => {
        const y = part * (totalHeight(layout) - 1);
        let walked = 0;
        while (walked < layout.plankCount - 1 && (layout.top[walked + 1] ?? 0) <= y) walked++;
        expect(plankAt(layout, y)).toBe(walked);
      }),
    );
  });

  it('keeps rows in order and their slots inside the width', () => {
    fc.assert(
      fc.property(someLayout, ({ layout }) => {
        for (let plank = 0; plank < layout.plankCount; plank++) {
          expect(layout.top[plank + 1] ?? 0).toBeGreaterThan(layout.top[plank] ?? 0);
          const end = columnLeft(layout, plank, layout.slotCount[plank] ?? 0);
          if ((layout.slotCount[plank] ?? 0) > 1) expect(end).toBeLessThanOrEqual(layout.width + 0.5);
        }
      }),
    );
  });
});
