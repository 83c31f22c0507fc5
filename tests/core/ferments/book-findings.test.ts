import { describe, expect, it } from 'vitest';
import { assayMust } from '#core/ferments/assay.ts';
import { bookFindings, type BookFacts, type BookFinding } from '#core/ferments/book-findings.ts';
import type { Foreseen } from '#core/ferments/foresight.ts';
import { NOTHING_READ, type Act, type ReadingValues } from '#core/ledger/act.ts';
import { addMasses, totalUg, unassayed, type Masses } from '#core/ledger/masses.ts';
import { acetify, ferment, overOxidise } from '#core/ledger/reactions.ts';
import type { ReadingRecord } from '#core/ledger/records.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { batch, idOf, testCellar, vessel } from '../ledger/cellar-of.ts';

const LITRE = 1_000_000;

function read(values: Partial<ReadingValues>, atMs = 1): ReadingRecord {
  return { id: `r${atMs}`, atMs, values: { ...NOTHING_READ, ...values } } as unknown as ReadingRecord;
}

function facts(massesUg: Masses, more: Partial<BookFacts> = {}): BookFacts {
  return {
    ...{ ferment: 'fruitVinegar', stage: 'vinegar', foreseen: null, readings: [] },
    liquid: { volumeUl: LITRE, massesUg, origins: {} },
    ...more,
  };
}

const foreseen = (percent: number): Foreseen =>
  ({ alcoholNowPercent: percent, alcoholNowUncertainty: 0.5 }) as Foreseen;

/** A litre of apple must at 1.048: 119.6 g extract, of it 0.855 sugar. */
const MUST: Masses =
  assayMust({
    ...{ measured: { ...NOTHING_READ, gravitySg: 1.048 }, volumeUl: LITRE, ferment: 'cider' },
  }) ?? {};

describe('a must by its gravity', () => {
  it('1.048 is 124.5 g/L dissolved at 20 °C, of which apple yeast can use 0.83 to 0.88 (USDA SR 09016 and range)', () => {
    const extract = totalUg(MUST) - (MUST.water ?? 0);
    expect(extract / 1e6).toBeCloseTo(124.5, 0);
    expect((MUST.sugar ?? 0) / extract).toBeCloseTo(0.855, 3);
    // 1.048 × 998.203 g/L.
    expect(totalUg(MUST) / 1e6).toBeCloseTo(1046.117, 2);
  });

  it('is null without a gravity, and below that of water', () => {
    const given = { volumeUl: LITRE, ferment: 'cider' as const };
    expect(assayMust({ ...given, measured: NOTHING_READ })).toBeNull();
    expect(assayMust({ ...given, measured: { ...NOTHING_READ, gravitySg: 0.998 } })).toBeNull();
  });
});

describe('readings against the book', () => {
  it('agreement within the error of the reading finds nothing', () => {
    const { vessel } = ferment(100_000_000, 910_000);
    const held = addMasses(MUST, vessel);
    const percent = (held.ethanol ?? 0) / 7.8924e6;
    const readings = [read({ gravitySg: 1.001 })];
    expect(bookFindings(facts(held, { readings, foreseen: foreseen(percent + 0.4) }))).toEqual([]);
  });

  it('alcohol that the book has not: so much sugar as gives it at the plan’s yield', () => {
    const [found] = bookFindings(
      facts(MUST, { stage: 'yeast', readings: [read({ gravitySg: 1.012 })], foreseen: foreseen(4.8) }),
    );
    expect(found).toMatchObject({ what: 'alcohol', bookValue: 0, readValue: 4.8, doubt: null });
    const [step] = found?.steps ?? [];
    if (step?.kind !== 'ferment') throw new Error('no fermentation');
    expect(step.yieldPpm).toBe(910_000);
    const made = ferment(step.sugarUg, step.yieldPpm).vessel.ethanol ?? 0;
    // 4.8 % vol × 7.8924 g/L (OIML R 22) = 37.88 g.
    expect(made / 1e6).toBeCloseTo(37.8835, 3);
  });

  it('more alcohol than the sugar allows is doubted', () => {
    const few = { water: 950_000_000, sugar: 40_000_000 };
    const readings = [read({ alcoholPercentVolume: 6 })];
    expect(bookFindings(facts(few, { readings }))[0]).toMatchObject({
      doubt: 'moreAlcoholThanSugar',
      steps: [{ kind: 'ferment', sugarUg: 40_000_000, yieldPpm: 1_000_000 }],
    });
  });

  it('a yield that no yeast reaches is doubted, though the sugar would be enough by the theory', () => {
    // 100 g/L sugar give 6.48 % vol by the theory (0.511435 / 7.8924 g/L) and at most 6.16 at 95 % of it.
    const must = { water: 900_000_000, sugar: 100_000_000 };
    const doubtOf = (alcoholPercentVolume: number) =>
      bookFindings(facts(must, { readings: [read({ alcoholPercentVolume })] }))[0]?.doubt;
    expect(doubtOf(6.1)).toBeNull();
    expect(doubtOf(6.4)).toBe('moreAlcoholThanSugar');
  });

  it('acid that the book has not: so much alcohol as gives it', () => {
    const held = { water: 940_000_000, ethanol: 47_000_000 };
    const readings = [read({ acidityGramsPer100Ml: 3, acidityAs: 'acetic' })];
    const [found] = bookFindings(facts(held, { readings }));
    const [step] = found?.steps ?? [];
    if (step?.kind !== 'acetify') throw new Error('no acetification');
    expect(step.acidSharePpm).toBe(850_000);
    expect((acetify(step.ethanolUg, 850_000).vessel.acetic ?? 0) / 1e6).toBeCloseTo(30, 4);
    expect(found?.doubt).toBeNull();
  });

  it('more acid than the alcohol allows is doubted, and what was never measured is not blamed', () => {
    const readings = [read({ acidityGramsPer100Ml: 5, acidityAs: 'acetic' })];
    const few = { water: 970_000_000, ethanol: 20_000_000 };
    expect(bookFindings(facts(few, { readings }))[0]).toMatchObject({ doubt: 'moreAcidThanAlcohol' });
    const [unknown] = bookFindings(facts(unassayed(LITRE), { readings }));
    expect(unknown).toMatchObject({ doubt: 'neverMeasured' });
    expect(unknown?.steps).toEqual([{ kind: 'assay', massesUg: { acetic: 50_000_000 }, whole: false }]);
  });

  it('acid that falls with the alcohol gone is burnt off; with alcohol left it is a question', () => {
    const readings = [read({ acidityGramsPer100Ml: 4, acidityAs: 'acetic' })];
    const dry = { water: 940_000_000, ethanol: 1_000_000, acetic: 50_000_000 };
    const [burnt] = bookFindings(facts(dry, { readings }));
    expect(burnt).toMatchObject({ steps: [{ kind: 'overOxidise', aceticUg: 10_000_000 }], doubt: null });
    expect(overOxidise(10_000_000).vessel.acetic).toBe(-10_000_000);
    const wet = { ...dry, ethanol: 30_000_000 };
    expect(bookFindings(facts(wet, { readings }))[0]).toMatchObject({ doubt: 'lessThanBefore' });
  });

  it('fruit acid counts as malic: 6 g/L malic is 0.54 g/100 mL as acetic (60.05/67.04)', () => {
    const readings = [read({ acidityGramsPer100Ml: 0.54, acidityAs: 'acetic' })];
    expect(bookFindings(facts({ water: 900_000_000, fixedAcid: 6_000_000 }, { readings }))).toEqual([]);
  });

  it('vegetables sour from sugar to lactic acid', () => {
    const readings = [read({ acidityGramsPer100Ml: 1.2, acidityAs: 'lactic' })];
    const [found] = bookFindings(
      facts({ water: 950_000_000, sugar: 30_000_000, salt: 22_000_000 }, { stage: 'lactic', readings }),
    );
    expect(found?.steps).toEqual([{ kind: 'sour', sugarUg: 12_000_000 }]);
  });

  it('a must measured only after it was filled is assayed by its gravity', () => {
    const readings = [read({ gravitySg: 1.048 })];
    const [found] = bookFindings(facts(unassayed(LITRE), { stage: 'waiting', ferment: 'cider', readings }));
    expect(found).toMatchObject({
      what: 'composition',
      steps: [{ kind: 'assay', massesUg: MUST, whole: true }],
    });
  });

  it('settled, the same readings find nothing more', () => {
    const readings = [read({ gravitySg: 1.012 }), read({ acidityGramsPer100Ml: 0.6, acidityAs: 'malic' }, 2)];
    const t = testCellar();
    t.given(vessel(1), { ...(batch(1, 1, 1) as object), massesUg: MUST } as Act);
    const vesselId = idOf<VesselId>('vessel', 1);
    const found = (): readonly BookFinding[] =>
      bookFindings({
        ...facts({}, { stage: 'yeast', readings, foreseen: foreseen(4.8) }),
        liquid: t.cellar.get('fill', vesselId) ?? { volumeUl: 0, massesUg: {}, origins: {} },
      });
    expect(found()).toHaveLength(2);
    const steps = found().flatMap((each) => each.steps);
    t.given({ kind: 'reconcile', vesselId, readingId: null, steps, note: '' });
    expect(found()).toEqual([]);
  });
});
