import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { z } from 'zod';
import { TOLD_GROUPS, TOLD_GROUP_NAMES, ToldFacts, type ToldGroup } from '#core/ledger/told-facts.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import { evaluate } from '#core/safety/evaluate.ts';
import type { Product } from '#core/safety/facts-of-uses.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { RULES, WHOLE_BOOK } from '#core/safety/rule-book.ts';
import {
  FACT_KINDS,
  FACT_PATHS,
  factsOfUse,
  kindOf,
  pathsOf,
  placeOf,
  RULE_ASKS,
} from '#renderer/uses/fact-questions.ts';
import { nothingKnown } from '#renderer/uses/nothing-known.ts';
import { FACT_WORDS, factWords, isFactPath, type FactPath } from '#renderer/words/fact-words.ts';

/** What is not asked: when a look was taken is when it is told, and the pH of a starter is read. */
const NOT_ASKED = ['inspection.atMs', 'starter.startPh'];

/** Every field of every group, as the book describes it. */
function fieldsOf(group: ToldGroup): readonly string[] {
  const schema = TOLD_GROUPS[group] as unknown as { shape?: Record<string, z.ZodType> };
  return schema.shape === undefined ? [group] : Object.keys(schema.shape).map((field) => `${group}.${field}`);
}

/** A value the book may or may not take in a field, as the whole act would carry it. */
function taken(path: FactPath, value: unknown): boolean {
  const { group, field } = placeOf(path);
  if (field === null) return ToldFacts.safeParse({ [group]: value }).success;
  const whole = Object.fromEntries(fieldsOf(group).map((each) => [each.split('.')[1] ?? '', null]));
  const atMs = group === 'inspection' ? { atMs: 0 } : {};
  return ToldFacts.safeParse({ [group]: { ...whole, ...atMs, [field]: value } }).success;
}

describe('the questions', () => {
  test('there is one for each field of each group, and none besides', () => {
    const asked = TOLD_GROUP_NAMES.flatMap(fieldsOf).filter((path) => !NOT_ASKED.includes(path));
    expect([...FACT_PATHS].sort()).toEqual(asked.sort());
    expect(Object.keys(FACT_KINDS).sort()).toEqual(asked.sort());
  });

  test.each(FACT_PATHS)('%s has a question, and answers the book takes', (path) => {
    const words = factWords(path);
    expect(words.question).toMatch(/\?|\. Do not taste/u);
    const kind = kindOf(path);
    switch (kind.type) {
      case 'yesNo':
        expect(taken(path, true) && taken(path, false)).toBe(true);
        expect(words.choices).toBeUndefined();
        break;
      case 'choice': {
        const choices = Object.keys(words.choices ?? {});
        expect(choices.length).toBeGreaterThan(1);
        for (const choice of choices) expect(taken(path, choice), choice).toBe(true);
        expect(choices.sort()).toEqual(choicesOf(path).sort());
        break;
      }
      case 'number':
        expect(taken(path, kind.low) && taken(path, kind.high)).toBe(true);
        expect(taken(path, kind.high * 1.01)).toBe(false);
        expect(kind.unit.test(kind.says) || kind.says === '°C').toBe(true);
        break;
      case 'moment':
        expect(taken(path, Date.UTC(2026, 10, 25))).toBe(true);
        break;
      case 'quantity':
        expect(
          taken(
            path,
            kind.quantity === 'mass' ? 40 : { value: 21, uncertainty: null, method: 'thermometer' },
          ),
        ).toBe(true);
    }
  });

  test('every choice of the book is offered', () => {
    const choices = FACT_PATHS.filter((path) => kindOf(path).type === 'choice');
    for (const path of choices) expect(Object.keys(factWords(path).choices ?? {})).toEqual(choicesOf(path));
  });
});

/** The values of an enum of the book, whether or not it may be null. */
function choicesOf(path: FactPath): string[] {
  const { group, field } = placeOf(path);
  const schema = TOLD_GROUPS[group] as unknown as Described;
  const of = field === null ? schema : (schema.shape?.[field] as Described);
  return [...(of.unwrap?.().options ?? of.options ?? [])];
}
interface Described {
  readonly shape?: Record<string, unknown>;
  readonly options?: readonly string[];
  readonly unwrap?: () => Described;
}

const PRODUCTS: readonly (Product | null)[] = [
  ...(['vinegar', 'wine', 'cider', 'mead', 'juice', 'kombucha', 'waterKefir'] as const),
  ...(['brinedVegetables', 'kimchi', 'infusedVinegar', 'infusedOil', null] as const),
];
const USES = [...new Set(RULES.flatMap(({ uses }) => uses))];
/** What rules ask that a keeper does not tell of a vessel, with where the answer comes from instead. */
const NOT_TOLD: Readonly<Record<string, 'measured' | 'derived' | 'houseRules' | 'ofNoVessel'>> = {
  ...{ acidity: 'measured', pH: 'measured', gravity: 'measured', alcohol: 'measured' },
  ...{ salt: 'measured', sulfite: 'measured', temperature: 'measured' },
  ...{ normality: 'measured', endPoint: 'measured', degassed: 'measured' },
  // From the book: the first pH after the starter went in, water after the mother, alcohol read as spent, the ferment.
  ...{ 'starter.startPh': 'derived', addedWater: 'derived', alcoholSpentAtMs: 'derived', product: 'derived' },
  jurisdiction: 'houseRules',
  // Of a bottle from a shop, of jars in a canner, of oil: none of them stands in a vessel of the cellar.
  ...{ boughtLabelPercent: 'ofNoVessel', grain: 'ofNoVessel' },
  ...{ 'infusedOil.acidified': 'ofNoVessel', 'infusedOil.madeAtMs': 'ofNoVessel' },
  // Of the hands that titrate or sulfite, of the air in a room, of a household: asked of no vessel.
  carbonDioxide: 'ofNoVessel',
  ...all('roomAir', ['measuredAtKneeHeight', 'activeLitres', 'pointsPerDay']),
  ...all('roomAir', ['roomLitres', 'closedDays', 'symptoms']),
  ...all('baseHandling', ['normality', 'goggles', 'gloves', 'labelledAndLocked', 'byMouth']),
  ...all('sulfiteHandling', ['asthmaPresent', 'intoHotOrStrongAcid', 'ventilated', 'gloves']),
  ...all('homeAlcohol', ['ofAge', 'adultsInHousehold', 'litresThisYear']),
};

function all(group: string, fields: readonly string[]): Readonly<Record<string, 'ofNoVessel'>> {
  return Object.fromEntries(fields.map((field) => [`${group}.${field}`, 'ofNoVessel']));
}

/** What a rule names when it waits for a whole group, of which it then looks at some part. */
const WHOLE_GROUPS = new Set(['inspection', 'salting']);

describe('which rule asks what', () => {
  test('every rule named is a rule, and together they ask every question', () => {
    const ids = new Set(RULES.map(({ id }) => id));
    expect(Object.keys(RULE_ASKS).filter((id) => !ids.has(id))).toEqual([]);
    const asked = new Set(Object.values(RULE_ASKS).flat());
    expect(FACT_PATHS.filter((path) => !asked.has(path))).toEqual([]);
  });

  test.each(USES)('whatever a rule of %s waits for is among its questions', (use) => {
    for (const rule of RULES.filter(({ uses }) => uses.includes(use))) {
      const book = { rules: [rule], measurementRules: WHOLE_BOOK.measurementRules };
      for (const product of PRODUCTS) {
        const wanted = askedFor((facts) => evaluate(use, facts, book).measureNext?.quantity ?? null, {
          ...nothingKnown(Date.UTC(2026, 10, 25)),
          ...{ product, jurisdiction: 'us' as const },
        });
        const asks: readonly string[] = RULE_ASKS[rule.id] ?? [];
        expect([...wanted].filter((path) => isFactPath(path) && !asks.includes(path))).toEqual([]);
      }
    }
  });

  test('every fact that any rule names is told, derived, measured, or of no vessel; none is forgotten', () => {
    const named = factsNamedInRules();
    expect(named.length).toBeGreaterThan(60);
    const forgotten = named.filter(
      (path) => !isFactPath(path) && !Object.hasOwn(NOT_TOLD, path) && !WHOLE_GROUPS.has(path),
    );
    expect(forgotten).toEqual([]);
    expect(Object.keys(NOT_TOLD).filter((path) => isFactPath(path))).toEqual([]);
  });

  test('no vessel is asked for a fact that is of no vessel', () => {
    const asked = new Set(Object.values(FERMENTS).flatMap(({ uses }) => uses));
    for (const use of asked) {
      for (const product of PRODUCTS.filter((each) => each !== 'infusedOil')) {
        const facts = { ...nothingKnown(Date.UTC(2026, 10, 25)), product, jurisdiction: 'us' as const };
        const wanted = askedFor((given) => evaluate(use, given).measureNext?.quantity ?? null, facts, 3);
        const astray = [...wanted].filter((path) => NOT_TOLD[path] === 'ofNoVessel');
        expect(astray, `${use} of ${product ?? 'nothing'}`).toEqual([]);
      }
    }
  });

  test('a use asks what any of its rules asks', () => {
    expect(factsOfUse('sealInBottle')).toContain('sealing.bottle');
    expect(factsOfUse('eat')).toContain('salting.saltGrams');
    expect(factsOfUse('keepAsCulture')).toContain('inspection.eels');
    expect(factsOfUse('no such use')).toEqual([]);
  });

  test('the paths of a group come in the order of asking', () => {
    expect(pathsOf('storage')).toEqual(['storage.place', 'storage.closedTight', 'storage.testedProcess']);
    expect(pathsOf('recipient')).toEqual(['recipient']);
    expect(isFactPath('storage.place') && !isFactPath('acidity')).toBe(true);
  });
});

/** Every fact by the name a rule asks for it with, as the rules are written. */
function factsNamedInRules(): readonly string[] {
  const folder = join(import.meta.dirname, '../../../src-core/safety/rules');
  const text = readdirSync(folder).map((file) => readFileSync(join(folder, file), 'utf8'));
  const asked = text.flatMap((source) => [
    ...matches(source, /unknownBecause\(\s*[^,()]*,\s*'([^']+)'/gu),
    ...matches(source, /byFact\('([^']+)'/gu),
    ...matches(source, /\?\? '([a-zA-Z]+\.[a-zA-Z]+)'/gu),
    ...[...source.matchAll(/firstUnknown\(\{([^}]*)\}/gu)].flatMap(([, inside = '']) =>
      matches(inside, /'([a-zA-Z]+\.[a-zA-Z]+)':/gu),
    ),
    ...matches(source, /appliesBy: '([^']+)'/gu),
  ]);
  return [...new Set([...asked, ...Object.values(RULE_ASKS).flat()])];
}

function matches(source: string, pattern: RegExp): readonly string[] {
  return [...source.matchAll(pattern)].map(([, found = '']) => found);
}

/** All facts a rule may come to wait for, found by answering each question in every way in turn. */
function askedFor(
  ask: (facts: SafetyFacts) => string | null,
  facts: SafetyFacts,
  depth = 5,
): ReadonlySet<string> {
  const quantity = ask(facts);
  if (quantity === null) return new Set();
  if (!isFactPath(quantity)) return new Set([quantity]);
  const found = new Set<string>([quantity]);
  if (depth === 0) return found;
  for (const answer of answersTo(quantity)) {
    for (const more of askedFor(ask, told(facts, quantity, answer), depth - 1)) found.add(more);
  }
  return found;
}

function answersTo(path: FactPath): readonly unknown[] {
  const kind = kindOf(path);
  switch (kind.type) {
    case 'yesNo':
      return [true, false];
    case 'choice':
      return Object.keys(FACT_WORDS[path as 'recipe'].choices);
    case 'number':
      return [kind.low, kind.high];
    case 'moment':
      return [Date.UTC(2026, 10, 24)];
    case 'quantity':
      return kind.quantity === 'mass'
        ? [20, 1000]
        : [{ value: 65, uncertainty: null, method: 'thermometer' }];
  }
}

function told(facts: SafetyFacts, path: FactPath, answer: unknown): SafetyFacts {
  const { group, field } = placeOf(path);
  if (field === null) return { ...facts, [group]: answer };
  const before = (facts as unknown as Record<string, object | undefined>)[group] ?? {};
  const atMs = group === 'inspection' ? { atMs: facts.nowMs } : {};
  return { ...facts, [group]: { ...before, ...atMs, [field]: answer } };
}
