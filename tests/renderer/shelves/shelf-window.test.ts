import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { recycleRows } from '#renderer/shelves/row-keys.ts';
import { layOut } from '#renderer/shelves/shelf-layout.ts';
import { CELLS_MAX, ShelfWindow } from '#renderer/shelves/shelf-window.ts';

describe('recycled rows', () => {
  it('keep the row of a plank that stays and give a free one to a plank that comes', () => {
    const first = recycleRows(new Map(), [3, 4, 5]);
    const second = recycleRows(first, [4, 5, 6]);
    expect(second.get(4)).toBe(first.get(4));
    expect(second.get(5)).toBe(first.get(5));
    expect(second.get(6)).toBe(first.get(3));
  });

  it('never give two planks one row, and never move one that stays', () => {
    const planks = fc.uniqueArray(fc.integer({ min: 0, max: 60 }), { maxLength: 20 });
    fc.assert(
      fc.property(fc.array(planks, { maxLength: 12 }), (steps) => {
        let rows = new Map<number, number>();
        for (const wanted of steps) {
          const next = recycleRows(rows, wanted);
          expect([...next.keys()]).toEqual(wanted);
          expect(new Set(next.values()).size).toBe(wanted.length);
          for (const plank of wanted) {
            const before = rows.get(plank);
            if (before !== undefined) expect(next.get(plank)).toBe(before);
          }
          rows = next;
        }
      }),
    );
  });
});

describe('what is in the page', () => {
  const jar = [{ silhouette: 'jar', capacityUl: 2e6 }] as const;
  const laid = (density: 'roomy' | 'close' | 'dots', width = 920) =>
    layOut({
      groups: Array.from({ length: 200 }, (_, i) => ({ key: String(i), slots: 50, tallest: jar })),
      ...{ width, density, zoom: 1, textScale: 1 },
    });

  it('is what is in sight and one plank on either side', () => {
    const layout = laid('roomy');
    const drawn = new ShelfWindow().choose({ layout, scrollTop: 20_000, height: 680, focusPlank: -1 });
    expect(layout.top[(drawn[0]?.plank ?? 0) + 1] ?? 0).toBeLessThan(20_000);
    expect(layout.top[drawn.at(-1)?.plank ?? 0] ?? 0).toBeGreaterThan(20_680);
    expect(drawn.length).toBeLessThan(10);
  });

  it('always holds the focused plank, however far away', () => {
    const layout = laid('close');
    const drawn = new ShelfWindow().choose({ layout, scrollTop: 60_000, height: 680, focusPlank: 2 });
    expect(drawn[0]).toMatchObject({ plank: 2, withCells: true });
  });

  it('keeps the row of the focused plank while the rest scrolls past', () => {
    const layout = laid('roomy');
    const page = new ShelfWindow();
    const rowOf = (scrollTop: number): number | undefined =>
      page.choose({ layout, scrollTop, height: 680, focusPlank: 5 }).find((r) => r.plank === 5)?.row;
    const first = rowOf(900);
    for (let scrollTop = 1000; scrollTop < 40_000; scrollTop += 700) expect(rowOf(scrollTop)).toBe(first);
  });

  it('is the same array while nothing changes', () => {
    const layout = laid('roomy');
    const page = new ShelfWindow();
    const first = page.choose({ layout, scrollTop: 5000, height: 680, focusPlank: 0 });
    expect(page.choose({ layout, scrollTop: 5002, height: 680, focusPlank: 0 })).toBe(first);
  });

  it('never has more than 400 cells, the focused plank among them', () => {
    for (const density of ['roomy', 'close', 'dots'] as const)
      for (const width of [400, 920, 3800, 7600]) {
        const layout = laid(density, width);
        for (const focusPlank of [0, 40, layout.plankCount - 1]) {
          const drawn = new ShelfWindow().choose({ layout, scrollTop: 3000, height: 2100, focusPlank });
          const cells = drawn.reduce((n, r) => n + (r.withCells ? (layout.slotCount[r.plank] ?? 0) : 0), 0);
          expect(cells).toBeLessThanOrEqual(Math.max(CELLS_MAX, layout.slotCount[focusPlank] ?? 0));
          expect(drawn.find((r) => r.plank === focusPlank)?.withCells).toBe(true);
        }
      }
  });

  it('has cells of dots only near the focus', () => {
    const layout = laid('dots');
    const drawn = new ShelfWindow().choose({ layout, scrollTop: 0, height: 680, focusPlank: 4 });
    const near = drawn.filter((r) => r.withCells).map((r) => r.plank);
    expect(near).toEqual([2, 3, 4, 5, 6]);
  });
});
