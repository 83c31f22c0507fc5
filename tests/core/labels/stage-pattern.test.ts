import { describe, expect, it } from 'vitest';
import { stagePattern } from '#core/labels/stage-pattern.ts';
import { FilledStage } from '#core/ledger/stage.ts';

describe('the pattern of a stage on a label', () => {
  it('is its own, and covers its square', () => {
    const patterns = FilledStage.options.map((stage) => stagePattern(stage, 10, 20, 7));
    expect(new Set(patterns.map(({ d }) => d)).size).toBe(patterns.length);
    for (const { d, weightMm } of patterns) {
      expect(d).toMatch(/^M[-\d.MHVZaqthvl ]+Z?$/u);
      expect(d).not.toContain('NaN');
      // Black alone: a line no thinner than any on a label, or a filled form.
      expect(weightMm === 0 || weightMm >= 0.3).toBe(true);
    }
  });
});
