import { describe, expect, it } from 'vitest';
import { FERMENTS } from '#core/ferments/registry.ts';
import { closureConcern } from '#core/schedule/closure-concern.ts';
import { DAY_MS, dueChecks, type StandingFacts } from '#core/schedule/due-check.ts';

// Intervals are common practice, no source; two equal gravities 48 h apart is rule PRS-01 of the safety rules.
const facts = (over: Partial<StandingFacts>): StandingFacts => ({
  ...{ profile: FERMENTS.fruitVinegar, stage: 'yeast', stageSinceMs: 0, closure: 'airlock' },
  closureSinceMs: null,
  ...{ gravities: [], lastDoneMs: {}, acidity: null, ph: null },
  ...over,
});
const gravity = (day: number, sg: number) => ({ atMs: day * DAY_MS, sg });

describe('what is due', () => {
  it('a new must waits for its yeast: best on the first day, late after the second', () => {
    const [due] = dueChecks(facts({ stage: 'waiting' }));
    expect(due).toMatchObject({ act: 'pitch', idealMs: DAY_MS, latestMs: 2 * DAY_MS });
  });

  it('counts from the last reading', () => {
    const [due] = dueChecks(facts({ gravities: [gravity(5, 1.03)], lastDoneMs: { gravity: 5 * DAY_MS } }));
    expect(due).toMatchObject({ act: 'gravity', idealMs: 7 * DAY_MS });
  });

  it('two equal gravities two days apart, low: rack, and no further gravity', () => {
    const due = dueChecks(facts({ gravities: [gravity(14, 1.002), gravity(12, 1.002), gravity(9, 1.01)] }));
    expect(due.map((d) => d.act)).toEqual(['rack']);
    expect(due[0]).toMatchObject({ why: 'gravityStands', idealMs: 17 * DAY_MS });
  });

  it('equal but high: look, it may be stuck', () => {
    const due = dueChecks(facts({ gravities: [gravity(14, 1.03), gravity(12, 1.03)] }));
    expect(due.find((d) => d.why === 'gravityStandsHigh')).toMatchObject({ act: 'look' });
  });

  it.each([
    ['a day apart', [gravity(13, 1.002), gravity(12, 1.002)]],
    ['two points apart', [gravity(14, 1.002), gravity(12, 1.004)]],
    ['a bump between', [gravity(14, 1.002), gravity(13, 1.006), gravity(12, 1.002)]],
    ['one reading', [gravity(14, 1.002)]],
  ])('does not call it still: %s', (_, gravities) => {
    expect(dueChecks(facts({ gravities })).some((d) => d.act === 'rack')).toBe(false);
  });

  it('a vinegar at its aim is to be bottled; one below it is not', () => {
    const at = (gramsPer100Ml: number) =>
      dueChecks(facts({ stage: 'vinegar', closure: 'cloth', acidity: { atMs: 0, gramsPer100Ml } })).map(
        (d) => d.act,
      );
    expect(at(5)).toContain('bottle');
    expect(at(4.99)).not.toContain('bottle');
  });

  it('a crock under the acid line is tested weekly, above it daily', () => {
    const crock = (ph: number, uncertainty: number | null = 0.1) =>
      dueChecks(
        facts({
          ...{ profile: FERMENTS.brinedVegetables, stage: 'lactic', closure: 'lid' },
          ...{ ph: { atMs: 0, ph, uncertainty }, lastDoneMs: { ph: 0 } },
        }),
      )[0]?.idealMs;
    expect(crock(4.6)).toBe(DAY_MS);
    expect(crock(4.49)).toBe(7 * DAY_MS);
    // Within its error of the line it is read daily, as its pH then counts for a day (MEAS-04).
    expect(crock(4.5)).toBe(DAY_MS);
    expect(crock(4.3, 0.3)).toBe(DAY_MS);
    expect(crock(3.5, null)).toBe(DAY_MS);
  });

  it('nothing is due of what is ready', () => {
    expect(dueChecks(facts({ stage: 'ready' }))).toEqual([]);
  });
});

describe('air', () => {
  it.each([
    ['airlock', 'vinegar', 'motherWithoutAir'],
    ['lid', 'vinegar', 'motherWithoutAir'],
    ['cloth', 'vinegar', null],
    ['cloth', 'yeast', 'yeastOpenToAir'],
    ['open', 'yeast', 'yeastOpenToAir'],
    ['airlock', 'yeast', null],
    ['cork', 'ready', null],
  ] as const)('%s over %s: %s', (closure, stage, concern) => {
    expect(closureConcern(closure, stage, 'fruitVinegar')).toBe(concern);
  });

  it.each([
    ['before the stage began', 3, 8],
    ['after it', 11, 11],
    ['at a time the book does not tell', null, 8],
  ])('a closure put on %s counts from the later of the two', (_, closedOnDay, sinceDay) => {
    const [due] = dueChecks(
      facts({
        ...{ stage: 'vinegar', stageSinceMs: 8 * DAY_MS, closure: 'lid', profile: FERMENTS.fruitVinegar },
        closureSinceMs: closedOnDay === null ? null : closedOnDay * DAY_MS,
      }),
    ).filter((d) => d.why === 'closureAgainstStage');
    expect(due).toMatchObject({ earliestMs: sinceDay * DAY_MS, latestMs: (sinceDay + 1) * DAY_MS });
  });
});
