import { BENCH } from '#core/reckonings/bench.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import type { ReckoningField } from '#core/reckonings/reckoning.ts';
import { readField } from '#renderer/bench/read-field.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const millilitres: ReckoningField = {
  ...{ name: 'baseMl', kind: 'number', unit: 'mL', low: 0, high: 500 },
  ...{ required: true, otherwise: null },
};
const acidity: ReckoningField = {
  ...{ name: 'acidity', kind: 'quantity', quantity: 'acidity', required: true },
  ...{ fromVessel: 'acidity', otherwise: null },
};
const read = (field: ReckoningField, text: string) => readField(field, text, '', METRIC_HOUSE);

describe('what a field of a reckoning holds', () => {
  it.each([
    ['17.1', 17.1],
    ['17,1', 17.1],
    [' 17.1 ml', 17.1],
    ['17.1 mL', 17.1],
    ['1 1/2', 1.5],
    ['0', 0],
  ])('reads %s as a number', (text, value) => {
    expect(read(millilitres, text)).toEqual({ type: 'value', value });
  });

  it('takes a comma for the mark that fits the range', () => {
    // 1,048 may be 1.048 or 1048, and only one of them is within 500 ml.
    expect(read(millilitres, '1,048')).toEqual({ type: 'value', value: 1.048 });
    expect(read({ ...millilitres, high: 5000 }, '1,048')).toMatchObject({ type: 'wrong' });
  });

  it.each(['', '  '])('is empty for %j', (text) => {
    expect(read(millilitres, text)).toEqual({ type: 'empty' });
    expect(read(acidity, text)).toEqual({ type: 'empty' });
  });

  it('names the unit that is meant, and the range', () => {
    const litres = read(millilitres, '2 L');
    expect(litres.type === 'wrong' && litres.sentence).toContain('mL');
    expect(read(millilitres, 'a few')).toMatchObject({
      sentence: '“a few” is not read as a number. Type one from 0 to 500 mL.',
    });
  });

  it('counts an acidity said as another acid as acetic', () => {
    // 60.05 g of acetic acid do what 150.09 / 2 g of tartaric acid do (IUPAC 2021 atomic weights).
    const held = read(acidity, '5 % as tartaric');
    expect(held.type === 'value' ? held.value : null).toBeCloseTo((5 * 60.052) / (150.086 / 2), 3);
    expect(read(acidity, '5 % as acetic')).toEqual({ type: 'value', value: 5 });
  });

  it('never throws, whatever is typed', () => {
    const fields = BENCH.flatMap((reckoning) => reckoning.fields);
    fc.assert(
      fc.property(fc.string(), fc.nat(), (text, at) => {
        const field = fields[at % fields.length];
        if (field !== undefined) readField(field, text, text, METRIC_HOUSE);
      }),
    );
  });
});
