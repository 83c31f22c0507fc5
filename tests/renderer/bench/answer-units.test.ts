import { METRIC_HOUSE, type HouseUnits } from '#core/quantities/house-units.ts';
import type { ReckonedAnswer } from '#core/reckonings/reckoning.ts';
import { fieldText, houseUnit, unitsFor, writeAnswer } from '#renderer/bench/answer-units.ts';
import { describe, expect, it } from 'vitest';

const US_HOUSE: HouseUnits = { volume: 'us', temperature: 'F', gravity: 'Bx' };

function answered(change: Partial<ReckonedAnswer>): ReckonedAnswer {
  return { name: 'it', value: 1, uncertainty: null, unit: 'g/L', limit: null, range: null, ...change };
}
const text = (answer: ReckonedAnswer, unit: string): string =>
  (writeAnswer(answer, unit).text ?? '').replaceAll('\u00A0', ' ');

describe('an answer in the units of the household', () => {
  const water = answered({ unit: 'volume', value: 831_400, limit: 'lower' });

  it('is first shown in the unit that keeps three digits, and can be switched', () => {
    expect(houseUnit(water, METRIC_HOUSE)).toBe('ml');
    expect(houseUnit(water, US_HOUSE)).toBe('fl oz');
    expect(unitsFor(water)).toEqual(['L', 'ml', 'gal', 'qt', 'fl oz']);
    expect(houseUnit(answered({ unit: 'gravity', value: 1.05 }), US_HOUSE)).toBe('°Bx');
    expect(houseUnit(answered({ unit: 'g/L' }), US_HOUSE)).toBe('g/L');
  });

  it('is rounded away from the safe side in every unit', () => {
    expect(text(water, 'ml')).toBe('831 ml');
    expect(text(water, 'L')).toBe('0.831 L');
    // 831.4 ml are 28.11 US fl oz (29.5735 ml each, NIST SP 811).
    expect(text(water, 'fl oz')).toBe('28.1 fl oz');
    expect(text(answered({ unit: 'volume', value: 831_900, limit: 'lower' }), 'ml')).toBe('831 ml');
    expect(text(answered({ unit: 'mass', value: 30_010_000, limit: 'upper' }), 'g')).toBe('30.1 g');
  });

  it('carries its error into the unit, rounded up', () => {
    const after = answered({ unit: 'volume', value: 2_010_000, uncertainty: 55_000 });
    expect(text(after, 'L')).toBe('2.01 ± 0.06 L');
    expect(text(after, 'ml')).toBe('2010 ± 60 ml');
    expect(text(answered({ unit: 'ppm', value: 13_400, uncertainty: 6_470 }), 'ppm')).toBe(
      '13000 ± 7000 ppm',
    );
    expect(text(answered({ unit: 'ppm', value: 40, uncertainty: 1_470 }), 'ppm')).toBe('0 ± 1500 ppm');
    const warmth = answered({ unit: 'temperature', value: 20, uncertainty: 1 });
    // A degree Celsius is 1.8 °F.
    expect(text(warmth, '°F')).toBe('68.0 ± 1.8 °F');
    expect(text(answered({ unit: 'acidity', value: 5.15, uncertainty: 0.13 }), 'g/L')).toBe('51.5 ± 1.3 g/L');
    // 0.001 SG near 1.048 is close to a quarter of a degree Brix (ICUMSA).
    expect(text(answered({ unit: 'gravity', value: 1.048, uncertainty: 0.001 }), '°Bx')).toMatch(
      /^11\.9\d? ± 0\.(?:24|25|3) °Bx$/u,
    );
  });

  it('tells a range outward, and no single number in its place', () => {
    const juice = answered({ unit: 'volume', value: 72e6, range: { low: 60e6, high: 84e6 } });
    expect(writeAnswer(juice, 'L')).toEqual({ text: null, range: '60 to 84\u00A0L' });
    const narrow = answered({ unit: 'g/L', value: 100, range: { low: 95.46, high: 104.41 } });
    expect(writeAnswer(narrow, 'g/L').range).toBe('95 to 105\u00A0g/L');
    expect(
      writeAnswer(answered({ unit: 'bottles', value: 5, range: { low: 4, high: 6 } }), 'bottles').range,
    ).toBe('4 to 6\u00A0bottles');
  });

  it('has a text that a field reads back, never more than the answer', () => {
    expect(fieldText(water, 'ml')).toBe('831 ml');
    expect(fieldText(answered({ unit: 'mass', value: 1_234_567_890 }), 'kg')).toBe('1.23 kg');
  });

  it('tells a measure turned into another with six digits', () => {
    const gallon = answered({ unit: 'L', value: 3.785411784 });
    expect(writeAnswer(gallon, 'L', true).text).toBe('3.78541\u00A0L');
    expect(writeAnswer(answered({ unit: 'qt', value: 4 }), 'qt', true).text).toBe('4\u00A0qt');
  });

  it('says so where a number is none', () => {
    expect(text(answered({ value: Number.NaN }), 'g/L')).toContain('?');
  });

  it('offers °Brix only on its scale', () => {
    expect(unitsFor(answered({ unit: 'gravity', value: 0.998 }))).toEqual(['SG']);
    expect(unitsFor(answered({ unit: 'gravity', value: 1.05 }))).toEqual(['SG', '°Bx']);
  });
});
