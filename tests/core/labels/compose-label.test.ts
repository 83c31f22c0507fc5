import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { composeLabel } from '#core/labels/compose-label.ts';
import { chord } from '#core/labels/compose-in-disc.ts';
import { labelContent, type LabelWishes } from '#core/labels/label-content.ts';
import type { LabelFacts } from '#core/labels/label-facts.ts';
import { briefly } from '#core/labels/label-cautions.ts';
import { LABEL_PARTS } from '#core/labels/label-part.ts';
import { BUILT_IN_LAYOUTS } from '#core/labels/layouts.ts';
import type { LabelLayout } from '#core/labels/layout.ts';
import { fixedOffset } from '#core/quantities/civil-time.ts';
import { fakeTypesetter } from './fake-typesetter.ts';

const UTC = fixedOffset(0);
const day = (text: string): number => Date.parse(`${text}T12:00:00Z`);

const FACTS: LabelFacts = {
  target: { kind: 'batch', code: 'AV-26-003' },
  ...{ batchCode: 'AV-26-003', name: 'Apple vinegar 3', ferment: 'fruitVinegar', stage: 'vinegar' },
  ...{ vesselNumber: 2, spot: 'A2', parentName: 'Kingston cider' },
  ...{ startedAtMs: day('2026-09-14'), batchStartedAtMs: day('2026-10-22'), bottledAtMs: null },
  stages: [
    { stage: 'yeast', fromMs: day('2026-09-14') },
    { stage: 'settling', fromMs: day('2026-10-10') },
    { stage: 'vinegar', fromMs: day('2026-10-22') },
  ],
  acidity: { kind: 'measured', value: 4.19, takenAtMs: day('2026-11-19') },
  ph: { kind: 'measured', value: 3.111, takenAtMs: day('2026-11-19') },
  alcohol: { kind: 'measured', value: 0.41, takenAtMs: day('2026-11-19') },
  culture: { name: 'Old Bess', sort: 'mother', pull: 3 },
  ...{ ingredients: ['apples', 'water'], sulfites: true },
  verdicts: [
    {
      ...{ use: 'dressSalad', word: 'notKnown', keptApart: false },
      findings: [{ ruleId: 'CAN-05', verdict: 'unknown_measure_first', reason: 'missing', numbers: {} }],
    },
  ],
};
const CAUTION = 'Do not use for pickling or canning. Not shown to be 5\u00A0% or more. Test before use.';

const WISHES: LabelWishes = {
  ...{ content: 'cellar', without: [], freeLine: '', from: '', bestKept: '', blankLines: 0 },
};
const content = (facts: Partial<LabelFacts> = {}, wishes: Partial<LabelWishes> = {}, counted = '') =>
  labelContent({ ...FACTS, ...facts }, { ...WISHES, ...wishes }, UTC, counted);
const row = (made: ReturnType<typeof content>, part: string) =>
  made.rows.find((one) => one.part === part)?.value.replaceAll('\u00A0', ' ');

describe('what stands on a label', () => {
  it('says each thing with its day, and rounds to the safe side', () => {
    const made = content();
    expect(made).toMatchObject({ id: 'AV-26-003', code: 'UC:AV-26-003', name: 'Apple vinegar 3' });
    expect(made.what.map((way) => way.replace(/[\u2068\u2069]/gu, ''))).toEqual([
      'fruit vinegar from Kingston cider, V-2 at A2',
      'fruit vinegar from Kingston cider',
      'fruit vinegar',
    ]);
    expect(row(made, 'started')).toBe('2026-09-14');
    expect(row(made, 'batchStarted')).toBe('2026-10-22');
    expect(row(made, 'stages')).toBe('Y 14 Sep  S 10 Oct  V 22 Oct');
    // 4.19 % may not be told as 4.2; a pH of 3.111 not as less sour than it is, nor an alcohol as weaker.
    expect(row(made, 'strength')).toBe('4.1 % as acetic, 2026-11-19');
    expect(row(made, 'ph')).toBe('3.12, 2026-11-19');
    expect(row(made, 'alcohol')).toBe('0.5 % vol, 2026-11-19');
    expect(row(made, 'culture')?.replace(/[\u2068\u2069]/gu, '')).toBe('Old Bess, pull 3');
  });

  it('says that nothing was measured, or that a reading no longer counts', () => {
    expect(row(content({ acidity: { kind: 'none' } }), 'strength')).toBe('not measured');
    expect(row(content({ acidity: { kind: 'notFresh' } }), 'strength')).toBe('no fresh reading');
    expect(row(content({ acidity: null }), 'strength')).toBeUndefined();
  });

  it('prints cautions, name, start and id whatever is not wanted', () => {
    const made = content({}, { without: [...LABEL_PARTS] });
    expect(made.cautions).toEqual([CAUTION]);
    expect(made).toMatchObject({ name: 'Apple vinegar 3', id: 'AV-26-003', what: [], withCode: false });
    expect(made.rows.map(({ part }) => part)).toEqual(['started']);
  });

  it('says so where nobody has shown that it may be used, and where it may not', () => {
    expect(content({ verdicts: [] }).cautions).toEqual([
      'Not known whether it may be used. Test before use.',
    ]);
    const bad = { use: 'drink', word: 'doNotUse', keptApart: false, findings: [] } as const;
    expect(content({ verdicts: [bad] }).cautions).toEqual(['Do not use.']);
    expect(content({ verdicts: [{ ...bad, word: 'meetsTheRule' }] }).cautions).toEqual([]);
    expect(content({ verdicts: [{ ...bad, word: 'meetsTheRule', keptApart: true }] }).cautions).toEqual([
      'Kept apart: do not use.',
    ]);
    expect(content({ verdicts: null }).cautions).toEqual([]);
  });

  it('tells a guest what is in it, who it is from and how it is kept', () => {
    const gift = content({}, { content: 'gift', from: 'Home Farm', bestKept: 'cool and dark' });
    expect(gift.rows.map(({ word, value }) => `${word}: ${value}`).slice(-4)).toEqual([
      'Made of: apples, water',
      'Allergens: sulfites; others not on record',
      'From: Home Farm',
      'Best kept: cool and dark',
    ]);
    expect(gift.cautions).toEqual([CAUTION]);
    // That nothing is on record is never told as if there were nothing.
    expect(row(content({ sulfites: null, ingredients: [] }, { content: 'gift' }), 'allergens')).toBe(
      'not on record, ask the maker',
    );
    expect(row(content({ ingredients: [] }, { content: 'gift' }), 'ingredients')).toBe('not on record');
  });

  it('names allergens that the ingredients tell of, whole or not at all, and never that there are none', () => {
    const ingredients = ['cucumbers', 'celery leaves', 'mustard seed', 'salt', 'crab apples'];
    const gift = content({ ingredients, sulfites: null }, { content: 'gift' });
    expect(row(gift, 'allergens')).toBe('celery, mustard; others not on record');
    for (const { key } of BUILT_IN_LAYOUTS) {
      const label = composed(key, gift);
      const leftOff = label.notes.some((note) => note.type === 'leftOff' && note.parts.includes('allergens'));
      const refused = label.notes.some(({ type }) => type === 'doesNotFit');
      const whole = words(label).replaceAll(' ', '').includes('celery,mustard;othersnotonrecord');
      expect(whole || leftOff || refused, key).toBe(true);
    }
  });

  it('counts its copies', () => {
    const plain = content({ parentName: null, vesselNumber: null, spot: null }, {}, '2 of 9');
    expect(plain.what).toEqual(['fruit vinegar, 2 of 9']);
    for (const way of content({}, {}, '2 of 9').what) expect(way).toMatch(/, 2 of 9$/u);
  });
});

const CODE = Array.from({ length: 21 }, () => '10'.repeat(10) + '1');
const TOOLS = { type: fakeTypesetter, makeCode: () => CODE };
const layout = (key: string): LabelLayout => {
  const found = BUILT_IN_LAYOUTS.find((one) => one.key === key);
  if (found === undefined) throw new Error(key);
  return found;
};
const composed = (key: string, made = content()) => composeLabel(made, layout(key), TOOLS);
const words = (label: ReturnType<typeof composed>): string =>
  label.drawing.texts
    .map(({ text }) => text)
    .join(' ')
    .replaceAll('\u00A0', ' ');

describe('a composed label', () => {
  it.each(BUILT_IN_LAYOUTS.map(({ key }) => key))(
    'on %s prints what always prints, or says that it does not fit',
    (key) => {
      const label = composed(key);
      const fits = !label.notes.some(({ type }) => type === 'doesNotFit');
      if (!fits) return;
      const text = words(label);
      expect(text).toContain('2026-09-14');
      expect(text).toContain('AV-26-003');
      const said = [CAUTION, briefly(CAUTION)].map((caution) => caution.replaceAll('\u00A0', ' '));
      expect(
        said.some((caution) => text.includes(caution)),
        text,
      ).toBe(true);
      expect(label.smallestPt).toBeGreaterThanOrEqual(6.5);
    },
  );

  it('tells everything that is wanted and is not there', () => {
    const label = composed('let-3x10');
    const [leftOff] = label.notes.flatMap((note) => (note.type === 'leftOff' ? [note.parts] : []));
    const text = words(label);
    expect(leftOff).toContain('ingredients');
    for (const { part, value } of content().rows) {
      const shown = text.includes(value.replaceAll('\u00A0', ' '));
      if (!shown) expect([...(leftOff ?? []), 'cut']).toContain(part);
    }
  });

  it('sets no caution under 7.5 pt, nor the start under 9', () => {
    for (const { key } of BUILT_IN_LAYOUTS) {
      for (const { text, sizePt, bold } of composed(key).drawing.texts) {
        const isCaution = [CAUTION, briefly(CAUTION)].some((caution) => caution.includes(text));
        if (isCaution && text.length > 3 && bold) expect(sizePt).toBeGreaterThanOrEqual(7.5);
        if (text.endsWith('2026-09-14')) expect(sizePt).toBeGreaterThanOrEqual(9);
      }
    }
  });

  it('is told not to fit when a caution has no room, and never prints without it', () => {
    const [verdict] = FACTS.verdicts ?? [];
    if (verdict === undefined) throw new Error('no verdict');
    const findings = ['KOM-01', 'KOM-05', 'KOM-04', 'CID-03', 'VEG-09', 'CAN-05'].map((ruleId) => ({
      ...{ ruleId, verdict: 'caution' as const, reason: 'missing', numbers: {} },
    }));
    const label = composed('roll-62x29', content({ verdicts: [{ ...verdict, findings }] }));
    expect(label.notes).toContainEqual({ type: 'doesNotFit', parts: ['caution'] });
  });

  it('of raw kombucha of which nothing was measured fits on every layout, all cautions with it', () => {
    const findings = ['KOM-01', 'KOM-04', 'KOM-05', 'KOM-06'].map((ruleId) => ({
      ...{ ruleId, verdict: 'unknown_measure_first' as const, reason: 'missing', numbers: { find: 'pH' } },
    }));
    const made = content({
      ...{ name: 'November kombucha', ferment: 'kombucha', stage: 'vinegar', parentName: null },
      verdicts: [{ use: 'drink', word: 'notKnown', keptApart: false, findings }],
    });
    expect(made.cautions).toHaveLength(3);
    for (const { key } of BUILT_IN_LAYOUTS) {
      const label = composed(key, made);
      expect(
        label.notes.filter(({ type }) => type === 'doesNotFit'),
        key,
      ).toEqual([]);
      const text = words(label);
      const whole = [made.cautions, made.cautionsBriefly].some((said) => text.includes(said.join(' ')));
      expect(whole, `${key}: ${text}`).toBe(true);
    }
  });

  it('is set larger where there is room, and says its cautions in full there', () => {
    const nameOf = (key: string) => composed(key).drawing.texts.find(({ text }) => text.startsWith('Apple'));
    const [large, small] = [nameOf('a4-2x4'), nameOf('a4-3x7')];
    expect(large?.sizePt).toBeGreaterThan((small?.sizePt ?? 0) * 1.3);
    expect(words(composed('a4-2x4'))).toContain(CAUTION.replaceAll('\u00A0', ' '));
  });

  it('has the mark of its stage at the right of a name that is read from right to left', () => {
    const mark = (name: string) => {
      const { texts } = composed('a4-2x4', content({ name })).drawing;
      const [letter, first] = [
        texts.find(({ text }) => text === 'V'),
        texts.find(({ text }) => text === name),
      ];
      return (letter?.xMm ?? 0) - (first?.xMm ?? 0);
    };
    expect(mark('Apple')).toBeLessThan(0);
    expect(mark('חומץ')).toBeGreaterThan(0);
  });

  it('names the characters that will not print', () => {
    const label = composed('a4-2x4', content({ name: '梅酢 2026' }));
    expect(label.notes).toContainEqual({ type: 'willNotPrint', count: 2, characters: ['梅', '酢'] });
  });

  it('keeps everything within the room of its shape, whatever it is called', () => {
    const name = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 200 });
    fc.assert(
      fc.property(name, fc.constantFrom(...BUILT_IN_LAYOUTS), fc.boolean(), (called, on, gift) => {
        const made = content(
          { name: called },
          { content: gift ? 'gift' : 'cellar', freeLine: called, blankLines: 1 },
        );
        const { drawing, notes } = composeLabel(made, on, TOOLS);
        if (notes.some(({ type }) => type === 'doesNotFit')) return;
        for (const { xMm, yMm, widthMm } of drawing.texts) {
          expect(xMm).toBeGreaterThanOrEqual(1.9);
          expect(xMm + widthMm).toBeLessThanOrEqual(on.labelWidthMm - 1.9);
          expect(yMm).toBeLessThanOrEqual(on.labelHeightMm - 1.5);
          if (on.shape !== 'round') continue;
          const half = chord(on.labelWidthMm / 2, yMm - on.labelHeightMm / 2 - 1, 1) / 2;
          expect(Math.abs(xMm - on.labelWidthMm / 2)).toBeLessThanOrEqual(half);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('keeps four modules free about the code', () => {
    for (const { key } of BUILT_IN_LAYOUTS) {
      const { drawing } = composed(key);
      const { code, texts, rules } = drawing;
      if (code === null) continue;
      const quiet = 4 * code.moduleMm - 1e-6;
      const side = 21 * code.moduleMm;
      const [left, right] = [code.xMm - quiet, code.xMm + side + quiet];
      const [top, foot] = [code.yMm - quiet, code.yMm + side + quiet];
      expect(code.moduleMm).toBeGreaterThanOrEqual(0.4);
      // Whole dots of a printer of 300 dpi, and so of one of 600.
      const dots = (code.moduleMm * 300) / 25.4;
      expect(Math.abs(dots - Math.round(dots)), key).toBeLessThan(1e-9);
      for (const { xMm, yMm, widthMm, sizePt } of texts) {
        // Capitals reach 0.69 of the size above the baseline.
        const capTop = yMm - 0.69 * sizePt * (25.4 / 72);
        const clear = xMm + widthMm <= left || xMm >= right || yMm <= top || capTop >= foot;
        expect(clear, `${key} ${JSON.stringify({ xMm, yMm, sizePt })}`).toBe(true);
      }
      for (const { x1Mm, x2Mm, y1Mm, weightMm } of rules) {
        const clear =
          x2Mm <= left || x1Mm >= right || y1Mm + weightMm / 2 <= top || y1Mm - weightMm / 2 >= foot;
        expect(clear, key).toBe(true);
      }
    }
  });
});
