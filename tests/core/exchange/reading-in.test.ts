import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateOrderOf, decimalMarkOf } from '#core/exchange/detect.ts';
import { readMomentCell, readQuantityCell, type ReadingWay } from '#core/exchange/read-cell.ts';
import { columnsByHeading, READING_FIELDS } from '#core/exchange/reading-fields.ts';
import { readRow } from '#core/exchange/read-row.ts';
import { fixedOffset } from '#core/quantities/civil-time.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';

const NOW = Date.UTC(2026, 10, 25, 12);
const way: ReadingWay = {
  ...{ house: METRIC_HOUSE, localTime: fixedOffset(120), nowMs: NOW, decimalMark: null, dateOrder: null },
};
const value = (
  kind: Parameters<typeof readQuantityCell>[0],
  text: string,
  unit: string | null,
  over = {},
) => {
  const read = readQuantityCell(kind, text, unit, { ...way, ...over });
  return read.ok ? read.value.value : read.error.type;
};
const moment = (text: string, over = {}) => {
  const read = readMomentCell(text, { ...way, ...over });
  return read.ok ? new Date(read.value.atMs).toISOString() : read.error;
};

describe('the decimal mark', () => {
  it.each([
    [['1.048', '3.41'], '.', 'certain'],
    [['1,048', '3,41'], ',', 'certain'],
    [['1.234,5'], ',', 'certain'],
    [['1,234.5'], '.', 'certain'],
    [['1,234,567'], '.', 'certain'],
    [['0,996'], ',', 'certain'],
    [['1,048', '1.500'], null, 'unclear'],
    [['3.41', '3,41'], null, 'mixed'],
    [['12', '', 'dry'], null, 'none'],
    [["1'234.5 L"], '.', 'certain'],
  ])('of %j is %j, %s', (cells, mark, how) => {
    expect(decimalMarkOf(cells)).toEqual({ way: mark, how });
  });
});

describe('the order of dates', () => {
  it.each([
    [['25/11/2026'], 'dayFirst', 'certain'],
    [['11-25-2026'], 'monthFirst', 'certain'],
    [['03.04.2026', '25.04.2026'], 'dayFirst', 'certain'],
    [['03/04/2026'], null, 'unclear'],
    [['25/11/2026', '11/25/2026'], null, 'mixed'],
    [['04/04/2026', '2026-11-25', '25 Nov 2026'], null, 'none'],
  ])('of %j is %j, %s', (cells, order, how) => {
    expect(dateOrderOf(cells)).toEqual({ way: order, how });
  });
});

describe('a number in a cell', () => {
  it.each([
    ['gravity', '1,048', null, { decimalMark: ',' }, 1.048],
    ['gravity', '1048', null, {}, 1.048],
    ['volume', '1.500', 'L', { decimalMark: '.' }, 1_500_000],
    ['volume', '1.500', 'L', { decimalMark: ',' }, 1_500_000_000],
    ['volume', '1.500', 'L', {}, 'MarkUnsettled'],
    ['volume', '1500 ml', 'L', {}, 1_500_000],
    ['volume', '1500', null, {}, 'UnitMissing'],
    ['temperature', '-1,5', '°C', { decimalMark: ',' }, -1.5],
    ['acidity', '52', 'g/L', {}, 5.2],
    ['pH', '3.4.1', null, { decimalMark: '.' }, 'NotANumber'],
    ['pH', '34', null, {}, 'Implausible'],
    ['gravity', '12 °Bx', null, {}, 1.0483725],
  ] as const)('%s %j in %j with %j is %j', (kind, text, unit, over, wanted) => {
    const read = value(kind, text, unit, over);
    if (typeof wanted === 'number') expect(read).toBeCloseTo(wanted, 4);
    else expect(read).toBe(wanted);
  });

  it('is never read as another amount by a mark that is settled', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9_999_999 }),
        fc.integer({ min: 0, max: 3 }),
        (digits, decimals) => {
          const amount = digits / 10 ** decimals;
          if (amount > 10_000) return;
          const text = amount.toFixed(decimals);
          expect(value('volume', text, 'L', { decimalMark: '.' })).toBe(Math.round(amount * 1_000_000));
          expect(value('volume', text.replace('.', ','), 'L', { decimalMark: ',' })).toBe(
            Math.round(amount * 1_000_000),
          );
        },
      ),
    );
  });
});

describe('a moment in a cell', () => {
  it.each([
    ['2026-11-03T10:20:30.5Z', '2026-11-03T10:20:30.500Z'],
    ['2026-11-03T10:20+02:00', '2026-11-03T08:20:00.000Z'],
    ['2026-11-03 10:20', '2026-11-03T08:20:00.000Z'],
    ['2026-11-03 10:20:59', '2026-11-03T08:20:59.000Z'],
    ['2026/11/3', '2026-11-03T10:00:00.000Z'],
    ['11/3/2026 2:30 PM', 'DateOrderUnsettled'],
    ['11/25/2026 12:30 am', '2026-11-24T22:30:00.000Z'],
    ['3 Nov 2026', '2026-11-03T10:00:00.000Z'],
    ['2026-02-29', 'NoSuchDay'],
    ['2026-11-03T25:00Z', 'NoSuchTime'],
    ['today', 'NotAWhen'],
    ['2026 days ago', 'NotAWhen'],
    ['03/04/26', 'NotAWhen'],
    ['45000', 'NotAWhen'],
  ])('%j is %s', (text, wanted) => {
    expect(moment(text)).toBe(wanted);
  });

  it('with its order settled is read that way or not at all', () => {
    expect(moment('03/04/2026', { dateOrder: 'dayFirst' })).toBe('2026-04-03T10:00:00.000Z');
    expect(moment('03/04/2026', { dateOrder: 'monthFirst' })).toBe('2026-03-04T10:00:00.000Z');
    expect(moment('25/04/2026', { dateOrder: 'monthFirst' })).toBe('NoSuchDay');
  });
});

describe('headings', () => {
  it.each([
    ['Date', 'when', null],
    ['Time', 'time', null],
    ['pH', 'ph', null],
    ['Temp (°F)', 'temperature', '°F'],
    ['temperature_celsius', 'temperature', '°C'],
    ['temp C', 'temperature', '°C'],
    ['Specific gravity', 'gravity', 'SG'],
    ['Brix', 'gravity', '°Bx'],
    ['TA [g/L]', 'acidity', 'g/L'],
    ['acidity_grams_per_100_ml', 'acidity', 'g/100 mL'],
    ['volume_ul', 'volume', 'µL'],
    ['ABV', 'alcohol', '% vol'],
    ['free_sulfite_mg_per_l', 'freeSulfite', 'mg/L'],
    ['salt_percent', 'salt', '%'],
    ['Weather', null, null],
    ['', null, null],
    ['ph_uncertainty', 'detail', null],
  ])('%j is %j in %j', (heading, field, unit) => {
    expect(columnsByHeading([heading])).toEqual([{ field, unit }]);
  });

  it('give each field to one column, the surest', () => {
    const columns = columnsByHeading(['vessel_id', 'vessel_number', 'vessel_name', 'notes', 'taste']);
    expect(columns.map(({ field }) => field)).toEqual([null, 'vessel', null, null, 'taste']);
  });
});

describe('a row of anything', () => {
  it('never throws, and what it takes fits the book', () => {
    const column = fc.record({
      field: fc.option(fc.constantFrom(...READING_FIELDS)),
      unit: fc.constantFrom(null, 'L', '°F', 'x'),
    });
    const cell = fc.oneof(
      fc.string({ maxLength: 100 }),
      fc.constantFrom('1,048', '2026-11-03', '{"a":1}', '1e999', '=1', '-'.repeat(200), '\u0000', '💥'),
    );
    const settled = { acidityAs: null, gravityInstrument: null, source: 'x' } as const;
    fc.assert(
      fc.property(fc.array(column, { maxLength: 8 }), fc.array(cell, { maxLength: 10 }), (columns, cells) => {
        const headings = columns.map(() => 'titration');
        const row = readRow(1, cells, { ...way, columns, headings, settled, calibrationCelsius: 20 });
        expect(row.values !== null || row.problems.length > 0).toBe(true);
      }),
      { numRuns: 1500 },
    );
  });
});
