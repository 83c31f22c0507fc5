import { ordinal, sayFed, sayKeptIn, sayPulls, sayWorking } from '#renderer/words/culture-words.ts';
import { describe, expect, it } from 'vitest';

describe('the words for a culture', () => {
  it('say where it is kept', () => {
    const at = (spot: string | null, number: number) => ({ spot, number });
    expect(sayKeptIn([])).toBe('not in a jar of its own');
    expect(sayKeptIn([at('A1', 1)])).toBe('kept in A1');
    expect(sayKeptIn([at('A1', 1), at(null, 7)])).toBe('kept in A1 and vessel 7');
    expect(sayKeptIn([at('A1', 1), at('A2', 2), at('A3', 3)])).toBe('kept in A1, A2 and A3');
    expect(sayKeptIn([1, 2, 3, 4].map((n) => at(`A${n}`, n)))).toBe('kept in 4 vessels');
  });

  it('say when it was fed, how often divided, and where it works', () => {
    const now = new Date(2026, 10, 25, 12).getTime();
    expect(sayFed(null, now)).toBe('not fed yet');
    expect(sayFed(now - 9 * 86_400_000, now)).toBe('fed 9 d ago');
    expect(sayPulls(0)).toBe('no pulls yet');
    expect(sayPulls(1)).toBe('1 pull');
    expect(sayWorking(0)).toBe('');
    expect(sayWorking(2)).toBe('at work in 2 vessels');
  });

  it.each([
    [1, '1st'],
    [2, '2nd'],
    [3, '3rd'],
    [4, '4th'],
    [11, '11th'],
    [12, '12th'],
    [13, '13th'],
    [21, '21st'],
    [112, '112th'],
  ])('count %i as %s', (n, said) => {
    expect(ordinal(n)).toBe(said);
  });
});
