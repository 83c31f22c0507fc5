import { describe, expect, test } from 'vitest';
import { sayPanel } from '#renderer/words/chart-words.ts';

const DAY = 86_400_000;
const panel = (...ys: number[]) => ({
  ...{ title: 'Acidity', unit: 'g in 100 mL as acetic acid', decimals: 1 },
  points: ys.map((y, i) => ({ y, atMs: Date.UTC(2026, 9, 22, 12) + i * 7 * DAY })),
});

describe('what a chart says of itself', () => {
  test('from where to where, in how long, from how many readings', () => {
    expect(sayPanel(panel(0.9, 1.3, 2.2, 3.1, 4.1))).toBe(
      'Acidity rose from 0.9 to 4.1 in 28 days, five readings, g in 100 mL as acetic acid.',
    );
    expect(sayPanel({ ...panel(1.05, 1.01), title: 'Gravity', decimals: 3, unit: '' })).toBe(
      'Gravity fell from 1.050 to 1.010 in 7 days, two readings.',
    );
  });

  test('a value that did not move, one reading, and none', () => {
    expect(sayPanel(panel(2, 2.04))).toContain('stayed at 2.0');
    expect(sayPanel(panel(2))).toBe('Acidity was 2.0 on Oct 22, one reading, g in 100 mL as acetic acid.');
    expect(sayPanel(panel())).toBe('Acidity: no readings.');
  });
});
