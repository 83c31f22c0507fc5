import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ASKABLE_FACTS, sayMeasureNext } from '#renderer/words/verdict/measure-next.ts';

/** Every fact that the source of the rules can ask for, read from that source. */
function factsAskedFor(): readonly string[] {
  const folder = resolve(process.cwd(), 'src-core/safety');
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    name.endsWith('.ts'),
  );
  const source = names.map((name) => readFileSync(resolve(folder, name), 'utf8')).join('\n');
  const captured = (pattern: RegExp): string[] =>
    [...source.matchAll(pattern)].map((match) => match[1] ?? '');
  const listed = captured(/firstUnknown\(\{([^}]*)\}\)/gu).flatMap((body) =>
    [...body.matchAll(/(?:'([^']+)'|\b(\w+)):/gu)].map((match) => match[1] ?? match[2] ?? ''),
  );
  const asked = [
    ...captured(/unknownBecause\(\s*(?:'\w+'|worst\.reason),\s*(?:unknown \?\? )?'([^']+)'/gu),
    ...captured(/byFact\(\s*'([^']+)'/gu),
    ...captured(/appliesBy: '([^']+)'/gu),
    ...captured(/\{ quantity: '([^']+)', why: /gu),
    ...listed,
    // Named by what they measure and not in the source: see `Quantity`, and what a room’s reckoning refuses.
    ...['acidity', 'pH', 'gravity', 'alcohol', 'temperature', 'salt', 'sulfite', 'carbonDioxide'],
    ...['roomAir.activeLitres', 'roomAir.pointsPerDay', 'roomAir.roomLitres'],
  ];
  return [...new Set(asked)].filter((fact) => fact !== 'whether the rule applies').sort();
}

describe('what to measure or find out next', () => {
  const asked = factsAskedFor();

  test('there are words for every fact that a rule can ask for, and for no other', () => {
    expect(asked.length).toBeGreaterThan(95);
    expect([...new Set(ASKABLE_FACTS)].sort()).toEqual(asked);
  });

  test.each(asked)('%s is said, whatever the reason', (quantity) => {
    const reasons = ['missing', 'straddles', 'stale_event', 'stale_age', 'method', 'not_yet', 'unheard_of'];
    for (const why of reasons) {
      const said = sayMeasureNext({ quantity, why });
      expect(said).toMatch(/^\p{Lu}.*[.?]$/u);
      expect(said).not.toMatch(/undefined|no words for|\bsafe\b/u);
      expect(said.length).toBeGreaterThan(15);
    }
  });

  test('no two facts are asked for in the same words', () => {
    const said = asked.map((quantity) => sayMeasureNext({ quantity, why: 'missing' }));
    const twice = said.filter((sentence, index) => said.indexOf(sentence) !== index);
    expect(twice).toEqual([]);
  });

  test('a fact of a newer version is told as such', () => {
    expect(sayMeasureNext({ quantity: 'moonPhase', why: 'missing' })).toBe(
      'The rule asks for something that this version has no words for.',
    );
  });
});
