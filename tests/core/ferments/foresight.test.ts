import { describe, expect, it } from 'vitest';
import { foresee } from '#core/ferments/foresight.ts';
import { acidityAsAcetic, correctedGravity } from '#core/ferments/interpret-reading.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import type { ReadingRecord } from '#core/ledger/records.ts';
import { FERMENT_KINDS } from '#core/ledger/stage.ts';
import { NOTHING_READ } from '#core/ledger/act.ts';
import { DAY, idOf } from '../ledger/cellar-of.ts';

const reading = (day: number, values: Partial<ReadingRecord['values']>): ReadingRecord => ({
  ...{
    id: idOf('entry', day + 1),
    writtenBy: idOf('entry', day + 1),
    vesselId: idOf('vessel', 1),
    batchId: idOf('batch', 1),
  },
  ...{ atMs: day * DAY, values: { ...NOTHING_READ, ...values } },
});
const cider = { profile: FERMENTS.cider, yeastFromMs: null, motherFromMs: null };

describe('what a must may become', () => {
  it('apple juice of SG 1.048: about 6 % vol by plan, more in theory, and vinegar of that', () => {
    // SG 1.048 is 11.9 °Bx (ASBC cubic, published row SUG-PLASBC); 0.83–0.88 of 124.6 g/L over 16.83 and 15.43 g/L per 1 % vol.
    const seen = foresee({
      ...cider,
      readings: [reading(0, { gravitySg: 1.048, gravityInstrument: 'hydrometer' })],
    });
    expect(seen?.brix).toBeCloseTo(11.91, 1);
    expect(seen?.alcoholPlanPercent).toBeCloseTo((124.6 * 0.855) / 16.83, 1);
    expect(seen?.alcoholTheoryPercent).toBeCloseTo((124.6 * 0.855) / 15.43, 1);
    expect(seen?.acidityTheoryGramsPer100Ml).toBeCloseTo(1.0288 * ((124.6 * 0.855) / 15.43), 1);
    expect(seen?.alcoholNowPercent).toBeNull();
  });

  it('takes the last gravity before the yeast as the original, and the drop since as alcohol now', () => {
    const readings = [
      reading(0, { gravitySg: 1.05 }),
      reading(1, { gravitySg: 1.04 }),
      reading(9, { gravitySg: 1.01 }),
    ];
    const seen = foresee({ ...cider, readings, yeastFromMs: DAY });
    expect(seen?.originalGravitySg).toBe(1.04);
    // 30 points × 0.129: the worked example of the UK excise table, published row GRV-UKABV-1040-1010.
    expect(seen?.alcoholNowPercent).toBeCloseTo(3.87, 2);
  });

  it('says no alcohol of now once a mother is at work, whatever was read before or after', () => {
    const readings = [
      reading(0, { gravitySg: 1.04 }),
      reading(15, { gravitySg: 1.004 }),
      reading(30, { gravitySg: 1.002 }),
    ];
    const seen = foresee({
      ...cider,
      profile: FERMENTS.fruitVinegar,
      readings,
      yeastFromMs: DAY,
      motherFromMs: 20 * DAY,
    });
    expect(seen?.alcoholNowPercent).toBeNull();
  });

  it('is silent without a gravity, and for ferments that foresee no alcohol', () => {
    expect(foresee({ ...cider, readings: [reading(0, { ph: 3.4 })] })).toBeNull();
    const readings = [reading(0, { gravitySg: 1.03 })];
    expect(foresee({ ...cider, profile: FERMENTS.brinedVegetables, readings })).toBeNull();
  });
});

describe('reading a reading', () => {
  it('corrects a hydrometer for its sample, and nothing else', () => {
    // Published row HYD-SG-1.05-25: 1.050 read at 25 °C on a 20 °C hydrometer is 1.05131 ± 0.0001.
    const values = {
      ...NOTHING_READ,
      gravitySg: 1.05,
      temperatureCelsius: 25,
      gravityCalibrationCelsius: 20,
    };
    expect(correctedGravity({ ...values, gravityInstrument: 'hydrometer' })).toBeCloseTo(1.05131, 4);
    expect(correctedGravity({ ...values, gravityInstrument: 'laboratory' })).toBe(1.05);
    expect(
      correctedGravity({ ...values, gravityInstrument: 'hydrometer', temperatureCelsius: 90 }),
    ).toBeNull();
  });

  it('counts an acidity as acetic only when its acid is on record', () => {
    // 60.052 / 75.043: ratio of equivalent masses, published rows ACID-*.
    expect(acidityAsAcetic({ ...NOTHING_READ, acidityGramsPer100Ml: 1, acidityAs: 'tartaric' })).toBeCloseTo(
      0.8002,
      4,
    );
    expect(acidityAsAcetic({ ...NOTHING_READ, acidityGramsPer100Ml: 1, acidityAs: null })).toBeNull();
  });
});

describe('every kind of ferment', () => {
  it.each(FERMENT_KINDS)('%s has a path, rounds only for stages, and a use to ask about', (kind) => {
    const profile = FERMENTS[kind];
    expect(profile.kind).toBe(kind);
    expect(profile.path.length).toBeGreaterThan(0);
    expect(profile.uses.length).toBeGreaterThan(0);
    for (const rounds of Object.values(profile.rounds)) {
      for (const round of rounds) expect(round.firstAfterDays + round.graceDays).toBeGreaterThan(0);
    }
  });
});
