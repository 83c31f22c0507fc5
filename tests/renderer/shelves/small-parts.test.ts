import { describe, expect, it } from 'vitest';
import type { ReadingRow } from '#core/contract/shelves.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import { mainQuantity, pointsOf, scaleOf } from '#renderer/shelves/sparkline-shape.ts';
import { folded, nextNamed, TypeAhead } from '#renderer/shelves/type-ahead.ts';
import { readViewChoices, writeViewChoices } from '#renderer/shelves/view-choices.ts';
import { layOut } from '#renderer/shelves/shelf-layout.ts';
import { placeTags, tagWidth, vesselArea } from '#renderer/shelves/vessel-place.ts';
import { batchId, row, vesselId } from './rows-for-tests.ts';

describe('typing ahead', () => {
  it('makes one word of letters that follow each other, and begins anew after a pause', () => {
    const typing = new TypeAhead();
    expect(typing.isTyping(0)).toBe(false);
    expect(typing.add('d', 0)).toBe('d');
    expect(typing.isTyping(500)).toBe(true);
    expect(typing.add('A', 500)).toBe('da');
    expect(typing.add('m', 3000)).toBe('m');
  });

  it('finds the next name that begins so, round again, without case and accents', () => {
    const names = ['Apple', 'Äpfel', 'Damson wine', 'apricot'];
    const next = (typed: string, after: number) => nextNamed(names, (name) => name, typed, after);
    expect(next('a', 0)).toBe('Äpfel');
    expect(next('a', 3)).toBe('Apple');
    expect(next('dam', 0)).toBe('Damson wine');
    expect(next('ap', 0)).toBe('Apple');
    expect(next('x', 0)).toBeNull();
    expect(folded('Quêtsch')).toBe('quetsch');
  });
});

describe('the small curve', () => {
  const reading = (atMs: number, over: Partial<ReadingRow>): ReadingRow => ({
    ...{ entryId: vesselId(atMs) as unknown as EntryId, vesselId: vesselId(1), batchId: batchId(1), atMs },
    ...{ gravitySg: null, gravityCorrectedSg: null, gravityInstrument: null, temperatureCelsius: null },
    ...{ ph: null, phMethod: null, acidityGramsPer100Ml: null, acidityAs: null },
    ...{ acidityAsAceticGramsPer100Ml: null, acidityMethod: null, acidityUncertainty: null },
    ...{ gravityUncertainty: null, phUncertainty: null, alcoholUncertainty: null, detail: null },
    ...{ volumeUl: null, freeSulfiteMgPerL: null, alcoholPercentVolume: null, taste: '' },
    ...over,
  });
  const readings = [
    reading(3, { gravitySg: 1.02, gravityCorrectedSg: 1.021 }),
    reading(1, { gravitySg: 1.05 }),
    reading(2, { acidityAsAceticGramsPer100Ml: 4.1 }),
    reading(4, { acidityAsAceticGramsPer100Ml: 4.4 }),
    reading(5, { ph: 3.4 }),
  ];

  it('takes the corrected gravity where there is one, oldest first', () => {
    expect(pointsOf(readings, 'gravity')).toEqual([
      { atMs: 1, value: 1.05 },
      { atMs: 3, value: 1.021 },
    ]);
  });

  it('shows what the ticket shows, else what has the most readings, and nothing from one', () => {
    const headline = {
      kind: 'acidity',
      gramsPer100Ml: 4.4,
      as: 'acetic',
      atMs: 4,
      uncertainty: null,
    } as const;
    expect(mainQuantity(readings, headline)).toBe('acidity');
    expect(mainQuantity(readings, { kind: 'ph', ph: 3.4, atMs: 5, uncertainty: null })).toBe('gravity');
    expect(mainQuantity([reading(1, { ph: 3 })], null)).toBeNull();
  });

  it('has round marks around the values; acidity begins at nothing', () => {
    const values = (...list: number[]) => list.map((value, atMs) => ({ atMs, value }));
    expect(scaleOf(values(0.9, 4.1), 'acidity').ticks).toEqual([0, 2, 4, 6]);
    const gravity = scaleOf(values(1.05, 0.998), 'gravity');
    expect(gravity.low).toBeLessThanOrEqual(0.998);
    expect(gravity.high).toBeGreaterThanOrEqual(1.05);
    expect(gravity.ticks.length).toBeLessThanOrEqual(5);
    expect(scaleOf(values(3.4, 3.4), 'ph').ticks.length).toBeGreaterThanOrEqual(2);
  });
});

describe('choices of the view', () => {
  const store = (text: string | null) => ({ getItem: () => text });

  it('are kept and read back', () => {
    let kept = '';
    const choices = { grouping: 'due', density: 'close', zoom: 1.5, asTable: true } as const;
    writeViewChoices(choices, { setItem: (_, text) => (kept = text) });
    expect(readViewChoices(store(kept))).toEqual(choices);
  });

  it('begin afresh where nothing is kept or something else is', () => {
    const first = { grouping: 'place', density: null, zoom: 1, asTable: false };
    for (const text of [null, '', '{', '7', '"x"', '{"zoom":99,"density":"huge","grouping":4,"asTable":1}'])
      expect(readViewChoices(store(text))).toEqual(first);
    expect(readViewChoices(null)).toEqual(first);
  });

  it('are not missed where the page may keep nothing', () => {
    const full = {
      setItem: () => {
        throw new Error('full');
      },
    };
    expect(() => {
      writeViewChoices({ grouping: 'place', density: null, zoom: 1, asTable: false }, full);
    }).not.toThrow();
  });
});

describe('tags on a plank', () => {
  const day = 86_400_000;
  const today = { startMs: 100 * day, endMs: 101 * day };
  const late = { act: 'rack', earliestMs: 0, idealMs: 0, latestMs: 70 * day, why: 'rule' } as const;
  const many = (count: number, over: Parameters<typeof row>[1]) =>
    Array.from({ length: count }, (_, i) => row(i + 1, { due: late, ...over }));
  const laid = (slots: number, density: 'roomy' | 'close' | 'dots' = 'roomy') =>
    layOut({
      groups: [{ key: 'a', slots, tallest: [{ silhouette: 'demijohn', capacityUl: 10e6 }] }],
      ...{ width: 800, density, zoom: 1, textScale: 1 },
    });

  it.each(['demijohn', 'jar', 'bottle', 'cask'] as const)('never cover each other: %s', (silhouette) => {
    for (const closure of ['airlock', 'bung'] as const)
      for (const count of [3, 6, 8]) {
        const slots = many(count, { silhouette, closure, capacityUl: 5e6 });
        const tags = placeTags({ layout: laid(count), plank: 0, slots, today, textScale: 1 });
        for (const [i, tag] of tags.entries()) {
          expect(tag).not.toBeNull();
          const next = tags[i + 1];
          if (!tag || !next) continue;
          const isApart =
            next.left >= tag.left + tag.width - 0.01 ||
            next.top >= tag.top + tag.height ||
            next.top + next.height <= tag.top;
          expect(isApart).toBe(true);
          expect(tag.left + tag.width).toBeLessThanOrEqual(800);
          expect(tag.left).toBeGreaterThanOrEqual(0);
        }
      }
  });

  it('hang only where something is due soon, and on no dot', () => {
    const later = { ...late, idealMs: 150 * day, latestMs: 160 * day };
    const slots = [row(1, { due: later }), null, undefined, row(4, { due: late })];
    const tags = placeTags({ layout: laid(4), plank: 0, slots, today, textScale: 1 });
    expect(tags.map((tag) => tag?.tone ?? null)).toEqual([null, null, null, 'late']);
    const dots = placeTags({ layout: laid(4, 'dots'), plank: 0, slots, today, textScale: 1 });
    expect(dots.every((tag) => tag === null)).toBe(true);
  });

  it('are forms without words on close shelves', () => {
    const [tag] = placeTags({ layout: laid(4, 'close'), plank: 0, slots: many(1, {}), today, textScale: 1 });
    expect(tag?.words).toBe('');
    expect(tagWidth('', 1)).toBeLessThan(tagWidth('today', 1));
  });

  it('the ground of a vessel reaches over its tag and its ticket', () => {
    const layout = laid(4);
    const area = vesselArea(layout, 0, 1, 100);
    expect(area.top).toBeLessThan((layout.base[0] ?? 0) - 100);
    expect(area.top + area.height).toBeGreaterThan(layout.base[0] ?? 0);
  });
});
