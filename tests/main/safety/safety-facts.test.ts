import { describe, expect, it } from 'vitest';
import { NOTHING_READ } from '#core/ledger/act.ts';
import type { BatchRecord, FillRecord, ReadingRecord, VesselRecord } from '#core/ledger/records.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import { safetyFacts, type BookFacts } from '#main/safety/safety-facts.ts';

const NOW = Date.UTC(2026, 10, 25, 12);
const DAY = 86_400_000;
const START = NOW - 10 * DAY;

/** What stands in a jar, as far as these rules look at it. */
function book(over: Partial<BookFacts> & { readonly ferment: BatchRecord['ferment'] }): BookFacts {
  const { ferment, ...rest } = over;
  return {
    vessel: { capacityUl: 5e6, closure: 'cloth', material: 'glass' } as VesselRecord,
    fill: { volumeUl: 4e6, stage: 'vinegar', composedBy: 'start', composedAtMs: START } as FillRecord,
    batch: { ferment } as BatchRecord,
    ...{ readings: [], told: {}, keeps: null, workingFromMs: START, motherFromMs: START },
    ...{ cutWithWater: false, added: new Set(), joined: { added: new Set(), mead: false } },
    ...{ rules: { jurisdiction: 'us' }, nowMs: NOW },
    ...rest,
  };
}
const pH = (value: number, atMs: number): ReadingRecord =>
  ({ atMs, values: { ...NOTHING_READ, ph: value, phMethod: 'meterToday' } }) as ReadingRecord;
const finding = (use: Parameters<typeof evaluate>[0], facts: BookFacts, ruleId: string) =>
  evaluate(use, safetyFacts(facts)).findings.find((each) => each.ruleId === ruleId);

describe('[KOM-03] the pH of the start', () => {
  const starter: ToldFacts['starter'] = { percent: 15, mature: true, startPh: null };
  const brew = (readings: readonly ReadingRecord[]) =>
    book({ ferment: 'kombucha', told: { starter }, readings });

  it('is the first pH read within a day of the start', () => {
    expect(safetyFacts(brew([pH(4.1, START + DAY / 2), pH(3.4, NOW - DAY)])).starter?.startPh).toEqual({
      ...{ value: 4.1, uncertainty: null, method: 'phMeterTwoBuffersToday' },
    });
    expect(finding('startKombucha', brew([pH(4.1, START)]), 'KOM-03')).toMatchObject({ verdict: 'ok' });
  });

  it.each([
    ['none was read', []],
    ['it was read before the start', [pH(6.5, START - DAY)]],
    ['it was read days later', [pH(3.4, START + 2 * DAY)]],
  ])('is asked for when %s', (_, readings) => {
    expect(finding('startKombucha', brew(readings), 'KOM-03')).toMatchObject({
      ...{ reason: 'missing', numbers: { find: 'starter.startPh' } },
    });
  });
});

describe('[INF-01] what was steeped', () => {
  const infusion: ToldFacts['infusion'] = {
    ...{ herbsSanitised: true, vinegarHeated: true, strained: true, garlicOrVegetableLeftIn: false },
    madeAtMs: NOW - DAY,
  };
  it('makes a vinegar an infused one, and nothing else does', () => {
    expect(safetyFacts(book({ ferment: 'fruitVinegar', told: { infusion } })).product).toBe('infusedVinegar');
    const none = { ...infusion, herbsSanitised: null, vinegarHeated: null, strained: null, madeAtMs: null };
    expect(safetyFacts(book({ ferment: 'fruitVinegar', told: { infusion: none } })).product).toBe('vinegar');
    const juice = { workingFromMs: null, motherFromMs: null, fill: { stage: 'waiting' } as FillRecord };
    expect(safetyFacts(book({ ferment: 'cider', told: { infusion }, ...juice })).product).toBe('juice');
  });

  it('is then asked of for a salad', () => {
    const facts = book({ ferment: 'fruitVinegar', told: { infusion } });
    expect(finding('dressSalad', facts, 'INF-01')).toMatchObject({ reason: 'missing' });
    expect(finding('dressSalad', facts, 'CAN-05')).toBeUndefined();
  });
});

describe('[CLN-01][CLN-04] how a vessel was cleaned', () => {
  const cleaning: ToldFacts['cleaning'] = {
    ...{ bleach: true, acidOrSulfite: true, rinsedBetween: false, sulfiteWithAcid: false },
    ...{ place: 'windowOpen', asthmaPresent: false, lastCleanerRinsed: true },
  };
  it('reaches the rules on cleaning as it was told', () => {
    const facts = book({ ferment: 'cider', told: { cleaning } });
    expect(finding('clean', facts, 'CLN-01')).toMatchObject({ verdict: 'do_not' });
    expect(finding('clean', facts, 'CLN-04')).toMatchObject({ verdict: 'ok' });
    expect(finding('clean', book({ ferment: 'cider' }), 'CLN-04')).toMatchObject({ reason: 'missing' });
  });
});

describe('[CID-03] heating', () => {
  const heating = (over: object): ToldFacts => ({
    heating: {
      ...{ reachedCelsius: null, simmered: null, minutes: null, pot: 'sound' as const },
      ...{ calledPasteurised: null, bottleGlass: null },
      ...over,
    },
  });
  it.each([
    [{}, null],
    [{ simmered: false }, null],
    [{ simmered: true }, true],
    [{ reachedCelsius: { value: 72, uncertainty: null, method: 'thermometer' } }, true],
  ])('%j: heated is %s', (over, heated) => {
    expect(safetyFacts(book({ ferment: 'cider', told: heating(over) })).heated).toBe(heated);
  });
});

describe('[PAS-01] what was called pasteurised', () => {
  const heating = (value: number, minutes: number | null): ToldFacts['heating'] => ({
    ...{ reachedCelsius: { value, uncertainty: 1, method: 'thermometer' }, simmered: null, minutes },
    ...{ pot: 'sound', calledPasteurised: true, bottleGlass: null },
  });
  it('counts as it only when the heat and the time show it', () => {
    const of = (told: ToldFacts['heating']) =>
      safetyFacts(book({ ferment: 'fruitVinegar', told: { heating: told } })).pasteurised;
    expect(of(heating(66, 30))).toBe(true);
    expect(of(heating(61, 10))).toBe(true);
    expect(of(heating(60, 30))).toBeNull();
    expect(of(heating(45, 30))).toBeNull();
    expect(of(heating(66, null))).toBeNull();
  });
});
