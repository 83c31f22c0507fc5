import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BENCH } from '#core/reckonings/bench.ts';
import { CAUTIONS, IMPOSSIBLE_REASONS } from '#core/reckonings/cautions.ts';
import type {
  Reckoned,
  Reckoning,
  ReckoningError,
  ReckoningField,
  ReckoningValues,
} from '#core/reckonings/reckoning.ts';
import { plainValues, rangeOf } from './reckoning-values.ts';

/** Any number at all: likely ones, the ends of the field, and what no one should type. */
function anyNumber(field: Exclude<ReckoningField, { kind: 'choice' }>): fc.Arbitrary<number> {
  const { low, high } = rangeOf(field);
  return fc.oneof(
    { weight: 6, arbitrary: fc.double({ min: low, max: high, noNaN: true }) },
    { weight: 2, arbitrary: fc.constantFrom(low, high, 0, 1) },
    { weight: 1, arbitrary: fc.double() },
    { weight: 1, arbitrary: fc.constantFrom(Number.NaN, Infinity, -Infinity, 1e308, -1e308, 5e-324) },
  );
}

function anyValues(reckoning: Reckoning, wild: boolean): fc.Arbitrary<ReckoningValues> {
  return fc.record(
    Object.fromEntries(
      reckoning.fields.map((field): [string, fc.Arbitrary<number | string | undefined>] => {
        if (field.kind === 'choice') return [field.name, fc.constantFrom(...field.choices)];
        const { low, high } = rangeOf(field);
        const value = wild ? anyNumber(field) : fc.double({ min: low, max: high, noNaN: true });
        const isFree = wild || !field.required;
        return [field.name, isFree ? fc.option(value, { nil: undefined, freq: 6 }) : value];
      }),
    ),
  );
}

/** What is wrong with a refusal; nothing when it is as it should be. */
function refusalFaults({ fields, says }: Reckoning, error: ReckoningError): string[] {
  const isField = (name: string): boolean => fields.some((field) => field.name === name);
  switch (error.type) {
    case 'Outside':
      return isField(error.field) ? [] : [`no field: ${error.field}`];
    case 'Missing':
      return error.fields.flatMap((field) => (isField(field) ? [] : [`no field: ${field}`]));
    case 'Impossible': {
      const isSaid = [...says.reasons, 'beyondReckoning'].includes(error.reason);
      const numbers = Object.entries(error.numbers).flatMap(([name, value]) =>
        Number.isNaN(value) ? [`${name} is no number`] : [],
      );
      return [...(isSaid ? [] : [`not among its reasons: ${error.reason}`]), ...numbers];
    }
  }
}

/** What is wrong with an answer; nothing when it is as it should be. */
function answerFaults({ says }: Reckoning, { answers, steps, cautions }: Reckoned): string[] {
  const faults: string[] = [];
  const hold = (isSo: boolean, otherwise: string): void => {
    if (!isSo) faults.push(otherwise);
  };
  hold(answers.length > 0, 'no answer');
  hold(steps.length > 0, 'no step');
  for (const { name, value, uncertainty, range } of answers) {
    hold(says.answers.includes(name), `not among its answers: ${name}`);
    hold(Number.isFinite(value), `${name} is ${value}`);
    hold(
      uncertainty === null || (Number.isFinite(uncertainty) && uncertainty > 0),
      `${name} is uncertain by ${uncertainty ?? ''}`,
    );
    hold(range === null || range.low <= range.high, `${name} ranges from above to below`);
  }
  for (const { name, value, working, source } of steps) {
    hold(says.steps.includes(name), `not among its steps: ${name}`);
    hold(Number.isFinite(value), `step ${name} is ${value}`);
    hold(!/NaN|Infinity|undefined|\?/u.test(working), `step ${name} works with ${working}`);
    hold(source !== '', `step ${name} has no source`);
  }
  hold(new Set(cautions).size === cautions.length, 'a caution twice');
  for (const caution of cautions) hold(says.cautions.includes(caution), `not among its cautions: ${caution}`);
  hold(new Set(answers.map(({ name }) => name)).size === answers.length, 'an answer twice');
  return faults;
}

describe('the bench', () => {
  it('holds each reckoning once', () => {
    const ids = BENCH.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('says every caution and reason that there are words for somewhere', () => {
    const said = new Set<string>(BENCH.flatMap(({ says }) => says.cautions));
    expect(CAUTIONS.filter((caution) => !said.has(caution))).toEqual([]);
    const reasons = new Set<string>(['beyondReckoning', ...BENCH.flatMap(({ says }) => says.reasons)]);
    expect(IMPOSSIBLE_REASONS.filter((reason) => !reasons.has(reason))).toEqual([]);
  });
});

describe.each(BENCH.map((reckoning) => [reckoning.id, reckoning] as const))('%s', (_, reckoning) => {
  const names = new Set(reckoning.fields.map(({ name }) => name));

  it('is put together whole', () => {
    expect(names.size).toBe(reckoning.fields.length);
    const { answers, steps, cautions, reasons } = reckoning.says;
    for (const list of [answers, steps, cautions, reasons] as readonly (readonly string[])[]) {
      expect(new Set(list).size).toBe(list.length);
    }
    expect(reckoning.carriesOut === null).toBe(reckoning.amountAnswer === null);
    if (reckoning.amountAnswer !== null) expect(answers).toContain(reckoning.amountAnswer);
    for (const field of reckoning.fields) {
      if (field.onlyWhen) {
        const choice = reckoning.fields.find(({ name }) => name === field.onlyWhen?.field);
        expect(choice?.kind).toBe('choice');
        if (choice?.kind === 'choice') {
          for (const value of field.onlyWhen.is) expect(choice.choices).toContain(value);
        }
      }
      if (field.kind === 'choice') expect(field.choices).toContain(field.otherwise);
      else {
        const { low, high } = rangeOf(field);
        expect(low).toBeLessThan(high);
        if (field.otherwise !== null) {
          expect(field.otherwise).toBeGreaterThanOrEqual(low);
          expect(field.otherwise).toBeLessThanOrEqual(high);
          expect(field.required).toBe(false);
        }
      }
    }
  });

  it('answers plain values', () => {
    const result = reckoning.reckon(plainValues(reckoning));
    expect(result).toMatchObject({ ok: true });
  });

  it('names each required field that is left empty', () => {
    for (const field of reckoning.fields) {
      if (field.kind === 'choice' || !field.required) continue;
      const values = plainValues(reckoning, field.onlyWhen);
      const result = reckoning.reckon({ ...values, [field.name]: undefined });
      expect(result).toEqual({ ok: false, error: { type: 'Missing', fields: [field.name] } });
    }
    const result = reckoning.reckon({});
    const always = reckoning.fields.filter(
      (field) => field.kind !== 'choice' && field.required && !field.onlyWhen,
    );
    if (always.length > 0) {
      expect(result).toMatchObject({ error: { type: 'Missing' } });
      if (!result.ok && result.error.type === 'Missing') {
        expect(result.error.fields).toEqual(expect.arrayContaining(always.map(({ name }) => name)));
      }
    }
  });

  it('names the field of a number that is no number, and the range', () => {
    for (const field of reckoning.fields) {
      if (field.kind === 'choice') continue;
      for (const bad of [Number.NaN, Infinity, -Infinity]) {
        const result = reckoning.reckon({ ...plainValues(reckoning, field.onlyWhen), [field.name]: bad });
        expect(result).toMatchObject({ ok: false, error: { type: 'Outside', field: field.name } });
      }
    }
  });

  it('refuses a choice that is none, and text where a number belongs', () => {
    for (const field of reckoning.fields) {
      const values = { ...plainValues(reckoning, field.onlyWhen), [field.name]: 'nonsense' };
      expect(reckoning.reckon(values)).toMatchObject({ error: { type: 'Missing' } });
    }
  });

  it.each([
    ['within the fields', false],
    ['of every kind', true],
  ])(
    'never throws and never hands out a number that is none, for numbers %s',
    (__, wild) => {
      let answered = 0;
      fc.assert(
        fc.property(anyValues(reckoning, wild), (values) => {
          const result = reckoning.reckon(values);
          if (result.ok) answered += 1;
          const faults = result.ok
            ? answerFaults(reckoning, result.value)
            : refusalFaults(reckoning, result.error);
          // Asked of a hundred thousand results, so the matcher is called only where something is wrong.
          if (faults.length > 0) expect(faults).toEqual([]);
        }),
        { numRuns: 2000 },
      );
      // What is refused before it is reckoned with proves little.
      if (!wild) expect(answered).toBeGreaterThan(20);
    },
    60_000,
  );
});
