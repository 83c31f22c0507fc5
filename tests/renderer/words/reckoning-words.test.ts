import { describe, expect, it } from 'vitest';
import { CAUTIONS, IMPOSSIBLE_REASONS } from '#core/reckonings/cautions.ts';
import { BENCH } from '#core/reckonings/bench.ts';
import { CHOICE_WORDS, FIELD_WORDS } from '#renderer/words/reckoning-fields.ts';
import { RECKONING_NAMES } from '#renderer/words/reckoning-names.ts';
import { ANSWER_WORDS, STEP_WORDS } from '#renderer/words/reckoning-results.ts';
import {
  sayAnswer,
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

describe('a number outside its range', () => {
  it('is told in litres and kilograms, whatever the book counts in', () => {
    const dilute = BENCH.find(({ id }) => id === 'diluteAlcohol');
    const result = dilute?.reckon({ volumeUl: 2e11, alcoholPercentVol: 12, targetPercentVol: 6 });
    if (!dilute || result?.ok !== false) throw new Error('Two hundred thousand litres must be refused.');
    expect(sayReckoningError(dilute, result.error)).toBe(
      'How much there is: 200000 lies outside 0.001 to 100000\u00A0L, which is as far as the bench reckons. Check the unit.',
    );
  });

  it('is told without a number when it is none', () => {
    const units = BENCH.find(({ id }) => id === 'convertUnits');
    const result = units?.reckon({ convert: 'mass', massUg: Number.NaN });
    if (!units || result?.ok !== false) throw new Error('No number must be refused.');
    expect(sayReckoningError(units, result.error)).toBe(
      'Weight: this lies outside 0 to 100000\u00A0kg, which is as far as the bench reckons. Check the unit.',
    );
  });
});

describe('a line of working', () => {
  it('has its value in its own unit', () => {
    const line = { name: 'x', working: '', source: '' };
    expect(sayStepValue({ ...line, value: 1.0442, unit: 'SG' })).toBe('1.0442');
    expect(sayStepValue({ ...line, value: 2.417, unit: 'pH' })).toBe('pH\u00A02.42');
    expect(sayStepValue({ ...line, value: 114.65, unit: 'g/L' })).toBe('115\u00A0g/L');
    expect(sayStepValue({ ...line, value: 0.6665, unit: 'L' })).toBe('0.667\u00A0L');
  });
});
