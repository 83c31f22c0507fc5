import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvCell, csvLine, guardText, unguardText } from '#core/exchange/csv-text.ts';

/** A reader of our own for one line of RFC 4180, so that writing is not checked by what wrote it. */
function cellsOf(line: string): string[] {
  const body = line.endsWith('\r\n') ? line.slice(0, -2) : line;
  return [...`,${body}`.matchAll(/,(?:"((?:[^"]|"")*)"|([^",]*))/gu)].map(
    ([, quoted, bare]) => quoted?.replaceAll('""', '"') ?? bare ?? '',
  );
}

const text = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 30 }),
  fc
    .tuple(
      fc.constantFrom('', "'", "''", ' ', "' "),
      fc.constantFrom('=', '+', '-', '@', '\t', '\r', '＝'),
      fc.string(),
    )
    .map((parts) => parts.join('')),
);

describe('text in a table', () => {
  // OWASP, "CSV Injection", read as the list of signs a cell may not begin with.
  it.each(['=1', '+1', '-1', '@a', '\ta', '\ra', '\na', ' =1', "'=1", '＝1', '＋1', '－1', '＠a'])(
    '%j gets an apostrophe before it',
    (dangerous) => {
      expect(guardText(dangerous)).toBe(`'${dangerous}`);
    },
  );

  it.each(['', 'a=1', '1-2', "it's", "'quoted'", '3,4', ' plain'])('%j stays as it is', (harmless) => {
    expect(guardText(harmless)).toBe(harmless);
  });

  it('comes back as it was, whatever it was', () => {
    fc.assert(
      fc.property(text, (any) => {
        expect(unguardText(guardText(any))).toBe(any);
      }),
      { numRuns: 2000 },
    );
  });

  it('never begins with a sign a spreadsheet runs', () => {
    fc.assert(
      fc.property(text, (any) => {
        expect(guardText(any)).not.toMatch(/^\s*[=+\-@\t\r\n＝＋－＠]/u);
      }),
      { numRuns: 2000 },
    );
  });

  it('stands in one cell, with any quotes, separators and line ends in it', () => {
    fc.assert(
      fc.property(fc.array(text, { minLength: 1, maxLength: 6 }), (cells) => {
        expect(cellsOf(csvLine(cells)).map(unguardText)).toEqual(cells);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('a number in a table', () => {
  it('is never rounded and has a decimal point', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(Number(csvCell(value))).toBe(value === 0 ? 0 : value);
        expect(csvCell(value)).toMatch(/^-?\d+(\.\d+)?(e[+-]\d+)?$/u);
      }),
    );
  });

  it('that is none is a fault', () => {
    expect(() => csvCell(Number.NaN)).toThrow();
    expect(() => csvCell(Infinity)).toThrow();
  });
});

it('a line ends with CR LF, and nothing is an empty cell (RFC 4180, section 2)', () => {
  expect(csvLine(['a "b"', 1.5, null, true, ''])).toBe('"a ""b""",1.5,,true,\r\n');
});
