import { BENCH } from '#core/reckonings/bench.ts';
import type { Reckoning } from '#core/reckonings/reckoning.ts';
import { BenchForm } from '#renderer/bench/bench-form.svelte.ts';
import { EXAMPLES } from '#renderer/bench/examples.ts';
import { keptSheets } from '#renderer/bench/kept-sheets.svelte.ts';
import { fittingVessel, likeliest, listed } from '#renderer/bench/reckoning-list.ts';
import { beforeEach, describe, expect, it } from 'vitest';

function reckoning(id: string): Reckoning {
  const found = BENCH.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no reckoning ${id}`);
  return found;
}
const dilute = (key = 'bench:test'): BenchForm => new BenchForm(reckoning('diluteToStrength'), key);

beforeEach(() => {
  localStorage.clear();
});

describe('every reckoning', () => {
  it.each(BENCH.map(({ id }) => id))('%s has an example that comes to an answer', (id) => {
    const form = new BenchForm(reckoning(id), `bench:${id}`);
    expect(EXAMPLES[id]).toBeDefined();
    form.lay(EXAMPLES[id] ?? {});
    expect(form.outcome.type).toBe('reckoned');
  });

  it.each(BENCH.map(({ id }) => id))('%s names what is missing while nothing is typed', (id) => {
    const { outcome } = new BenchForm(reckoning(id), `bench:${id}`);
    expect(['missing', 'reckoned']).toContain(outcome.type);
  });
});

describe('a form on the bench', () => {
  it('works out while typing, and says what to mend', () => {
    const form = dilute();
    expect(form.outcome).toEqual({ type: 'missing', fields: ['volumeUl', 'acidityGramsPer100Ml'] });
    form.fields['volumeUl'] = '4.5 L';
    form.fields['acidityGramsPer100Ml'] = 'sour';
    expect(form.outcome).toEqual({ type: 'mend', fields: ['acidityGramsPer100Ml'] });
    form.fields['acidityGramsPer100Ml'] = '6.4';
    expect(form.outcome.type).toBe('reckoned');
    form.fields['acidityGramsPer100Ml'] = '4.1';
    expect(form.outcome.type).toBe('impossible');
    expect(form.outcome.type === 'impossible' && form.outcome.sentence).toContain('Add no water');
  });

  it('lays a value outside the range at its field, once the typing has stopped', () => {
    const form = dilute();
    form.lay({ volumeUl: '4 L', acidityGramsPer100Ml: '6 %', acidityUncertainty: '9' });
    expect(form.outcome).toEqual({ type: 'mend', fields: ['acidityUncertainty'] });
    expect(form.problemOf('acidityUncertainty')).toBeNull();
    form.settled = JSON.stringify(form.fields);
    expect(form.problemOf('acidityUncertainty')?.sentence).toContain('outside 0 to 5');
  });

  it('keeps a draft of what was typed and nothing of what the vessel tells', () => {
    const form = dilute();
    form.fill({ volumeUl: '1.7 L', acidityGramsPer100Ml: '5.8 % as acetic' });
    expect(form.fields['volumeUl']).toBe('1.7 L');
    form.fields['acidityGramsPer100Ml'] = '6.4 %';
    form.keepDraft();
    const again = dilute();
    expect(again.fields['volumeUl']).toBe('');
    again.fill({ volumeUl: '1.6 L', acidityGramsPer100Ml: '5.9 % as acetic' });
    expect(again.fields['volumeUl']).toBe('1.6 L');
    expect(again.fields['acidityGramsPer100Ml']).toBe('6.4 %');
    again.putBack('acidityGramsPer100Ml');
    again.keepDraft();
    expect(dilute().isUntouched()).toBe(true);
  });

  it('takes newer readings where nothing was changed, and leaves a what-if', () => {
    const form = dilute();
    form.fill({ volumeUl: '1.7 L', acidityGramsPer100Ml: '5.8 % as acetic' });
    form.fields['volumeUl'] = '1.5 L';
    form.fill({ volumeUl: '1.6 L', acidityGramsPer100Ml: '5.4 % as acetic' });
    expect(form.fields).toMatchObject({ volumeUl: '1.5 L', acidityGramsPer100Ml: '5.4 % as acetic' });
    form.startAfresh();
    expect(form.fields).toMatchObject({ volumeUl: '1.6 L', acidityGramsPer100Ml: '5.4 % as acetic' });
  });

  it('throws away a draft of a choice that is no more', () => {
    localStorage.setItem(
      'undercroft.draft.bench:test',
      '{"measuredBy":"tongue","volumeUl":"3 L","gone":"x"}',
    );
    const form = dilute();
    expect(form.fields).toMatchObject({ measuredBy: 'taSyringeKit', volumeUl: '3 L' });
    expect(form.fields['gone']).toBeUndefined();
  });
});

describe('the list', () => {
  it('finds by words of the name, the purpose and the fields, without case or accents', () => {
    const ids = (text: string): string[] =>
      listed(BENCH, text).flatMap((g) => g.reckonings.map(({ id }) => id));
    expect(ids('')).toHaveLength(BENCH.length);
    expect(ids('DILUTE vinegar')).toContain('diluteToStrength');
    expect(ids('°Brix')).toContain('convertSugar');
    expect(ids('nothing like it')).toEqual([]);
  });

  it('means the one whose name has the words', () => {
    expect(likeliest(BENCH, 'dilute vinegar')?.id).toBe('diluteToStrength');
    expect(likeliest(BENCH, 'titration')?.id).toBe('titration');
    expect(likeliest(BENCH, 'nothing like it')).toBeNull();
  });

  it('names those that a vessel’s readings fill', () => {
    const ids = fittingVessel(BENCH, (value) => value === 'acidity').map(({ id }) => id);
    expect(ids).toContain('diluteToStrength');
    expect(ids).not.toContain('potentialAlcohol');
  });
});

describe('sheets kept on the bench', () => {
  const sheet = (name: string, keptAtMs: number) => ({
    ...{ name, reckoningId: 'diluteToStrength', vesselId: null, keptAtMs },
    fields: { volumeUl: '4 L' },
  });

  it('come back after a reload, newest first, those of one cellar only', () => {
    keptSheets.open('/a/home.undercroft');
    keptSheets.keep(sheet('First', 1));
    keptSheets.keep(sheet('Second', 2));
    keptSheets.open('/b/other.undercroft');
    expect(keptSheets.sheets).toEqual([]);
    keptSheets.open('/a/home.undercroft');
    expect(keptSheets.sheets.map(({ name }) => name)).toEqual(['Second', 'First']);
    expect(keptSheets.sheets[0]?.fields).toEqual({ volumeUl: '4 L' });
  });

  it('take the place of one with the same name, and can be laid back when taken off', () => {
    keptSheets.open('/c/home.undercroft');
    keptSheets.keep(sheet('Mine', 1));
    const again = keptSheets.keep(sheet('Mine', 5));
    expect(keptSheets.sheets).toHaveLength(1);
    keptSheets.takeOff(again);
    expect(keptSheets.sheets).toEqual([]);
    keptSheets.layBack();
    expect(keptSheets.sheets.map(({ keptAtMs }) => keptAtMs)).toEqual([5]);
  });

  it('are read past a broken one', () => {
    localStorage.setItem(
      'undercroft.draft.bench-sheets:/d',
      JSON.stringify({
        one: 'not json',
        two: '{"id":"x"}',
        three: JSON.stringify({ id: 'three', ...sheet('Whole', 3) }),
      }),
    );
    keptSheets.open('/d');
    expect(keptSheets.sheets.map(({ name }) => name)).toEqual(['Whole']);
  });
});
