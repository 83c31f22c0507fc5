import { describe, expect, it } from 'vitest';
import { CAUTIONS, IMPOSSIBLE_REASONS } from '#core/reckonings/cautions.ts';
import { BENCH } from '#core/reckonings/bench.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { CHOICE_WORDS, FIELD_WORDS } from '#renderer/words/reckoning-fields.ts';
import { RECKONING_NAMES } from '#renderer/words/reckoning-names.ts';
import { ANSWER_WORDS, STEP_WORDS } from '#renderer/words/reckoning-results.ts';
import {
  reckonedAsText,
  sayAnswer,
  sayAnswerValue,
  sayCarriesOut,
  sayCaution,
  sayChoice,
  sayField,
  sayReckoning,
  sayReckoningError,
  sayReckoningGroup,
  sayStep,
  sayStepValue,
} from '#renderer/words/reckoning-words.ts';

const US_HOUSE = { volume: 'us', temperature: 'F', gravity: 'SG' } as const;

/** A sentence a person reads: begins large, ends with a stop, has no name out of the code in it. */
function isSentence(text: string): boolean {
  return /^(?:[A-Z°0-9]|pH)/u.test(text) && /[.!]$/u.test(text) && !/[a-z][A-Z][a-z]/u.test(text);
}

describe('words for the bench', () => {
  it('are there for every reckoning, field, choice, answer and step', () => {
    const missing: string[] = [];
    for (const { id, fields, says } of BENCH) {
      if (!(id in RECKONING_NAMES)) missing.push(`reckoning ${id}`);
      for (const field of fields) {
        const own = `${id}.${field.name}`;
        if (!(own in FIELD_WORDS) && !(field.name in FIELD_WORDS)) missing.push(`field ${own}`);
        if (field.kind !== 'choice') continue;
        for (const choice of field.choices) {
          if (!(`${field.name}.${choice}` in CHOICE_WORDS) && !(choice in CHOICE_WORDS)) {
            missing.push(`choice ${field.name}.${choice}`);
          }
        }
      }
      for (const name of says.answers) {
        if (!(`${id}.${name}` in ANSWER_WORDS) && !(name in ANSWER_WORDS))
          missing.push(`answer ${id}.${name}`);
      }
      for (const name of says.steps) if (!(name in STEP_WORDS)) missing.push(`step ${id}.${name}`);
    }
    expect(missing).toEqual([]);
  });

  it('are there for nothing else', () => {
    const ids = new Set(BENCH.map(({ id }) => id));
    const under = (names: (reckoning: (typeof BENCH)[number]) => readonly string[]) =>
      new Set(BENCH.flatMap((one) => names(one).flatMap((name) => [name, `${one.id}.${name}`])));
    const fields = under(({ fields: all }) => all.map(({ name }) => name));
    const answers = under(({ says }) => says.answers);
    const steps = under(({ says }) => says.steps);
    const choices = new Set(
      BENCH.flatMap(({ fields: all }) =>
        all.flatMap((field) =>
          field.kind === 'choice' ? field.choices.flatMap((one) => [one, `${field.name}.${one}`]) : [],
        ),
      ),
    );
    expect(Object.keys(RECKONING_NAMES).filter((id) => !ids.has(id))).toEqual([]);
    expect(Object.keys(FIELD_WORDS).filter((name) => !fields.has(name))).toEqual([]);
    expect(Object.keys(CHOICE_WORDS).filter((name) => !choices.has(name))).toEqual([]);
    expect(Object.keys(ANSWER_WORDS).filter((name) => !answers.has(name))).toEqual([]);
    expect(Object.keys(STEP_WORDS).filter((name) => !steps.has(name))).toEqual([]);
  });

  it('name each reckoning apart, and say what it is for', () => {
    const names = BENCH.map(({ id }) => sayReckoning(id).name);
    expect(new Set(names).size).toBe(names.length);
    for (const { id, group, carriesOut } of BENCH) {
      expect(sayReckoning(id).purpose).toSatisfy(isSentence);
      expect(sayReckoningGroup(group)).not.toBe('');
      if (carriesOut !== null) expect(sayCarriesOut(carriesOut)).toMatch(/^(Add|Seed)/u);
    }
  });

  it('tell the fields of one form apart, each with a hint', () => {
    for (const { id, fields } of BENCH) {
      const labels = fields.map(({ name }) => sayField(id, name).label);
      expect(new Set(labels).size, id).toBe(labels.length);
      for (const { name } of fields) expect(sayField(id, name).hint, `${id}.${name}`).toSatisfy(isSentence);
    }
  });

  it('tell the choices of one field apart', () => {
    for (const { fields } of BENCH) {
      for (const field of fields) {
        if (field.kind !== 'choice') continue;
        const said = field.choices.map((one) => sayChoice(field.name, one));
        expect(new Set(said).size, field.name).toBe(said.length);
      }
    }
  });

  it('tell the answers of one result apart', () => {
    for (const { id, says } of BENCH) {
      const said = says.answers.map((name) => sayAnswer(id, name));
      expect(new Set(said).size, id).toBe(said.length);
      for (const name of says.steps) expect(sayStep(name)).not.toBe(name);
    }
  });

  it('are whole sentences for every caution', () => {
    const said = CAUTIONS.map((caution) => sayCaution(caution));
    for (const { sentence, ruleId } of said) {
      expect(sentence).toSatisfy(isSentence);
      if (ruleId !== null) expect(ruleId).toMatch(/^[A-Z0-9]+-\d\d$/u);
    }
    expect(new Set(said.map(({ sentence }) => sentence)).size).toBe(CAUTIONS.length);
  });

  it.each(IMPOSSIBLE_REASONS)('are a whole sentence when it cannot be: %s', (reason) => {
    const numbers = new Proxy<Record<string, number>>({}, { get: () => 1.5 });
    const sentence = sayReckoningError({ id: 'titration' }, { type: 'Impossible', reason, numbers });
    expect(sentence).toSatisfy((text: string) => isSentence(text) || /^pH/u.test(text));
    expect(sentence).not.toMatch(/\?|NaN|undefined/u);
  });

  it('name the empty fields, and the range of a number outside it with its source', () => {
    expect(sayReckoningError({ id: 'titration' }, { type: 'Missing', fields: ['sampleMl', 'baseMl'] })).toBe(
      'Still to fill in: Sample, Hydroxide used.',
    );
    expect(
      sayReckoningError(
        { id: 'correctHydrometer' },
        {
          type: 'Outside',
          field: 'temperatureCelsius',
          range: {
            type: 'OutOfRange',
            quantity: 'temperatureCelsius',
            value: 55,
            low: 0,
            high: 40,
            unit: '°C',
            source: 'ICUMSA SPS-4',
          },
        },
      ),
    ).toBe(
      'Temperature of the sample: 55 lies outside 0 to 40\u00A0°C, where this can be worked out (ICUMSA SPS-4).',
    );
  });
});

describe('an answer as the household reads it', () => {
  const answer = { name: 'x', uncertainty: null, limit: null, range: null } as const;

  it('carries its error, and is not rounded to the flattering side', () => {
    expect(
      sayAnswerValue(
        { ...answer, value: 4.06, uncertainty: 0.31, unit: 'acidity', limit: 'lower' },
        METRIC_HOUSE,
      ),
    ).toEqual({ value: '4.0 ± 0.4\u00A0%', range: null });
    expect(
      sayAnswerValue({ ...answer, value: 3.96, unit: 'volumes', limit: 'upper' }, METRIC_HOUSE).value,
    ).toBe('3.96\u00A0volumes');
  });

  it('is in the measures of the house', () => {
    const water = { ...answer, value: 3_785_411.784, unit: 'volume' } as const;
    expect(sayAnswerValue(water, METRIC_HOUSE).value).toBe('3.79\u00A0L');
    expect(sayAnswerValue(water, US_HOUSE).value).toBe('1\u00A0gal');
    expect(sayAnswerValue({ ...water, uncertainty: 100_000 }, METRIC_HOUSE).value).toBe('3.79 ± 0.10\u00A0L');
    const warmth = { ...answer, value: 20, uncertainty: 1, unit: 'temperature' } as const;
    expect(sayAnswerValue(warmth, US_HOUSE).value).toBe('68.0 ± 1.8\u00A0°F');
    const sugar = { ...answer, value: 1e9, unit: 'mass' } as const;
    expect(sayAnswerValue(sugar, METRIC_HOUSE).value).toBe('1\u00A0kg');
    expect(sayAnswerValue(sugar, US_HOUSE).value).toBe('2.2\u00A0lb');
  });

  it('shows a range from low to high, rounded outward', () => {
    const juice = {
      ...answer,
      value: 30e6,
      unit: 'volume',
      range: { low: 24.96e6, high: 35.01e6 },
    } as const;
    expect(sayAnswerValue(juice, METRIC_HOUSE)).toEqual({ value: '30\u00A0L', range: '24.9 to 35.1\u00A0L' });
  });

  it('gives the value of a line of working in its own unit', () => {
    const line = { name: 'x', working: '', source: '' };
    expect(sayStepValue({ ...line, value: 1.0442, unit: 'SG' })).toBe('1.0442');
    expect(sayStepValue({ ...line, value: 114.65, unit: 'g/L' })).toBe('115\u00A0g/L');
  });

  it('can be copied as plain text with its working, its sources and its cautions', () => {
    const dilute = BENCH.find(({ id }) => id === 'diluteToStrength');
    const result = dilute?.reckon({ volumeUl: 4e6, acidityGramsPer100Ml: 6.3 });
    if (!dilute || !result?.ok) throw new Error('The example must be answered.');
    const text = reckonedAsText(dilute, result.value, METRIC_HOUSE);
    expect(text).toContain('Dilute a vinegar');
    expect(text).toContain('Water to add, on the safe side');
    expect(text).toContain('4 L × (6.3 ÷ 5 − 1) = 1.04\u00A0L [mass balance c₁V₁ = c₂V₂]');
    expect(text).toContain('never for canning');
  });
});
