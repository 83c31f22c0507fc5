import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { TastingRow } from '#core/contract/tastings.ts';
import type { BatchId, EntryId } from '#core/ledger/ids.ts';
import { TASTE_GROUP_NAMES, TASTE_GROUPS, TASTE_WORDS } from '#core/ledger/taste-words.ts';
import { FormReader } from '#renderer/acts/form-reader.ts';
import { browserTime } from '#renderer/acts/browser-time.ts';
import { scorePanel } from '#renderer/cellar-book/score-panel.ts';
import { buildTasting, TASTING_FIELDS } from '#renderer/tasting/build-tasting.ts';
import { toggled, wordsIn } from '#renderer/tasting/chosen-words.ts';
import { WHEEL_SIZE, wheelShape } from '#renderer/tasting/wheel-shape.ts';
import { wordCounts } from '#renderer/tasting/word-counts.ts';
import {
  AFTER_A_FAULT,
  BEFORE_TASTING,
  faultAdvice,
  sayScore,
  sayTasting,
  TASTE_GROUP_WORDS,
  TASTE_WORD_WORDS,
} from '#renderer/words/taste-words.ts';
import { NOW_MS, uuid } from '../fake-cellar.ts';

const about = { kind: 'batch', batchId: uuid(11) as BatchId } as const;
const reader = (fields: Record<string, string>): FormReader =>
  new FormReader({
    fields: { ...TASTING_FIELDS, ...fields },
    kept: {},
    house: HOUSE_RULES_AT_FIRST,
    nowMs: NOW_MS,
    localTime: browserTime,
  });
const row = (change: Partial<TastingRow>): TastingRow => ({
  ...{ entryId: uuid(60) as EntryId, atMs: NOW_MS, words: [], score: null, text: '', by: '', vesselId: null },
  ...change,
});

describe('the form of a tasting', () => {
  test('puts words in the order of the wheel, with score, text and taster', () => {
    const read = reader({ words: 'oak apple', score: '4', text: ' long ', by: 'both of us' });
    expect(buildTasting(read, about)).toEqual({
      ...{ kind: 'tasteNote', about, words: ['apple', 'oak'], score: 4, text: 'long', by: 'both of us' },
    });
    expect(read.problems).toEqual([]);
  });

  test.each([
    ['nothing said', {}, 'words'],
    ['only who tasted', { by: 'we' }, 'words'],
    ['every word there is', { words: TASTE_WORDS.join(' ') }, 'words'],
    ['a name of two lines', { by: 'a\nb', score: '3' }, 'by'],
    ['a time that is no time', { score: '3', happenedAtMs: 'once' }, 'happenedAtMs'],
  ])('%s is asked about at its field', (_what, fields, field) => {
    const read = reader(fields);
    buildTasting(read, about);
    expect(read.problems.map((problem) => problem.field)).toEqual([field]);
  });

  test('a score alone, a word alone or a text alone is enough', () => {
    for (const fields of [{ score: '1' }, { words: 'oak' }, { text: 'flat' }]) {
      const read = reader(fields);
      buildTasting(read, about);
      expect(read.problems).toEqual([]);
    }
    expect(buildTasting(reader({ score: '9', text: 'x' }), about)).toMatchObject({ score: null });
  });

  test('a word pressed twice is as it was, whatever was chosen', () => {
    fc.assert(
      fc.property(fc.subarray([...TASTE_WORDS]), fc.constantFrom(...TASTE_WORDS), (chosen, word) => {
        const text = wordsIn(chosen.join(' ')).join(' ');
        expect(toggled(toggled(text, word), word)).toBe(text);
        expect(wordsIn(toggled(text, word)).includes(word)).toBe(!chosen.includes(word));
      }),
    );
  });
});

describe('the wheel', () => {
  const { groups, words } = wheelShape();

  test('has every word once, in the order of the list, and every group around it', () => {
    expect(words.map(({ word }) => word)).toEqual([...TASTE_WORDS]);
    expect(groups.map(({ group }) => group)).toEqual(TASTE_GROUP_NAMES);
  });

  test('keeps every word inside its square, and never upside down', () => {
    for (const { textX, textY, turn, path } of [...groups, ...words]) {
      expect(textX > 0 && textX < WHEEL_SIZE && textY > 0 && textY < WHEEL_SIZE).toBe(true);
      expect(((turn % 360) + 540) % 360).toBeGreaterThanOrEqual(90);
      expect(((turn % 360) + 540) % 360).toBeLessThanOrEqual(270);
      expect(path).not.toContain('NaN');
    }
  });

  test('has a word and a name of the group for each', () => {
    for (const word of TASTE_WORDS) expect(TASTE_WORD_WORDS[word]).toMatch(/^[a-z -]+$/);
    for (const group of TASTE_GROUP_NAMES) expect(TASTE_GROUP_WORDS[group]).not.toBe('');
  });
});

describe('a tasting in words', () => {
  test('says score, words and text, whichever there are', () => {
    expect(sayTasting({ score: 4, words: ['apple', 'offDry'], text: 'long' })).toBe(
      'score 4 of 5; apple, off-dry; long',
    );
    expect(sayTasting({ score: null, words: [], text: 'closed' })).toBe('closed');
    expect([1, 2, 3, 4, 5].map(sayScore)).toEqual([
      '1, poor',
      '2, passable',
      '3, good',
      '4, very good',
      '5, the best',
    ]);
  });

  test('a fault word, and no other, is answered with advice that leaves the decision to the rules', () => {
    expect(faultAdvice(['apple', 'harsh', 'oak'])).toEqual([]);
    expect(faultAdvice([...TASTE_GROUPS.faults])).toHaveLength(TASTE_GROUPS.faults.length);
    for (const words of [AFTER_A_FAULT, BEFORE_TASTING])
      expect(words).toMatch(/[Nn]ever taste anything with mould/);
    expect(AFTER_A_FAULT).toContain('safety rules');
    const all = faultAdvice([...TASTE_GROUPS.faults]).join(' ');
    expect(all).not.toMatch(/\b(safe|harmless|fine|fit to drink)\b/i);
  });
});

describe('tastings on the leaf', () => {
  const rows = [
    row({ atMs: NOW_MS - 9e8, score: 2, words: ['solvent', 'apple'], entryId: uuid(61) as EntryId }),
    row({ atMs: NOW_MS - 6e8, words: ['apple'], entryId: uuid(62) as EntryId }),
    row({ atMs: NOW_MS, score: 4, text: 'no words', entryId: uuid(63) as EntryId }),
  ];

  test('only those with a score are drawn, one with a fault hollow', () => {
    const { points } = scorePanel(rows);
    expect(points.map(({ y, doubtful }) => [y, doubtful])).toEqual([
      [2, true],
      [4, false],
    ]);
    expect(scorePanel([]).points).toEqual([]);
  });

  test('words are counted among the tastings that used any', () => {
    expect(wordCounts(rows)).toEqual([
      { word: 'apple', count: 2, share: 1 },
      { word: 'solvent', count: 1, share: 0.5 },
    ]);
    expect(wordCounts([])).toEqual([]);
  });
});
