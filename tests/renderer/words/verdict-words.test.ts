import { describe, expect, test } from 'vitest';
import type { Finding, Verdict } from '#core/contract/verdict.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import type { Inspection } from '#core/safety/facts-of-uses.ts';
import type { AcidityMeasurement, SafetyFacts } from '#core/safety/facts.ts';
import type { Use } from '#core/safety/rule.ts';
import { ALL_SAY_KEYS } from '#core/safety/rule-book.ts';
import { SOURCES } from '#core/safety/sources.ts';
import { hasSentence, sayFinding } from '#renderer/words/verdict-sentences.ts';
import { sayMeasureNext } from '#renderer/words/verdict/measure-next.ts';
import { sayVerdict } from '#renderer/words/verdict-words.ts';

const NOW = Date.UTC(2026, 10, 25, 12);
const DAY = 86_400_000;
const ISO = { dates: 'iso' } as const;
/** A look that found nothing. */
const LOOKED_AT: Omit<Inspection, 'atMs'> = {
  ...{ growth: 'none', undecidedSinceMs: null, smell: 'clean', solventSinceMs: null },
  ...{ flies: 'none', cover: 'tightCloth', eels: 'absent', texture: 'sound' },
};
const plain = (text: string): string => text.replaceAll('\u00A0', ' ');

const NOTHING_KNOWN: SafetyFacts = {
  nowMs: NOW,
  measurements: [],
  compositionEvents: [],
  origin: null,
  openToAir: null,
  liveCulture: null,
  bottledFull: null,
  pasteurised: null,
  addedWater: null,
  boughtLabelPercent: null,
  hoursSinceProcessing: null,
  jurisdiction: null,
  labelAudience: null,
};
const TITRATION: AcidityMeasurement = {
  quantity: 'acidity',
  value: 5.2,
  uncertainty: 0.3,
  method: 'taSyringeKit',
  provenance: 'measured',
  takenAtMs: NOW - 6 * DAY,
  acid: 'acetic',
  basis: 'w/v',
  fixedAcidGramsPer100Ml: 0,
  titration: {
    ...{ normality: 0.1, baseCheckedAtMs: NOW - 30 * DAY, baseBoughtAtMs: null, baseNewlyOpened: null },
    ...{ endPoint: 'colour', darkSample: false, fizzySample: false, degassed: null },
  },
};
/** Made from juice, uncut, in the United States: the strength alone decides. */
const FROM_JUICE = { jurisdiction: 'us', addedWater: false, rawMaterial: 'juice' } as const;
const asked = (use: Use, known: Partial<SafetyFacts>): Verdict => {
  const { use: of, word, findings, measureNext } = evaluate(use, { ...NOTHING_KNOWN, ...known });
  return {
    use: of,
    word,
    measureNext,
    mayBeOverruled: false,
    keptApart: false,
    overruled: null,
    findings: findings.map((f) => ({ ...f, numbers: { ...f.numbers }, sourceIds: [...f.sourceIds] })),
  };
};

describe('what each rule says', () => {
  test.each(ALL_SAY_KEYS)('%s has a sentence', (sayKey) => {
    expect(hasSentence(sayKey)).toBe(true);
    const [ruleId = ''] = sayKey.split('.');
    const said = sayFinding({ sayKey, ruleId, numbers: {} }, ISO);
    expect(said).toMatch(/^[\p{Lu}\d].*\.$/u);
    expect(said).not.toMatch(/undefined|NaN|null/u);
  });

  test('no sentence calls anything safe', () => {
    for (const sayKey of ALL_SAY_KEYS) {
      const [ruleId = ''] = sayKey.split('.');
      expect(sayFinding({ sayKey, ruleId, numbers: {} }, ISO)).not.toMatch(/\bsafe\b/iu);
    }
  });

  test('a key without words is told as not known and not left out', () => {
    const said = sayFinding({ sayKey: 'ODD-99.met', ruleId: 'ODD-99', numbers: {} }, ISO);
    expect(said).toBe('Rule ODD-99 gave an answer that this version has no words for. Take it as not known.');
  });

  test('a value held against a lower limit is never rounded up', () => {
    const numbers = { value: 3.999, uncertainty: 0.301, limit: 4, takenAtMs: NOW };
    expect(plain(sayFinding({ sayKey: 'VIN-01.straddles', ruleId: 'VIN-01', numbers }, ISO))).toBe(
      'Acidity was 3.99 ± 0.31 % as acetic on 2026-11-25. With its error it may lie on either side of 4.0 %.',
    );
  });
});

describe('a verdict in four lines', () => {
  test('[VIN-01] without a reading it is not known, and asks for acidity', () => {
    const said = sayVerdict(asked('labelAsVinegar', FROM_JUICE));
    expect(said.word).toBe('Not known');
    expect(said.use).toBe('To be called vinegar');
    expect(said.why.map(plain)).toEqual([
      'No acidity is on record, so it is not shown to reach 4.0 % acetic acid.',
      'No acidity is on record, so it is not known whether this vinegar is strong enough to burn.',
    ]);
    expect(said.measureNext).toBe('Measure acidity by titration, noting the acid and the method.');
    expect(said.sources.map(({ id }) => id)).toEqual(['S1', 'S2', 'S3', 'S7', 'CAB19', 'COMMON']);
  });

  test('[VIN-01] met names the rule, the number with its error and the date', () => {
    const known = { ...FROM_JUICE, measurements: [TITRATION] };
    const said = sayVerdict(asked('labelAsVinegar', known));
    expect(said.word).toBe('Meets the rule');
    expect(plain(said.why[0] ?? '')).toBe(
      'Rule VIN-01: acidity was 5.20 ± 0.30 % as acetic on 2026-11-19, not under 4.0 %.',
    );
    expect(said.measureNext).toBe('Nothing now. Measure again after anything is put in.');
  });

  test('[MEAS-03] water after the reading is told with its date', () => {
    const known = {
      ...FROM_JUICE,
      ...{ addedWater: true, measurements: [TITRATION] },
      compositionEvents: [{ atMs: NOW - DAY, kind: 'addWater' } as const],
    };
    const said = sayVerdict(asked('labelAsVinegar', known));
    expect(said.word).toBe('Not known');
    expect(said.why).toContain(
      'On 2026-11-24 water went in, after the acidity was measured, so that no longer tells what is in the vessel.',
    );
    expect(said.measureNext).toContain('The last one was taken before something was put in.');
  });

  test('[CAN-01] home-made is refused for canning whatever it measures, and no measurement changes it', () => {
    const said = sayVerdict(asked('can', { origin: 'home_made', measurements: [TITRATION] }));
    expect(said.word).toBe('Do not use');
    expect(plain(said.why[0] ?? '')).toContain('nothing is canned with it and no shelf pickle put up in it');
    expect(said.measureNext).toBe('No measurement changes this.');
  });

  test('a use that no rule covers says so', () => {
    // Oil with herbs in it is eaten, dressed with and kept by rules of its own; to drink it there is none.
    const looked = { ...LOOKED_AT, atMs: NOW - DAY };
    const said = sayVerdict(asked('drink', { product: 'infusedOil', inspection: looked }));
    expect(said.word).toBe('Not known');
    expect(said.why).toEqual(['Undercroft has no sourced rule for this. It cannot tell you.']);
    expect(said.sources).toEqual([]);
  });

  test('a use of nobody knows what asks what stands there', () => {
    const looked = { ...LOOKED_AT, atMs: NOW - DAY };
    const said = sayVerdict(asked('refrigeratePickle', { product: null, inspection: looked }));
    expect(said.word).toBe('Not known');
    expect(said.why[0]).toBe(
      'What stands in the vessel is not on record, so the rules for it cannot be chosen.',
    );
    expect(said.measureNext).toBe('Say what stands in the vessel.');
  });

  test('rules that wait for one look are told together, each by what it looks for', () => {
    const { why } = sayVerdict(asked('keepAsCulture', { product: 'vinegar' }));
    expect(why).toEqual([
      'Whether vinegar eels are in it is not on record.',
      'Nobody has looked at it and smelled it yet, for mould, fruit flies, a smell of varnish and a rotten smell.',
    ]);
    const long = { ...LOOKED_AT, atMs: NOW - 9 * DAY };
    expect(sayVerdict(asked('keepAsCulture', { product: 'vinegar', inspection: long })).why).toEqual([
      'The last look was 9 days ago, too long for mould, fruit flies, a smell of varnish and a rotten smell: a week is the most while it works or stands open, half a year once it is closed up.',
    ]);
  });

  test('two measurements that may not be used are told apart', () => {
    const old = { quantity: 'alcohol', value: 0.3, uncertainty: 0.1, method: 'alcoholLaboratory' } as const;
    const measurements = [
      { ...TITRATION, takenAtMs: NOW - 20 * DAY },
      { ...old, provenance: 'guessed', takenAtMs: NOW - DAY } as const,
    ];
    const { why } = sayVerdict(asked('labelAsVinegar', { ...FROM_JUICE, jurisdiction: 'de', measurements }));
    expect(why).toContain('The acidity was measured 20 days ago. For what is here it counts for 14 days.');
    expect(why).toContain('The alcohol is a guess, so it cannot be used.');
  });

  test('a source known only from memory is shown as such', () => {
    const finding: Finding = {
      ...({ ruleId: 'CAN-01', verdict: 'do_not', reason: 'category', sayKey: 'CAN-01.category' } as const),
      numbers: { origin: null },
      sourceIds: ['USDA2015', 'GONE'],
    };
    const said = sayVerdict({
      ...{ use: 'can', word: 'doNotUse', findings: [finding], measureNext: null },
      ...{ mayBeOverruled: false, keptApart: false, overruled: null },
    });
    expect(said.sources).toEqual([
      { id: 'USDA2015', title: `${SOURCES.USDA2015.title} (from memory, still to be confirmed)` },
      { id: 'GONE', title: 'Source GONE, not listed in this version' },
    ]);
  });

  test('the same sentence is not said twice', () => {
    const said = sayVerdict(
      asked('labelAsVinegar', { measurements: [{ ...TITRATION, provenance: 'guessed' }] }),
    );
    expect(new Set(said.why).size).toBe(said.why.length);
  });

  test.each([
    [
      'acidity',
      'straddles',
      'Measure acidity by titration, noting the acid and the method. Use a finer method than last time.',
    ],
    ['jurisdiction', 'jurisdiction_unset', 'Choose your country in House Rules.'],
    ['boughtLabelPercent', 'missing', 'Read the strength on the bottle’s label and write it down.'],
    ['addedWater', 'missing', 'Find out whether water was added at home.'],
  ])('what to find out next: %s because %s', (quantity, why, sentence) => {
    expect(sayMeasureNext({ quantity, why })).toBe(sentence);
  });
});

test('what is kept apart says so first, and what would help', () => {
  const apart = { ...asked('dressSalad', FROM_JUICE), word: 'notKnown' as const, keptApart: true };
  const said = sayVerdict({ ...apart, findings: [], measureNext: null });
  expect(said.why).toEqual(['It is kept apart, so no measurement speaks for it.']);
  expect(said.measureNext).toBe(
    'Find out why it was kept apart. When that is settled, move it on and measure again.',
  );
  expect(said.word).toBe('Not known');
});
