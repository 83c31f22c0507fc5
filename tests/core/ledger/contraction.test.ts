import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Act } from '#core/ledger/act.ts';
import { contractionOf, CONTRACTION_LEAST_PPM } from '#core/ledger/contraction.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import type { Liquid } from '#core/ledger/liquid.ts';
import { waterUg, type Masses } from '#core/ledger/masses.ts';
import { replay } from '#core/ledger/memory-cellar.ts';
import { densityFromPercentVol } from '#core/must/alcohol.ts';
import { batch, idOf, LITRE, pour, START, DAY, testCellar, vessel, volumesPosted } from './cellar-of.ts';

const v = (n: number): VesselId => idOf<VesselId>('vessel', n);

/** So much alcohol and water of a strength, weighed by OIML R 22. */
function spirit(volumeUl: number, percent: number): Masses {
  const density = densityFromPercentVol({ alcoholPercentVol: percent, temperatureCelsius: 20 });
  if (!density.ok) throw new Error('a strength between 0 and 100');
  const ethanol = Math.round(volumeUl * percent * 7.8924);
  return { ethanol, water: Math.max(0, Math.round(volumeUl * density.value) - ethanol) };
}

function liquid(volumeUl: number, massesUg: Masses): Liquid {
  return { volumeUl, massesUg, origins: {} };
}

const of = (ml: number, percent: number): Liquid => liquid(ml * 1000, spirit(ml * 1000, percent));

/** Begins a batch of so many litres of alcohol and water. */
function begin(n: number, inVessel: number, litres: number, percent: number): Act {
  return { ...batch(n, inVessel, litres), massesUg: spirit(litres * LITRE, percent) } as Act;
}

describe('liquids of differing strength', () => {
  // Rows MIX-VOL-100-50-0-50 and MIX-VOL-95-10-0-90 of the reference: OIML R 22 (1973), general formula.
  it('50 mL of pure alcohol and 50 mL of water fill 96.463 mL', () => {
    const { contractionUl } = contractionOf([of(50, 100), of(50, 0)]);
    expect(100_000 - contractionUl).toBeGreaterThan(96_463 * 0.9995);
    expect(100_000 - contractionUl).toBeLessThan(96_463 * 1.0005);
  });

  it('10 mL of 95 % vol and 90 mL of water fill 99.419 mL', () => {
    const { contractionUl } = contractionOf([of(10, 95), of(90, 0)]);
    expect((100_000 - contractionUl) / 1000).toBeCloseTo(99.419, 1);
  });

  // 27 CFR 30.66 Table 6, at 60 °F (row ALC-WATER-50); at 20 °C, as here, alcohol has swollen by 0.4 % more than water: 50 parts of alcohol and 53.73 of water make 100.
  it('50 parts of alcohol and 53.73 of water make 100, as the gauging tables have it', () => {
    const { contractionUl } = contractionOf([of(50, 100), of(53.73, 0)]);
    expect(Math.abs((103_730 - contractionUl) / 1000 - 100)).toBeLessThan(0.1);
  });

  it('of one strength, or weak ones, do not shrink, and nothing ever grows', () => {
    expect(contractionOf([of(700, 40), of(300, 40)]).contractionUl).toBe(0);
    expect(contractionOf([of(500, 14), of(500, 6)]).contractionUl).toBe(0);
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            ml: fc.integer({ min: 1, max: 100_000 }),
            percent: fc.integer({ min: 0, max: 100 }),
          }),
          { minLength: 1, maxLength: 5 },
        ),
        (parts) => {
          const liquids = parts.map(({ ml, percent }) => of(ml, percent));
          const sumUl = liquids.reduce((sum, { volumeUl }) => sum + volumeUl, 0);
          const { contractionUl, isAsAdded } = contractionOf(liquids);
          expect(Number.isSafeInteger(contractionUl) && contractionUl >= 0).toBe(true);
          expect(contractionUl === 0 || contractionUl * 1e6 >= sumUl * CONTRACTION_LEAST_PPM).toBe(true);
          // The strongest contraction of alcohol and water is 3.6 % (27 CFR 30.66, the row above).
          expect(contractionUl).toBeLessThan(0.038 * sumUl);
          expect(isAsAdded).toBe(false);
        },
      ),
    );
  });

  it('with a part that was never measured stay as added, and it is said', () => {
    const unknown = liquid(50_000, { unassayed: waterUg(50_000) });
    expect(contractionOf([of(50, 96), unknown])).toEqual({ contractionUl: 0, isAsAdded: true });
    // Of weak liquids nothing is to be said: they would not shrink whatever they are.
    expect(contractionOf([of(50, 12), unknown])).toEqual({ contractionUl: 0, isAsAdded: false });
  });

  it('with the alcohol measured and the rest not: the rest counts as water', () => {
    const { ethanol = 0, water = 0 } = spirit(50_000, 96);
    const bought = liquid(50_000, { ethanol, unassayed: water });
    expect(contractionOf([bought, of(50, 0)])).toEqual(contractionOf([of(50, 96), of(50, 0)]));
  });
});

describe('a vessel in which liquids join', () => {
  function begun() {
    const t = testCellar();
    t.given(vessel(1), vessel(2), vessel(3), begin(1, 1, 1, 100), begin(2, 2, 1, 0));
    return t;
  }

  it('holds what they fill together; the rest is posted to contraction, and the line keeps it', () => {
    const t = begun();
    t.given(pour(1, 2, 1));
    const { act, postings } = t.cellar.entries.at(-1) ?? {};
    const contractions = act?.kind === 'transfer' ? act.contractions : undefined;
    expect(contractions).toEqual([{ vesselId: v(2), contractionUl: expect.any(Number) as number }]);
    const shrunkUl = contractions?.[0]?.contractionUl ?? 0;
    expect(shrunkUl / 2_000_000).toBeCloseTo(0.03537, 4);
    expect(t.cellar.get('fill', v(2))?.volumeUl).toBe(2 * LITRE - shrunkUl);
    expect(postings).toContainEqual({ account: 'contraction', deltaUl: shrunkUl, massesUg: {} });
    // Every token of origin stays: where it came from does not shrink.
    expect(Object.values(t.cellar.get('fill', v(2))?.origins ?? {})).toEqual([LITRE, LITRE]);
  });

  it.each<[string, Act]>([
    ['a blend', { ...blendOf([1, 2], 3), newBatch: null } as Act],
    ['water added', { ...waterInto(1), massesUg: { water: waterUg(LITRE) } } as Act],
    [
      'a part of a split',
      {
        ...{ kind: 'split', fromVesselId: v(1), leesUl: 0 },
        parts: [{ toVesselId: v(2), volumeUl: LITRE, toStage: null, newBatch: null }],
      },
    ],
    [
      'a barrel refilled',
      {
        ...{ kind: 'drawAndRefill', vesselId: v(2), drawnUl: LITRE / 2, toVesselId: null, newBatch: null },
        ...{ toStage: null, fromVesselId: v(1), refillUl: LITRE / 2 },
      },
    ],
    [
      'a seed',
      {
        ...{ kind: 'seed', vesselId: v(2), cultureId: null, fromVesselId: v(1), volumeUl: LITRE },
        ...{ what: 'x', toStage: 'vinegar' },
      },
    ],
  ])('%s shrinks too', (_what, act) => {
    const t = begun();
    t.given(act);
    const shrunk = volumesPosted(t.cellar).find(({ account }) => account === 'contraction');
    expect((shrunk?.deltaUl ?? 0) / LITRE).toBeCloseTo(act.kind === 'drawAndRefill' ? 0.0354 : 0.0707, 3);
  });

  it('bottles emptied back shrink too', () => {
    const t = begun();
    const lotId = t.given({
      ...{ kind: 'bottle', vesselId: v(1), bottles: 2, bottleUl: LITRE / 2, lossUl: 0, note: '' },
    });
    t.given({
      ...{ kind: 'returnBottles', lotId, bottles: 2, toVesselId: v(2), lossUl: 0, toStage: null, note: '' },
    });
    expect(volumesPosted(t.cellar)).toContainEqual({
      account: 'contraction',
      deltaUl: expect.any(Number) as number,
    });
  });

  it('a line of an earlier day, which says nothing of it, is replayed as it was', () => {
    const t = begun();
    t.given(pour(1, 2, 1));
    const old = t.cellar.entries.map((entry) =>
      entry.act.kind === 'transfer' ? { ...entry, act: pour(1, 2, 1) } : entry,
    );
    expect(replay(old).get('fill', v(2))?.volumeUl).toBe(2 * LITRE);
    // And one whose figure a later program would reckon otherwise keeps the figure it has.
    const other = t.cellar.entries.map((entry) =>
      entry.act.kind === 'transfer'
        ? { ...entry, act: { ...entry.act, contractions: [{ vesselId: v(2), contractionUl: 7 }] } }
        : entry,
    );
    expect(replay(other).get('fill', v(2))?.volumeUl).toBe(2 * LITRE - 7);
  });

  it('undone it holds again what it held', () => {
    const t = begun();
    const entryId = t.given(pour(1, 2, 1));
    t.given({ kind: 'reverse', entryId, how: 'undo' });
    expect(t.cellar.get('fill', v(1))?.volumeUl).toBe(LITRE);
    expect(t.cellar.get('fill', v(2))?.volumeUl).toBe(LITRE);
    expect(volumesPosted(t.cellar)).toContainEqual({
      account: 'contraction',
      deltaUl: expect.any(Number) as number,
    });
  });

  it('told anew shrinks as it would have, and a later line of it too; the correction keeps both figures', () => {
    const wrong = begun();
    wrong.given(pour(1, 2, 0.5), { ...waterInto(2), massesUg: { water: waterUg(LITRE) } } as Act);
    wrong.given({
      ...{ kind: 'restate', reason: '' },
      corrections: [
        { entryId: idOf<EntryId>('entry', 6), happenedAtMs: START + 5 * DAY, act: pour(1, 2, 1) },
      ],
    } as Act);
    const right = begun();
    right.given(pour(1, 2, 1), { ...waterInto(2), massesUg: { water: waterUg(LITRE) } } as Act);
    expect(wrong.cellar.get('fill', v(2))?.volumeUl).toBe(right.cellar.get('fill', v(2))?.volumeUl);
    const { act } = wrong.cellar.entries.at(-1) ?? {};
    const told = act?.kind === 'restate' ? (act.contractions ?? []) : [];
    expect(told.map(({ entryId }) => entryId)).toEqual([6, 7].map((n) => idOf('entry', n)));
    expect(replay(wrong.cellar.entries).get('fill', v(2))).toEqual(wrong.cellar.get('fill', v(2)));
    const shrunkUl = (t: typeof right): number =>
      t.cellar.entries
        .flatMap(({ postings }) => postings)
        .reduce((sum, { account, deltaUl }) => (account === 'contraction' ? sum + deltaUl : sum), 0);
    expect(shrunkUl(wrong)).toBe(shrunkUl(right));
  });
});

function blendOf(from: readonly number[], to: number): object {
  const parts = from.map((n) => ({ fromVesselId: v(n), volumeUl: LITRE }));
  return { kind: 'blend', toVesselId: v(to), parts, toStage: null };
}

function waterInto(n: number): object {
  return {
    ...{ kind: 'addTo', vesselId: v(n), what: 'water', volumeUl: LITRE },
    ingredient: { name: 'water', amountTyped: '', massUg: null },
  };
}
