import { describe, expect, test } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { readingColumns, readingsCsv, sortedReadings } from '#renderer/cellar-book/reading-rows.ts';
import { csvOf } from '#renderer/cellar-book/table-text.ts';
import { readingOn } from './sample-readings.ts';

describe('a table as CSV', () => {
  test('commas, quotes and line breaks are quoted; lines end in CRLF', () => {
    expect(csvOf([['a,b', 'say "hm"', 'two\nlines', 'plain']])).toBe(
      '"a,b","say ""hm""","two\nlines",plain\r\n',
    );
  });

  test.each(['=1+1', '+1+1', '-1+1', '@SUM(A1)', '\tcmd', '\rcmd', '  =1+1', '\uFF1D1', '-'])(
    '%j is not run as a formula',
    (text) => {
      expect(
        csvOf([[text]])
          .replace(/^"/u, '')
          .startsWith("'"),
      ).toBe(true);
    },
  );

  test('a plain number stays a number, below nothing too', () => {
    expect(csvOf([['-2.5', '1.048', '-0']])).toBe('-2.5,1.048,-0\r\n');
  });

  test('readings carry every value in base units, and a taste is tamed', () => {
    const csv = readingsCsv([
      readingOn(1, {
        gravitySg: 1.05,
        gravityCorrectedSg: 1.049_761_2,
        temperatureCelsius: 17,
        volumeUl: 1_700_000,
      }),
      readingOn(2, { acidityGramsPer100Ml: 4.1, acidityAs: 'acetic', taste: '=HYPERLINK("x")' }),
    ]);
    const [head, first, second, after] = csv.split('\r\n');
    expect(head?.split(',')).toHaveLength(16);
    expect(first).toBe('2026-09-02 12:00,1.05,1.04976,,17,,,,,,,,,,1700,');
    expect(second).toBe('2026-09-03 12:00,,,,,,,4.1,acetic,,,,,,,"\'=HYPERLINK(""x"")"');
    expect(after).toBe('');
  });
});

describe('the table of readings', () => {
  const readings = [
    readingOn(1, { gravitySg: 1.05, gravityCorrectedSg: 1.05, taste: 'sweet' }),
    readingOn(2, { ph: 3.4, phMethod: 'meterToday' }),
    readingOn(3, { gravitySg: 1.01, gravityCorrectedSg: null, alcoholPercentVolume: 6 }),
  ];
  const columns = readingColumns(readings, HOUSE_RULES_AT_FIRST);
  const column = (key: string) => {
    const found = columns.find((c) => c.key === key);
    if (found === undefined) throw new Error(`no column ${key}`);
    return found;
  };

  test('columns nobody measured are left away, the usual five always stand', () => {
    expect(columns.map(({ key }) => key)).toEqual([
      ...['at', 'gravity', 'acidity', 'ph', 'temperatureCelsius', 'alcoholPercentVolume', 'taste'],
    ]);
  });

  test('a gravity without correction says that it is as read', () => {
    expect(readings.map((reading) => column('gravity').text(reading))).toEqual([
      '1.050',
      null,
      '1.010 as read',
    ]);
  });

  test('sorting puts what is missing last either way', () => {
    const days = (descending: boolean): (string | null)[] =>
      sortedReadings(readings, column('gravity'), descending).map((reading) =>
        column('gravity').text(reading),
      );
    expect(days(false)).toEqual(['1.010 as read', '1.050', null]);
    expect(days(true)).toEqual(['1.050', '1.010 as read', null]);
  });
});
