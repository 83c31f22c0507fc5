import { describe, expect, test } from 'vitest';
import { ALL_SAY_KEYS, WHOLE_BOOK } from '#core/safety/rule-book.ts';
import { hasSentence, ruleAbout, sayFinding } from '#renderer/words/verdict-sentences.ts';
import { RULE_WORDS } from '#renderer/words/verdict/rule-words.ts';

const ISO = { dates: 'iso' } as const;
const ids = [...WHOLE_BOOK.rules, ...WHOLE_BOOK.measurementRules].map(({ id }) => id);
const keysOf = (id: string): readonly string[] => ALL_SAY_KEYS.filter((key) => key.startsWith(`${id}.`));
const said = (sayKey: string): string =>
  sayFinding({ sayKey, ruleId: sayKey.split('.')[0] ?? '', numbers: {} }, ISO);

describe('the words of the 89 rules', () => {
  test('there are words for each rule, and for no other', () => {
    expect(ids).toHaveLength(89);
    expect(Object.keys(RULE_WORDS).sort()).toEqual([...ids].sort());
  });

  test.each(ids)('[%s] every answer has a sentence, and no two are alike', (id) => {
    const keys = keysOf(id);
    expect(keys.length).toBeGreaterThan(1);
    expect(keys.filter((key) => !hasSentence(key))).toEqual([]);
    const sentences = keys.map(said);
    expect(new Set(sentences).size).toBe(keys.length);
    for (const sentence of sentences) {
      expect(sentence).toMatch(/^\p{Lu}.*\.$/u);
      expect(sentence.length).toBeGreaterThan(20);
      expect(sentence).not.toMatch(/undefined|NaN|null|\b[Ss]afe(ly|ty)?\b|no words for/u);
    }
    // What is met is said with the rule’s own id; an engine fault with what the rule is about.
    if (keys.includes(`${id}.met`)) expect(said(`${id}.met`)).toMatch(new RegExp(`^Rule ${id}: `, 'u'));
    expect(said(`${id}.engine_fault`)).toContain(`Rule ${id}, on ${ruleAbout(id) ?? '?'}, could not`);
  });

  test('no two rules answer in the same words, so each tells what it is about', () => {
    const byWords = Map.groupBy(ALL_SAY_KEYS, said);
    expect([...byWords.values()].filter((keys) => keys.length > 1)).toEqual([]);
    expect(byWords.size).toBe(ALL_SAY_KEYS.length);
    expect(byWords.size).toBeGreaterThan(600);
  });

  test('no words are kept for an answer that no rule gives', () => {
    const given = new Set(ALL_SAY_KEYS);
    const kept = Object.entries(RULE_WORDS).flatMap(([id, { says }]) =>
      Object.keys(says).map((reason) => `${id}.${reason}`),
    );
    expect(kept.filter((key) => !given.has(key))).toEqual([]);
  });
});
