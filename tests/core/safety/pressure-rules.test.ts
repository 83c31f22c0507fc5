import { describe, expect, it } from 'vitest';
import type { BottleKind, Closing, RoomAir, Sealing } from '#core/safety/facts-of-uses.ts';
import type { CompositionEvent, Measurement, SafetyFacts } from '#core/safety/facts.ts';
import { CLEAN, event, gravity, HOUR, NOW, other, says, word } from './given.ts';

const sealing: Sealing = {
  bottle: 'sparkling',
  makerRatingVolumes: null,
  primingGramsPerLitre: 0,
  bubbling: false,
  warmedSinceFirstReading: false,
  riseCelsius: null,
  gushed: null,
  carbonated: null,
  headspaceAndSlow: null,
};
const cider = { product: 'cider', acetificationBegun: false, sealing } as const;
/** Readings as [SG, hours ago]. */
const read = (...readings: readonly (readonly [sg: number, hoursAgo: number])[]): readonly Measurement[] =>
  readings.map(([sg, hoursAgo]) => gravity(sg, { takenAtMs: NOW - hoursAgo * HOUR }));
const dry = read([1.0, 60], [1.0, 1]);

describe('[PRS-01] done fermenting', () => {
  const of = (measurements: readonly Measurement[], change: Partial<SafetyFacts> = {}) =>
    says('PRS-01', 'sealInBottle', { ...cider, measurements, ...change });
  it.each([
    [dry, 'ok met'],
    [read([1.001, 49], [1.0, 1]), 'ok met'],
    [read([1.001, 60], [1.001, 1]), 'ok met'],
    [read([1.002, 60], [1.002, 1]), 'caution condition'],
    [read([1.008, 60], [1.008, 1]), 'caution condition'],
    [read([1.002, 60], [1.0, 1]), 'do_not falling'],
    [read([1.006, 60], [1.004, 30], [1.002, 1]), 'do_not falling'],
    [read([1.0, 60], [1.002, 1]), 'unknown_measure_first readings_disagree'],
    [read([1.0, 1]), 'unknown_measure_first missing'],
    [read([1.0, 40], [1.0, 1]), 'unknown_measure_first missing'],
    [read([1.0, 130], [1.0, 73]), 'unknown_measure_first stale_age'],
    [[], 'unknown_measure_first missing'],
  ] as const)('%#: %s', (measurements, expected) => expect(of(measurements)).toBe(expected));
  it('bubbles, sugar or warmth forbid it, and not knowing of them asks', () => {
    expect(of(dry, { sealing: { ...sealing, bubbling: true } })).toBe('do_not category');
    expect(of(dry, { sealing: { ...sealing, warmedSinceFirstReading: true } })).toBe('do_not category');
    expect(of(dry, { compositionEvents: [event('addSugar', NOW)] })).toBe('do_not category');
    expect(of(dry, { sealing: { ...sealing, bubbling: null } })).toBe('unknown_measure_first missing');
    expect(of(dry, { sealing: null })).toBe('unknown_measure_first missing');
  });
  it('counts only readings since the last change, by a sound method', () => {
    expect(of(dry, { compositionEvents: [event('addJuice', NOW - 10 * HOUR)] })).toBe(
      'unknown_measure_first missing',
    );
    const [first] = read([1.0, 60]);
    const byEye = gravity(1.0, { method: 'refractometer' });
    expect(of([first!, byEye], { pitched: true })).toBe('unknown_measure_first method');
    const uncorrected = gravity(1.0, { takenAtMs: NOW - 60 * HOUR, temperatureCorrected: false });
    expect(of([uncorrected, gravity(1.0)])).toBe('unknown_measure_first missing');
    expect(of(dry, { acetificationBegun: true })).toBe('unknown_measure_first method');
  });
});

describe('[PRS-02] gas against the bottle', () => {
  const of = (
    bottle: BottleKind | null,
    measurements: readonly Measurement[],
    change: Partial<Sealing> = {},
  ) => says('PRS-02', 'sealInBottle', { ...cider, measurements, sealing: { ...sealing, bottle, ...change } });
  it.each([
    // Dry and still: 0.9 + 0.7 = 1.6 volumes.
    ['light', dry, {}, 'ok met'],
    // 8 g/L of priming: 3.68.
    ['heavyBeer', dry, { primingGramsPerLitre: 8 }, 'caution condition'],
    ['sparkling', dry, { primingGramsPerLitre: 8 }, 'ok met'],
    ['light', dry, { primingGramsPerLitre: 8 }, 'do_not wrong_side'],
    ['unrated', dry, { primingGramsPerLitre: 1 }, 'do_not wrong_side'],
    // 1.005 ± 0.001 not proven still: 10 points, 7.9 volumes.
    ['sparkling', read([1.005, 1]), {}, 'do_not wrong_side'],
    ['sparkling', [], {}, 'unknown_measure_first missing'],
    [null, dry, {}, 'unknown_measure_first missing'],
    ['makerRated', dry, {}, 'unknown_measure_first missing'],
    ['makerRated', dry, { makerRatingVolumes: 2.2 }, 'ok met'],
    ['makerRated', dry, { makerRatingVolumes: 2 }, 'caution condition'],
    ['makerRated', dry, { makerRatingVolumes: 1.5 }, 'do_not wrong_side'],
    ['sparkling', dry, { primingGramsPerLitre: null }, 'unknown_measure_first missing'],
  ] as const)('%s %#: %s', (bottle, measurements, change, expected) =>
    expect(of(bottle, measurements, change)).toBe(expected),
  );
  it('leaves a dry, still drink in an unrated bottle to PRS-03', () => {
    expect(of('unrated', dry)).toBeUndefined();
    expect(of('unrated', read([1.01, 1]))).toBe('do_not wrong_side');
  });
  it('stale is not known', () => {
    expect(of('sparkling', read([1.0, 130], [1.0, 80]))).toBe('unknown_measure_first stale_age');
  });
});

describe('[PRS-03] vessels that are not rated', () => {
  const of = (measurements: readonly Measurement[], change: Partial<Sealing> = {}) =>
    says('PRS-03', 'sealInBottle', {
      ...cider,
      measurements,
      sealing: { ...sealing, bottle: 'unrated', ...change },
    });
  it.each([
    [dry, {}, 'ok met'],
    [read([1.0, 1]), {}, 'caution condition'],
    [read([1.004, 1]), {}, 'do_not wrong_side'],
    [read([1.002, 1]), {}, 'unknown_measure_first missing'],
    [dry, { bubbling: true }, 'do_not category'],
    [[], {}, 'unknown_measure_first missing'],
  ] as const)('%#: %s', (measurements, change, expected) => expect(of(measurements, change)).toBe(expected));
  it('cannot clear where the bottle is not known, and is silent of a rated one', () => {
    expect(of(dry, { bottle: null })).toBe('unknown_measure_first missing');
    expect(of(dry, { bottle: 'sparkling' })).toBeUndefined();
  });
});

describe('[PRS-04] a ferment at work', () => {
  const closing: Closing = { closure: 'airlock', headspacePercent: 15 };
  const of = (change: Partial<Closing> | null) =>
    says('PRS-04', 'closeVessel', { closing: change && { ...closing, ...change } });
  it.each([
    [{}, 'ok met'],
    [{ closure: 'cloth' }, 'ok met'],
    [{ headspacePercent: 10 }, 'ok met'],
    [{ headspacePercent: 5 }, 'caution condition'],
    [{ closure: 'burpedByHand' }, 'caution condition'],
    [{ closure: 'gasTight' }, 'do_not category'],
    [{ closure: null }, 'unknown_measure_first missing'],
    [{ headspacePercent: null }, 'unknown_measure_first missing'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
});

describe('[PRS-05] bottles moved somewhere warmer', () => {
  const of = (sg: number | null, change: Partial<Sealing> = {}, compositionEvents: CompositionEvent[] = []) =>
    says('PRS-05', 'moveWarmer', {
      ...{ product: 'cider', acetificationBegun: false, compositionEvents },
      measurements: sg === null ? [] : read([sg, 24 * 60]),
      sealing: { ...sealing, bottle: 'unrated', riseCelsius: 8, gushed: false, ...change },
    });
  it('dry, sweet, gushing and not known', () => {
    expect(of(1.0)).toBe('caution condition');
    expect(of(1.008)).toBe('do_not category');
    expect(of(1.008, { bottle: 'sparkling' })).toBe('caution condition');
    expect(of(1.008, { riseCelsius: 3 })).toBe('caution condition');
    expect(of(1.0, { gushed: true })).toBe('do_not category');
    expect(of(null)).toBe('unknown_measure_first missing');
    expect(of(1.008, { riseCelsius: null })).toBe('unknown_measure_first missing');
    expect(of(1.0, { gushed: null })).toBe('unknown_measure_first missing');
  });
  it('a gravity from before priming says nothing of the bottle', () => {
    expect(of(1.0, {}, [event('prime', NOW - HOUR)])).toBe('unknown_measure_first missing');
  });
});

describe('[PRS-06] heating closed bottles', () => {
  const of = (carbonated: boolean | null, headspaceAndSlow: boolean | null = true) =>
    says('PRS-06', 'heatBottles', { sealing: { ...sealing, carbonated, headspaceAndSlow } });
  it('still, fizzy and not known', () => {
    expect(of(false)).toBe('ok met');
    expect(of(false, null)).toBe('caution condition');
    expect(of(true)).toBe('do_not category');
    expect(of(null)).toBe('unknown_measure_first missing');
  });
});

const air: RoomAir = {
  measuredAtKneeHeight: true,
  activeLitres: 100,
  pointsPerDay: 2,
  roomLitres: 30_000,
  closedDays: 1,
  symptoms: false,
};

describe('[CO2-01] cellar air, measured', () => {
  const gas = (value: number, minutesAgo = 2) =>
    other('carbonDioxide', value, {
      uncertainty: 300,
      method: 'roomCarbonDioxide',
      takenAtMs: NOW - minutesAgo * 60_000,
    });
  const of = (measurement: Measurement | null, change: Partial<RoomAir> = {}) =>
    says('CO2-01', 'enterCellar', {
      measurements: measurement ? [measurement] : [],
      roomAir: { ...air, ...change },
    });
  it.each([
    [4000, 'ok met'],
    [4700, 'caution condition'],
    [5000, 'caution condition'],
    [20_000, 'caution condition'],
    [29_700, 'do_not wrong_side'],
    [35_000, 'do_not wrong_side'],
  ] as const)('%d ppm: %s', (value, expected) => expect(of(gas(value))).toBe(expected));
  it('only at the knee, only just now, and missing is not known', () => {
    expect(of(gas(1000), { measuredAtKneeHeight: false })).toBe('unknown_measure_first method');
    expect(of(gas(1000), { measuredAtKneeHeight: null })).toBe('unknown_measure_first method');
    expect(of(gas(1000, 11))).toBe('unknown_measure_first stale_age');
    expect(of(null, { roomLitres: null })).toBe('unknown_measure_first missing');
    expect(of(null)).toBeUndefined();
  });
});

describe('[CO2-02] cellar air, predicted', () => {
  const of = (change: Partial<RoomAir> | null) =>
    says('CO2-02', 'enterCellar', { roomAir: change && { ...air, ...change } });
  it.each([
    // 100 L × 2 points × 0.67 / 30 000 L = 4 467 ppm a day.
    [{}, 'ok met'],
    [{ pointsPerDay: 3 }, 'caution condition'],
    [{ closedDays: 7 }, 'do_not wrong_side'],
    [{ pointsPerDay: 14 }, 'do_not wrong_side'],
    [{ closedDays: 0.1 }, 'ok met'],
    [{ roomLitres: null }, 'unknown_measure_first missing'],
    [{ closedDays: null }, 'unknown_measure_first missing'],
    [{ roomLitres: 0 }, 'unknown_measure_first missing'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
});

describe('[CO2-03] symptoms', () => {
  it('any at all means out', () => {
    expect(says('CO2-03', 'enterCellar', { roomAir: { ...air, symptoms: true } })).toBe('do_not category');
    expect(says('CO2-03', 'enterCellar', { roomAir: air })).toBe('ok met');
    expect(says('CO2-03', 'enterCellar')).toBe('unknown_measure_first missing');
  });
});

describe('a verdict for sealing and for entering', () => {
  const vessel = {
    material: 'glass',
    contactMinutes: null,
    glaze: null,
    damage: 'sound',
    foodGrade: null,
    scratched: null,
    heldChemicals: null,
    light: 'dark',
    heldVinegarBefore: false,
  } as const;
  it('seals a dry cider in sound bottles, and nothing that is not shown dry', () => {
    const ready = { ...cider, vessel, inspection: CLEAN, measurements: dry };
    expect(word('sealInBottle', ready)).toBe('meetsTheRule');
    expect(word('sealInBottle', { ...ready, sealing: { ...sealing, bottle: 'unrated' } })).toBe(
      'meetsTheRule',
    );
    expect(word('sealInBottle', { ...ready, measurements: read([1.01, 60], [1.0, 1]) })).toBe('doNotUse');
    expect(word('sealInBottle', { ...ready, measurements: read([1.0, 1]) })).toBe('notKnown');
    expect(word('sealInBottle', { ...ready, product: 'vinegar' })).toBe('notKnown');
    expect(word('sealInBottle', { ...ready, sealing: { ...sealing, bottle: null } })).toBe('notKnown');
  });
  it('lets nobody into a cellar that is not known to be aired', () => {
    expect(word('enterCellar', { roomAir: air })).toBe('meetsTheRule');
    expect(word('enterCellar')).toBe('notKnown');
    expect(word('enterCellar', { roomAir: { ...air, symptoms: true } })).toBe('doNotUse');
    expect(word('enterCellar', { roomAir: { ...air, closedDays: 30 } })).toBe('doNotUse');
  });
  it('is not cleared by age alone', () => {
    const aged = read([1.0, 24 * 365]);
    expect(word('sealInBottle', { ...cider, vessel, measurements: aged })).toBe('notKnown');
  });
});
