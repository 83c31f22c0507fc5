import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { parseChalk } from '#core/quantities/parse-chalk.ts';

function chalked(text: string): readonly [string, Readonly<Record<string, number>>] {
  const parsed = parseChalk(text, METRIC_HOUSE);
  if (!parsed.ok) throw new Error(`${text}: ${JSON.stringify(parsed.error)}`);
  const { vesselCode, readings } = parsed.value;
  return [vesselCode, Object.fromEntries(readings.map(({ kind, value }) => [kind, value]))];
}

describe('a chalked line', () => {
  test.each([
    ['B1 1.010 19C', 'B1', { gravity: 1.01, temperature: 19 }],
    ['A2 4.3 %', 'A2', { acidity: 4.3 }],
    ['a2 4,3%', 'A2', { acidity: 4.3 }],
    ['7 ph 3.4', '#7', { pH: 3.4 }],
    ['#12 1.002 SG, pH 3.3', '#12', { gravity: 1.002, pH: 3.3 }],
    ['B1 pH3.4', 'B1', { pH: 3.4 }],
    ['B1 998', 'B1', { gravity: 0.998 }],
    ['AB12 48 pts 21 °C', 'AB12', { gravity: 1.048, temperature: 21 }],
    ['C3 52 g/L', 'C3', { acidity: 5.2 }],
    ['C3 5.2 g/100 mL', 'C3', { acidity: 5.2 }],
    ['C3 TA 6.5 g/L as tartaric', 'C3', { acidity: 0.65 }],
    ['C3 6.2 % vol', 'C3', { alcohol: 6.2 }],
    ['C3 abv 6.2', 'C3', { alcohol: 6.2 }],
    ...[
      ...['6.4 % abv', '6.4% abv', '6.4 abv', '6.4abv', '6,4 % ABV', '6.4 % vol', '6.4%vol', '6.4 % vol.'],
      ...['6.4 vol%', '6.4vol%', '6.4 vol %', '6.4 vol-%', '6.4 % by volume', '6.4 % alcohol', 'alcohol 6.4'],
    ].map((typed) => [`C3 ${typed}`, 'C3', { alcohol: 6.4 }] as const),
    ['C3 6.4 % abv 19C', 'C3', { alcohol: 6.4, temperature: 19 }],
    ['C3 6.4 % abv 19 C', 'C3', { alcohol: 6.4, temperature: 19 }],
    ['C3 6.4 % abv pH 3.3', 'C3', { alcohol: 6.4, pH: 3.3 }],
    ['C3 6.4% abv 1.002', 'C3', { alcohol: 6.4, gravity: 1.002 }],
    ['C3 1.002 abv 6.4', 'C3', { alcohol: 6.4, gravity: 1.002 }],
    ['C3 5.1 % 6.4 % abv', 'C3', { acidity: 5.1, alcohol: 6.4 }],
    ['C3 5.1 %, abv 6.4', 'C3', { acidity: 5.1, alcohol: 6.4 }],
    ['C3 TA 5.1 % abv 6.4', 'C3', { acidity: 5.1, alcohol: 6.4 }],
    ['C3 so2 30', 'C3', { freeSulfite: 30 }],
    ['C3 free so2 30 mg/L', 'C3', { freeSulfite: 30 }],
    ['K4 salt 2.5 %', 'K4', { salt: 2.5 }],
    ['K4 1 1/2 L', 'K4', { volume: 1_500_000 }],
    ['K4 1½ L 70F', 'K4', { volume: 1_500_000, temperature: 190 / 9 }],
    ['K4 4.1 % acid', 'K4', { acidity: 4.1 }],
    ['B1 SG 1.010', 'B1', { gravity: 1.01 }],
  ] as const)('%s', (text, vessel, values) => {
    const [code, readings] = chalked(text);
    expect(code).toBe(vessel);
    expect(Object.keys(readings).sort()).toEqual(Object.keys(values).sort());
    for (const [kind, value] of Object.entries(values)) expect(readings[kind]).toBeCloseTo(value, 12);
  });

  test.each([
    'damson',
    'B1',
    '',
    '7',
    'A2 damson',
    'mother:"Old Bess"',
    '> split old bess',
    'stage:vinegar 3',
    'x'.repeat(9999),
  ])('%s is a search', (text) =>
    expect(parseChalk(text, METRIC_HOUSE)).toEqual({ ok: false, error: { type: 'NotAChalk' } }),
  );

  it('says which reading it did not understand', () => {
    expect(parseChalk('B1 1.48', METRIC_HOUSE)).toMatchObject({
      ok: false,
      error: { type: 'ReadingNotUnderstood', vesselCode: 'B1', text: '1.48', error: { type: 'Implausible' } },
    });
    expect(parseChalk('B1 12', METRIC_HOUSE)).toMatchObject({ error: { error: { type: 'Ambiguous' } } });
    expect(parseChalk('B1 3 firkins', METRIC_HOUSE)).toMatchObject({
      error: { type: 'ReadingNotUnderstood', error: null },
    });
  });

  test.each(['5.1 % abv 6.4', '5.1% abv 6.4 %', '5.1 % alcohol 6.4'])(
    'asks which of two numbers the alcohol is: %s',
    (typed) =>
      expect(parseChalk(`B1 ${typed}`, METRIC_HOUSE)).toMatchObject({
        error: { type: 'ReadingNotUnderstood', vesselCode: 'B1', error: null },
      }),
  );

  it('refuses the same quantity twice', () => {
    expect(parseChalk('B1 1.010 1.012', METRIC_HOUSE)).toMatchObject({
      error: { type: 'SameQuantityTwice', kind: 'gravity' },
    });
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.stringMatching(/^[A-C#]?[0-9]{1,2} [-0-9., %CFphgL/½a-z]{0,30}$/),
          fc.string({ unit: 'grapheme' }),
        ),
        (text) => {
          const parsed = parseChalk(text, METRIC_HOUSE);
          if (parsed.ok) expect(parsed.value.readings.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 3000 },
    );
  });
});
