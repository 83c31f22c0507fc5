import { describe, expect, it } from 'vitest';
import { CLOSURES, SILHOUETTES, STAGES } from '#core/ledger/stage.ts';
import { STAGE_PATTERNS, patternScale } from '#renderer/marks/stage-patterns.ts';
import { surfaceOf, vesselFigure } from '#renderer/marks/vessel-figure.ts';

const NUMBERS_ONLY = /^[MLHVQZACSTmlhvqzacst0-9.\- e]+$/;

describe('vessel drawings', () => {
  it('have only finite numbers in every stroke', () => {
    for (const silhouette of SILHOUETTES)
      for (const closure of CLOSURES)
        for (const stage of ['empty', 'vinegar'] as const) {
          const figure = vesselFigure({ silhouette, capacityUl: 80_000_000, stage, closure });
          const paths = [...figure.back, ...figure.front].map((stroke) => stroke.d);
          for (const d of [...paths, figure.liquid]) expect(d).toMatch(NUMBERS_ONLY);
        }
  });

  it('an empty vessel is a dashed outline without closure or sight glass', () => {
    const figure = vesselFigure({ silhouette: 'crock', capacityUl: 5e6, stage: 'empty', closure: 'lid' });
    expect(figure.front).toHaveLength(1);
    expect(figure.front[0]?.dash).toEqual([5, 3]);
    expect(figure.window).toBeNull();
  });

  it('an opaque vessel shows its level in a sight glass', () => {
    const figure = vesselFigure({ silhouette: 'cask', capacityUl: 30e6, stage: 'vinegar', closure: 'bung' });
    const { window } = figure;
    expect(window).not.toBeNull();
    if (window === null) return;
    expect(surfaceOf('cask', figure, 1).y).toBeCloseTo(window.y, 9);
    expect(surfaceOf('cask', figure, 0).y).toBeCloseTo(window.y + window.height, 9);
  });

  it('tells each closure from the others', () => {
    const drawn = CLOSURES.map((closure) =>
      JSON.stringify(
        vesselFigure({ silhouette: 'demijohn', capacityUl: 5e6, stage: 'yeast', closure }).front,
      ),
    );
    expect(new Set(drawn).size).toBe(CLOSURES.length);
  });

  it('marks a vessel larger than it is drawn', () => {
    const ask = { silhouette: 'cask', stage: 'ready', closure: 'bung' } as const;
    const drawn = vesselFigure({ ...ask, capacityUl: 60e6 }).front.length;
    expect(vesselFigure({ ...ask, capacityUl: 200e6 }).front.length).toBeGreaterThan(drawn);
  });
});

describe('stage patterns', () => {
  it('are all different, and absent only for empty and ready', () => {
    const drawn = STAGES.map((stage) => JSON.stringify(STAGE_PATTERNS[stage])).filter((t) => t !== 'null');
    expect(drawn).toHaveLength(STAGES.length - 2);
    expect(new Set(drawn).size).toBe(drawn.length);
  });

  it('shrink until at least two repeats fit, and never grow past the zoom', () => {
    expect(patternScale(14, 100)).toBe(1);
    expect(patternScale(14, 20)).toBeCloseTo(20 / 28, 9);
    expect(patternScale(14, 400, 2)).toBe(2);
  });
});
