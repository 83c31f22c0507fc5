import { describe, expect, test } from 'vitest';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { acidShown, gapDays, readingPanels } from '#renderer/cellar-book/reading-panels.ts';
import { readingOn } from './sample-readings.ts';

describe('readings as panels over one time axis', () => {
  test('a measure never taken has no panel; the others are stacked in their order', () => {
    const panels = readingPanels(
      [
        readingOn(1, { temperatureCelsius: 19, gravitySg: 1.05, gravityCorrectedSg: 1.0498 }),
        readingOn(2, { ph: 3.41, phMethod: 'meterToday' }),
      ],
      METRIC_HOUSE,
    );
    expect(panels.map(({ measure }) => measure)).toEqual(['gravity', 'ph', 'temperature']);
  });

  test('gravity is drawn corrected to 20 °C; one without a correction is doubtful', () => {
    const [gravity] = readingPanels(
      [
        readingOn(1, { gravitySg: 1.05, gravityCorrectedSg: 1.0498 }),
        readingOn(2, { gravitySg: 1.04, gravityCorrectedSg: null }),
      ],
      METRIC_HOUSE,
    );
    expect(gravity?.points.map(({ y, doubtful }) => [y, doubtful])).toEqual([
      [1.0498, false],
      [1.04, true],
    ]);
  });

  test('house units: Brix and Fahrenheit', () => {
    const readings = [readingOn(1, { gravitySg: 1.04, gravityCorrectedSg: 1.04, temperatureCelsius: 20 })];
    const [gravity, temperature] = readingPanels(readings, { volume: 'us', temperature: 'F', gravity: 'Bx' });
    // 1.0400 is 9.99 °Bx in the tables of sucrose solutions (Plato and Brix agree there to 0.01).
    expect(gravity?.points[0]?.y).toBeCloseTo(9.99, 1);
    expect(temperature?.points[0]?.y).toBe(68);
  });

  test('a gravity below water has no Brix, so the whole panel is told as specific gravity', () => {
    const readings = [1.05, 0.996].map((sg, i) => readingOn(i, { gravitySg: sg, gravityCorrectedSg: sg }));
    const [gravity] = readingPanels(readings, { volume: 'us', temperature: 'F', gravity: 'Bx' });
    expect(gravity?.unit).toBe('SG at 20 °C');
    expect(gravity?.points.map(({ y }) => y)).toEqual([1.05, 0.996]);
  });

  test('one acid named throughout keeps its name; several are counted as acetic', () => {
    const lactic = readingOn(1, { acidityGramsPer100Ml: 1.2, acidityAs: 'lactic' });
    const tartaric = readingOn(2, { acidityGramsPer100Ml: 0.75043, acidityAs: 'tartaric' });
    expect(acidShown([lactic])).toBe('lactic');
    expect(acidShown([lactic, tartaric])).toBe('acetic');
    const [acidity] = readingPanels([lactic, tartaric], METRIC_HOUSE);
    // Factors of molar mass: lactic 90.078 and tartaric 150.087 / 2 against acetic 60.052 (IUPAC weights).
    expect(acidity?.points[0]?.y).toBeCloseTo(1.2 * (60.052 / 90.078), 4);
    expect(acidity?.points[1]?.y).toBeCloseTo(0.60052, 4);
    expect(acidity?.unit).toBe('g in 100 mL as acetic acid');
  });

  test('an acidity whose acid was not named is doubtful, and the panel says so when none is named', () => {
    const [acidity] = readingPanels([readingOn(1, { acidityGramsPer100Ml: 5.2 })], METRIC_HOUSE);
    expect(acidity?.unit).toBe('g in 100 mL, acid not named');
    expect(acidity?.points[0]?.doubtful).toBe(true);
  });

  test('points come in the order of time', () => {
    const [ph] = readingPanels([readingOn(5, { ph: 3.2 }), readingOn(1, { ph: 3.6 })], METRIC_HOUSE);
    expect(ph?.points.map(({ y }) => y)).toEqual([3.6, 3.2]);
  });
});

describe('where the line is broken', () => {
  test('at a gap of more than three times the median interval', () => {
    expect(gapDays([0, 2, 4, 6, 20])).toBe(6);
  });

  test('not at all when there are too few intervals to know a habit', () => {
    expect(gapDays([])).toBe(Infinity);
    expect(gapDays([0, 1, 90])).toBe(Infinity);
  });

  test('never between readings less than three days apart, however often one measures', () => {
    expect(gapDays([0, 0.1, 0.2, 0.3, 2])).toBe(3);
  });
});
