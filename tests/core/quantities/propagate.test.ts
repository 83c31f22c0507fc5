import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { err, mustSucceed, ok } from '#core/base/result.ts';
import { titratableAcidity } from '#core/acid/titration.ts';
import { alcoholFromGravities } from '#core/must/attenuation.ts';
import { fermentableSugar } from '#core/must/must-sugar.ts';
import { molecularSulfite } from '#core/acid/sulfite.ts';
import { combineRelative, propagate, type Uncertain } from '#core/quantities/propagate.ts';

/** A fixed stream of pairs of normal deviates (Box and Muller) from a 32-bit congruential generator. */
function normalDeviates(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return (state + 0.5) / 4_294_967_296;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

function monteCarlo<Name extends string>(
  f: (values: Readonly<Record<Name, number>>) => number,
  inputs: Readonly<Record<Name, Uncertain>>,
): Uncertain {
  const deviate = normalDeviates(20261125);
  const names = Object.keys(inputs) as Name[];
  const draws = 40_000;
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < draws; i += 1) {
    const values = Object.fromEntries(
      names.map((name) => [name, inputs[name].value + (deviate() * inputs[name].uncertainty) / 2]),
    ) as Record<Name, number>;
    const value = f(values);
    sum += value;
    squares += value * value;
  }
  const mean = sum / draws;
  return { value: mean, uncertainty: 2 * Math.sqrt(squares / draws - mean * mean) };
}

describe('the uncertainty of a result', () => {
  it('of a sum is the root of the squares, whatever the weights', () => {
    const weighed = propagate(({ a, b }: Readonly<Record<'a' | 'b', number>>) => ok(3 * a - 2 * b), {
      a: { value: 10, uncertainty: 0.4 },
      b: { value: 5, uncertainty: 0.3 },
    });
    expect(mustSucceed(weighed).value).toBe(20);
    expect(mustSucceed(weighed).uncertainty).toBeCloseTo(Math.hypot(1.2, 0.6), 9);
    expect(mustSucceed(weighed).shares.a).toBeCloseTo(0.8, 9);
  });

  it.each([
    [
      'a titration',
      (v: Readonly<Record<string, number>>) =>
        titratableAcidity({
          baseMl: v['baseMl'] ?? 0,
          normality: v['normality'] ?? 0,
          sampleMl: v['sampleMl'] ?? 0,
          acid: 'acetic',
        }),
      {
        baseMl: { value: 8.3, uncertainty: 0.05 },
        normality: { value: 0.5, uncertainty: 0.015 },
        sampleMl: { value: 5, uncertainty: 0.1 },
      },
    ],
    [
      'molecular sulfite',
      (v: Readonly<Record<string, number>>) =>
        molecularSulfite({ freeMgPerLitre: v['free'] ?? 0, pH: v['pH'] ?? 0 }),
      { free: { value: 40, uncertainty: 10 }, pH: { value: 3.5, uncertainty: 0.05 } },
    ],
    [
      'sugar from °Brix',
      (v: Readonly<Record<string, number>>) => {
        const sugar = fermentableSugar({ brix: v['brix'] ?? 0, of: 'apple' });
        return sugar.ok ? ok(sugar.value.midGramsPerLitre) : sugar;
      },
      { brix: { value: 12, uncertainty: 0.3 } },
    ],
  ])('agrees with a Monte Carlo for %s', (_, f, inputs: Readonly<Record<string, Uncertain>>) => {
    const firstOrder = mustSucceed(propagate(f, inputs));
    const drawn = monteCarlo((values) => mustSucceed(f(values)), inputs);
    expect(Math.abs(firstOrder.value - drawn.value)).toBeLessThan(0.05 * firstOrder.uncertainty);
    expect(firstOrder.uncertainty / drawn.uncertainty).toBeGreaterThan(0.96);
    expect(firstOrder.uncertainty / drawn.uncertainty).toBeLessThan(1.04);
  });

  it('agrees with a Monte Carlo for alcohol from gravities, within the steps of the excise table', () => {
    const inputs = {
      originalGravity: { value: 1.05, uncertainty: 0.002 },
      presentGravity: { value: 0.9985, uncertainty: 0.002 },
    };
    const firstOrder = mustSucceed(propagate(alcoholFromGravities, inputs));
    const drawn = monteCarlo((values) => mustSucceed(alcoholFromGravities(values)), inputs);
    expect(Math.abs(firstOrder.value - drawn.value)).toBeLessThan(0.05);
    expect(firstOrder.uncertainty / drawn.uncertainty).toBeGreaterThan(0.85);
    expect(firstOrder.uncertainty / drawn.uncertainty).toBeLessThan(1.15);
  });

  it('uses the one side that is valid at the edge of a range, and fails where there is none', () => {
    const edge = (low: number, high: number) => (values: Readonly<Record<'x', number>>) =>
      values.x >= low && values.x <= high ? ok(2 * values.x) : err('outside' as const);
    const x = { value: 5, uncertainty: 1 };
    expect(mustSucceed(propagate(edge(5, 9), { x })).uncertainty).toBeCloseTo(2, 9);
    expect(mustSucceed(propagate(edge(0, 5), { x })).uncertainty).toBeCloseTo(2, 9);
    expect(propagate(edge(5, 5), { x })).toEqual({ ok: false, error: 'outside' });
    expect(propagate(edge(6, 9), { x })).toEqual({ ok: false, error: 'outside' });
  });

  it('is nothing where nothing is uncertain, and never less than nothing', () => {
    const square = (values: Readonly<Record<'x', number>>) => ok(values.x ** 2);
    expect(mustSucceed(propagate(square, { x: { value: 3, uncertainty: 0 } }))).toEqual({
      value: 9,
      uncertainty: 0,
      shares: { x: 0 },
    });
    fc.assert(
      fc.property(
        fc.double({ min: -100, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        (value, uncertainty) => {
          expect(
            mustSucceed(propagate(square, { x: { value, uncertainty } })).uncertainty,
          ).toBeGreaterThanOrEqual(0);
        },
      ),
    );
  });

  it('of a product adds relative parts in quadrature', () => {
    expect(combineRelative([0.03, 0.04])).toBeCloseTo(0.05, 12);
    expect(combineRelative([])).toBe(0);
  });
});
