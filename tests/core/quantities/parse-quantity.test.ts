import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { METRIC_HOUSE, type HouseUnits } from '#core/quantities/house-units.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';

const US_HOUSE: HouseUnits = { volume: 'us', temperature: 'F', gravity: 'SG' };
const BRIX_HOUSE: HouseUnits = { volume: 'metric', temperature: 'C', gravity: 'Bx' };
const KINDS: readonly QuantityKind[] = [
  'gravity',
  'acidity',
  'pH',
  'volume',
  'temperature',
  'mass',
  'freeSulfite',
  'alcohol',
  'salt',
];

function valueOf(kind: QuantityKind, text: string, house = METRIC_HOUSE): number {
  const parsed = parseQuantity(kind, text, house);
  if (!parsed.ok) throw new Error(`${text}: ${JSON.stringify(parsed.error)}`);
  return parsed.value.value;
}

function errorOf(kind: QuantityKind, text: string, house = METRIC_HOUSE) {
  const parsed = parseQuantity(kind, text, house);
  if (parsed.ok) throw new Error(`${text} was read as ${JSON.stringify(parsed.value)}`);
  return parsed.error;
}

describe('a gravity', () => {
  test.each([
    ['1.048', 1.048],
    ['1,048', 1.048],
    ['1048', 1.048],
    ['1 048', 1.048],
    ['48 pts', 1.048],
    ['0.998', 0.998],
    ['998', 0.998],
    ['SG 1.048', 1.048],
    ['1.048 SG', 1.048],
    ['1048 sg', 1.048],
    ['1.000', 1],
    ['-2 pts', 0.998],
    ['\u22122 pts', 0.998],
    ['0 Bx', 1],
  ])('%s', (text, gravity) => expect(valueOf('gravity', text)).toBe(gravity));

  it('in °Bx or °P goes over the ICUMSA scale', () => {
    expect(valueOf('gravity', '12 Bx')).toBeCloseTo(1.04839, 4);
    expect(valueOf('gravity', '12 °P')).toBeCloseTo(1.04839, 4);
    expect(valueOf('gravity', '12,5 brix')).toBe(valueOf('gravity', '12.5°Bx'));
    expect(valueOf('gravity', '12', BRIX_HOUSE)).toBe(valueOf('gravity', '12 Bx'));
  });

  it('notes what was taken for granted', () => {
    const parsed = parseQuantity('gravity', '1,048', METRIC_HOUSE);
    expect(parsed.ok && parsed.value).toMatchObject({
      kind: 'gravity',
      asTyped: '1,048',
      unitTyped: null,
      unitAssumed: true,
      notes: ['commaReadAsDecimal'],
    });
    const brix = parseQuantity('gravity', '12 Bx', METRIC_HOUSE);
    expect(brix.ok && brix.value).toMatchObject({
      unitTyped: '°Bx',
      unitAssumed: false,
      notes: ['fromBrix'],
    });
  });

  it('asks when a bare number may be °Bx or points', () => {
    const error = errorOf('gravity', '12');
    expect(error).toMatchObject({ type: 'Ambiguous' });
    if (error.type === 'Ambiguous') expect(error.readings.map((r) => r.text)).toEqual(['12 °Bx', '12 pts']);
  });

  test.each([
    ['1.48', 1.48, '1.048'],
    ['10480', 10480, '1.048'],
    ['104.8', 104.8, '1.048'],
    ['0.096', 0.096, '0.996'],
    ['1.25', 1.25, '1.025'],
  ])('%s is asked about and %s offered', (text, value, offer) => {
    const error = errorOf('gravity', text);
    expect(error).toMatchObject({ type: 'Implausible', understoodValue: value, low: 0.98, high: 1.2 });
    if (error.type === 'Implausible') expect(error.suggestions.map((s) => s.text)).toContain(offer);
  });

  it('is plausible at the very edges of the range', () => {
    expect(valueOf('gravity', '0.980')).toBe(0.98);
    expect(valueOf('gravity', '1.200')).toBe(1.2);
    expect(errorOf('gravity', '1.2001').type).toBe('Implausible');
    expect(errorOf('gravity', '0.9799').type).toBe('Implausible');
  });

  it('carries a value that can be kept anyway, and none where the scale ends', () => {
    expect(errorOf('gravity', '125 Bx')).toMatchObject({ understoodValue: null, high: 50, unit: '°Bx' });
    const error = errorOf('gravity', '55 Bx');
    expect(error.type === 'Implausible' && error.understoodValue).toBeGreaterThan(1.2);
  });
});

describe('an acidity', () => {
  test.each([
    ['5.2 %', 5.2],
    ['5,2%', 5.2],
    ['52 g/L', 5.2],
    ['5.2', 5.2],
    ['5.2 g/100 ml', 5.2],
    ['50 grain', 5],
    ['0', 0],
  ])('%s', (text, value) => expect(valueOf('acidity', text)).toBe(value));

  it('keeps the acid that was named, and says when none was', () => {
    const named = parseQuantity('acidity', '6.5 g/L as tartaric', METRIC_HOUSE);
    expect(named.ok && named.value).toMatchObject({ value: 0.65, acid: 'tartaric' });
    const bare = parseQuantity('acidity', '5 %', METRIC_HOUSE);
    expect(bare.ok && bare.value).toMatchObject({ acid: null });
    expect(bare.ok && bare.value.notes).toContain('acidNotSaid');
  });

  it('offers g/L for a number ten times too large', () => {
    const error = errorOf('acidity', '52 %');
    expect(error).toMatchObject({ type: 'Implausible', understoodValue: 52 });
    if (error.type === 'Implausible')
      expect(error.suggestions[0]).toEqual({ text: '52 g/L', why: 'gramsPerLitre' });
  });

  it('refuses a percentage by mass, which needs a density', () => {
    expect(errorOf('acidity', '5 % w/w')).toMatchObject({ type: 'UnknownUnit', unit: '% w/w' });
  });
});

describe('a pH', () => {
  test.each([
    ['3.41', 3.41],
    ['3,41', 3.41],
    ['pH 3.4', 3.4],
    ['ph: 3.4', 3.4],
    ['3.4 pH', 3.4],
  ])('%s', (text, value) => expect(valueOf('pH', text)).toBe(value));

  it('asks about 34', () => {
    const error = errorOf('pH', '34');
    expect(error.type === 'Implausible' && error.suggestions[0]).toEqual({ text: '3.4', why: 'decimalSlip' });
  });
});

describe('a volume', () => {
  test.each([
    ['500 ml', 500_000],
    ['1.5 L', 1_500_000],
    ['1,5 l', 1_500_000],
    ['1½ L', 1_500_000],
    ['1 1/2 L', 1_500_000],
    ['3/4 L', 750_000],
    ['½ l', 500_000],
    ['1 gal', 3_785_412],
    ['1 1/2 gal', 5_678_118],
    ['2 qt', 1_892_706],
    ['12 fl oz', 354_882],
    ['3 cups', 709_765],
    ['1 imp gal', 4_546_090],
    ['1 gal 2 qt', 5_678_118],
    ['10 000 ml', 10_000_000],
    ['1\u202F500 ml', 1_500_000],
    ["1'500 ml", 1_500_000],
    ['1,048.5 ml', 1_048_500],
    ['1.048,5 ml', 1_048_500],
    ['0,125 L', 125_000],
    ['0.1 ml', 100],
    ['0.3 ul', 0],
    ['0.5 ul', 1],
    ['\u00A02\u2009L ', 2_000_000],
  ])('%s', (text, microlitres) => {
    const parsed = parseQuantity('volume', text, METRIC_HOUSE);
    expect(parsed.ok && parsed.value.volumeUl).toBe(microlitres);
  });

  it('asks what 1,048 ml means', () => {
    const error = errorOf('volume', '1,048 ml');
    if (error.type !== 'Ambiguous') throw new Error(error.type);
    expect(error.readings.map((r) => [r.text, r.understood.value])).toEqual([
      ['1.048 ml', 1048],
      ['1048 ml', 1_048_000],
    ]);
  });

  it('needs a unit and offers the ones of the house', () => {
    const metric = errorOf('volume', '5');
    expect(metric.type === 'UnitMissing' && metric.suggestions.map((s) => s.text)).toEqual(['5 L', '5 ml']);
    const us = errorOf('volume', '5', US_HOUSE);
    expect(us.type === 'UnitMissing' && us.suggestions.map((s) => s.text)).toEqual(['5 gal', '5 qt', '5 L']);
  });

  it('says that a gallon was taken as the US gallon', () => {
    const parsed = parseQuantity('volume', '1 gal', METRIC_HOUSE);
    expect(parsed.ok && parsed.value.notes).toEqual(['usGallonAssumed']);
  });

  it('refuses less than nothing and more than a cellar', () => {
    expect(errorOf('volume', '-1 L')).toMatchObject({ type: 'Implausible', understood: null });
    expect(errorOf('volume', '99999999999999999999 L')).toMatchObject({
      type: 'Implausible',
      understood: null,
    });
    expect(errorOf('volume', '20000 L')).toMatchObject({
      type: 'Implausible',
      understoodValue: 20_000_000_000,
    });
  });

  it('names the units it knows', () => {
    const error = errorOf('volume', '3 firkins');
    expect(error).toMatchObject({ type: 'UnknownUnit', unit: 'firkins' });
    if (error.type === 'UnknownUnit') expect(error.known).toContain('gal');
  });
});

describe('a temperature', () => {
  test.each([
    ['21', METRIC_HOUSE, 21],
    ['21C', METRIC_HOUSE, 21],
    ['21 °C', US_HOUSE, 21],
    ['70F', METRIC_HOUSE, 190 / 9],
    ['70', US_HOUSE, 190 / 9],
    ['-2', METRIC_HOUSE, -2],
    ['0', METRIC_HOUSE, 0],
    ['68 ℉', METRIC_HOUSE, 20],
  ])('%s', (text, house, celsius) => expect(valueOf('temperature', text, house)).toBeCloseTo(celsius, 12));

  it('asks about a slip between the two scales', () => {
    const hot = errorOf('temperature', '105');
    expect(hot.type === 'Implausible' && hot.suggestions[0]).toEqual({ text: '105 °F', why: 'fahrenheit' });
    const cold = errorOf('temperature', '19', US_HOUSE);
    expect(cold.type === 'Implausible' && cold.suggestions[0]).toEqual({ text: '19 °C', why: 'celsius' });
  });
});

describe('a mass, a sulfite, a strength and a salt', () => {
  test.each([
    ['mass', '2 kg', 2_000_000_000],
    ['mass', '1.5 lb', 680_388_555],
    ['mass', '5 lb 4 oz', 2_381_359_943],
    ['mass', '1 oz', 28_349_523],
    ['mass', '0.25 g', 250_000],
    ['freeSulfite', '30', 30],
    ['freeSulfite', '30 ppm', 30],
    ['freeSulfite', 'SO2 30 mg/L', 30],
    ['alcohol', '6.5 %', 6.5],
    ['alcohol', '6.5 % vol', 6.5],
    ['alcohol', '12 abv', 12],
    ['alcohol', '13 proof', 6.5],
    ['salt', '2.5 %', 2.5],
    ['salt', '25 g/kg', 2.5],
  ] as const)('%s %s', (kind, text, value) => expect(valueOf(kind, text)).toBe(value));

  it('keeps what the salt is a percentage of', () => {
    const total = parseQuantity('salt', '2.5 % of total', METRIC_HOUSE);
    expect(total.ok && total.value.basis).toBe('total');
    const water = parseQuantity('salt', '5% of the water', METRIC_HOUSE);
    expect(water.ok && water.value.basis).toBe('water');
    const bare = parseQuantity('salt', '3 %', METRIC_HOUSE);
    expect(bare.ok && bare.value.notes).toContain('saltBasisNotSaid');
  });
});

describe('text that is no quantity', () => {
  test.each(['', '   ', '\u00A0'])('nothing at all: %j', (text) =>
    expect(errorOf('pH', text).type).toBe('Empty'),
  );
  test.each(['abc', '.', ',', '-', '1.2.3', '1,2,3', '1/0', '1..2', '1,04,8', 'NaN', 'Infinity', 'ten'])(
    '%j',
    (text) => expect(errorOf('pH', text).type).toBe('NotANumber'),
  );
  it('is refused unread when very long', () => {
    expect(errorOf('volume', '9'.repeat(100_000))).toMatchObject({ type: 'TooLong', length: 100_000 });
  });
});

describe('properties', () => {
  const house = fc.record({
    volume: fc.constantFrom('metric' as const, 'us' as const),
    temperature: fc.constantFrom('C' as const, 'F' as const),
    gravity: fc.constantFrom('SG' as const, 'Bx' as const),
  });
  const text = fc.oneof(
    fc.string({ maxLength: 60 }),
    fc.string({ unit: 'grapheme', maxLength: 40 }),
    fc.stringMatching(/^[-+0-9., /'½°%a-zA-Z]{0,40}$/),
    fc.constantFrom('9'.repeat(100_000), ' '.repeat(100_000), '1 '.repeat(50_000), '1/'.repeat(39)),
  );

  it('never throws and never gives a number that is not finite', () => {
    fc.assert(
      fc.property(fc.constantFrom(...KINDS), text, house, (kind, written, units) => {
        const parsed = parseQuantity(kind, written, units);
        if (parsed.ok) {
          expect(Number.isFinite(parsed.value.value)).toBe(true);
          expect(parsed.value.asTyped).toBe(written);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('reads a whole number of microlitres back exactly', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10_000_000_000 }), (microlitres) => {
        const litres = `${Math.floor(microlitres / 1_000_000)}.${String(microlitres % 1_000_000).padStart(6, '0')} L`;
        expect(valueOf('volume', litres)).toBe(microlitres);
        expect(valueOf('volume', litres.replace('.', ',').replace(/^([1-9])/u, '$1'))).toBe(microlitres);
      }),
    );
  });

  it('reads every offered text without another question', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...KINDS),
        fc.double({ min: -2000, max: 20_000, noNaN: true }),
        fc.integer({ min: 0, max: 3 }),
        house,
        (kind, value, decimals, units) => {
          const parsed = parseQuantity(kind, value.toFixed(decimals), units);
          if (parsed.ok || !('suggestions' in parsed.error)) return;
          for (const offer of parsed.error.suggestions) {
            const again = parseQuantity(kind, offer.text, units);
            if (again.ok) continue;
            if (parsed.error.type === 'UnitMissing') expect(again.error.type).toBe('Implausible');
            else
              throw new Error(
                `${value.toFixed(decimals)} offered ${offer.text}: ${JSON.stringify(again.error)}`,
              );
          }
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('reads a chosen reading of an ambiguous text as exactly that', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999 }), fc.integer({ min: 0, max: 999 }), (whole, rest) => {
        const error = errorOf('volume', `${whole},${String(rest).padStart(3, '0')} ml`);
        if (error.type !== 'Ambiguous') throw new Error(error.type);
        for (const reading of error.readings)
          expect(valueOf('volume', reading.text)).toBe(reading.understood.value);
      }),
    );
  });
});
