import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { lineMeaning, type LineMeaning } from '#renderer/find/line-meaning.ts';
import { describe, expect, it } from 'vitest';

const meaningOf = (line: string, kept: readonly string[] = []): LineMeaning =>
  lineMeaning(line, METRIC_HOUSE, kept);

describe('a line in the one field', () => {
  it.each(['', '   ', '\t'])('means nothing when it is empty: %j', (line) => {
    expect(meaningOf(line).type).toBe('nothing');
  });

  it.each(['damson', 'A2', 'Kingston cider 1', 'perry 2025', 'A2 damson', '#7', 'cider (B1)'])(
    'is a search: %s',
    (line) => {
      expect(meaningOf(line).type).toBe('find');
    },
  );

  it.each([
    ['UC:AV-26-003', 'AV-26-003'],
    ['uc: av-26-003 ', 'av-26-003'],
    ['UC:', ''],
  ])('is a scanned label: %s', (line, code) => {
    expect(meaningOf(line)).toEqual({ type: 'label', code });
  });

  it('is a reading: a vessel, a gravity and a temperature', () => {
    const meaning = meaningOf('B1 1.010 19C');
    if (meaning.type !== 'chalk') throw new Error(meaning.type);
    expect(meaning.vesselCode).toBe('B1');
    expect(meaning.readings.map(({ kind, value }) => [kind, value])).toEqual([
      ['gravity', 1.01],
      ['temperature', 19],
    ]);
  });

  it('asks about a gravity above any must, and offers the likely one', () => {
    const meaning = meaningOf('B1 1.48 19C');
    if (meaning.type !== 'unclearChalk') throw new Error(meaning.type);
    expect(meaning.said.sentence).toContain('Did you mean 1.048?');
    expect(meaning.said.fixes).toContainEqual({ label: 'Use 1.048', text: 'B1 1.048 19C', how: 'use' });
    expect(meaning.said.fixes.at(-1)).toEqual({ label: 'Keep 1.48', text: '1.48', how: 'keep' });
  });

  it('takes an unlikely value only once it has been kept on purpose', () => {
    const meaning = meaningOf('B1 1.48 19C', ['1.48']);
    if (meaning.type !== 'chalk') throw new Error(meaning.type);
    expect(meaning.readings.map(({ kind, value }) => [kind, value])).toEqual([
      ['gravity', 1.48],
      ['temperature', 19],
    ]);
    const alone = meaningOf('B1 1.48', ['1.48']);
    expect(alone.type).toBe('chalk');
  });

  it('still asks about the second unlikely value when the first is kept', () => {
    const meaning = meaningOf('B1 1.48 pH 1.2', ['1.48']);
    if (meaning.type !== 'unclearChalk') throw new Error(meaning.type);
    expect(meaning.said.sentence).toContain('1.2');
  });

  it('does not offer to keep what the book could not hold', () => {
    const meaning = meaningOf('B1 pH 15');
    if (meaning.type !== 'unclearChalk') throw new Error(meaning.type);
    expect(meaning.said.fixes.some(({ how }) => how === 'keep')).toBe(false);
  });

  it('asks when one quantity is given twice', () => {
    const meaning = meaningOf('B1 1.010 1.012');
    if (meaning.type !== 'unclearChalk') throw new Error(meaning.type);
    expect(meaning.said.sentence).toContain('twice');
  });

  it('changes the faulty piece and leaves the vessel, even where they look alike', () => {
    const meaning = meaningOf('3 3');
    if (meaning.type !== 'unclearChalk') throw new Error(meaning.type);
    for (const fix of meaning.said.fixes) if (fix.how === 'use') expect(fix.text).toMatch(/^3 /u);
  });

  it.each(['B1 '.repeat(100), '9'.repeat(200), '\u0000\u202e B1', 'B1 1e999', "'; DROP TABLE vessel; --"])(
    'never throws: %j',
    (line) => {
      expect(() => meaningOf(line)).not.toThrow();
    },
  );
});
