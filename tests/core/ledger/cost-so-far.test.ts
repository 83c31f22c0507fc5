import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Act } from '#core/ledger/act.ts';
import {
  costSoFar,
  PARTS_OF_A_HUNDREDTH,
  type CostEntry,
  type CostShares,
} from '#core/ledger/cost-so-far.ts';
import type { EntryId } from '#core/ledger/ids.ts';

const vessel = (n: number): string => `01890000-0000-7000-8000-00000000000${n}`;
const batch = (n: number): string => `01890000-0000-7000-8000-00000000010${n}`;

let sequence = 0;
const entry = (act: unknown, postings: [string, number][]): CostEntry => ({
  id: `entry ${(sequence += 1)}` as EntryId,
  happenedAtMs: sequence,
  act: act as Act,
  postings: postings.map(([account, deltaUl]) => ({ account, deltaUl })),
});
const start = (at: number, ul: number, ...costs: (number | null)[]): CostEntry =>
  entry(
    {
      kind: 'startBatch',
      batchId: batch(at),
      vesselId: vessel(at),
      ingredients: costs.map((cost, i) => ({
        ...{ name: `thing ${i}`, amountTyped: '', massUg: null },
        ...(cost === null ? {} : { costHundredths: cost }),
      })),
    },
    [
      ['store', -ul],
      [vessel(at), ul],
    ],
  );
const pour = (from: number, to: number, ul: number, lees = 0, newBatch: string | null = null): CostEntry =>
  entry(
    {
      kind: 'transfer',
      ...{ fromVesselId: vessel(from), toVesselId: vessel(to) },
      newBatch: newBatch === null ? null : { batchId: newBatch },
    },
    [
      [vessel(from), -ul - lees],
      [vessel(to), ul],
      ['lees', lees],
    ],
  );
const out = (kind: string, from: number, ul: number, account: string, lost = 0): CostEntry =>
  entry({ kind, vesselId: vessel(from) }, [
    [vessel(from), -ul - lost],
    [account, ul],
    ['loss', lost],
  ]);
const sum = (shares: CostShares | undefined): number =>
  [...(shares?.values() ?? [])].reduce((a, b) => a + b, 0) / PARTS_OF_A_HUNDREDTH;

describe('costs followed through the cellar', () => {
  it('stand in the vessel, whole, with what has no cost named beside', () => {
    const costs = costSoFar([start(1, 4_000_000, 400, null, 150)]);
    expect(sum(costs.vessels.get(vessel(1)))).toBe(550);
    expect(costs.lines.map(({ costHundredths }) => costHundredths)).toEqual([400, null, 150]);
    expect(costs.vessels.get(vessel(1))?.size).toBe(3);
  });

  it('are divided by volume when a part is moved, and lees leave theirs to the rest', () => {
    const costs = costSoFar([start(1, 4_000_000, 900), pour(1, 2, 2_000_000, 1_000_000, batch(2))]);
    expect(sum(costs.vessels.get(vessel(1)))).toBe(300);
    expect(sum(costs.vessels.get(vessel(2)))).toBe(600);
  });

  it('go into bottles, with the loss of bottling borne by the bottles when nothing is left', () => {
    const start1 = start(1, 3_000_000, 1000);
    const bottled = out('bottle', 1, 2_800_000, 'bottles', 200_000);
    const costs = costSoFar([start1, bottled]);
    expect(sum(costs.lots.get(bottled.id))).toBe(1000);
    expect(costs.vessels.size).toBe(0);
  });

  it('are drunk with what is drawn off, and stay with the rest when a sample is thrown away', () => {
    const drawn = costSoFar([start(1, 2_000_000, 1000), out('drawOff', 1, 500_000, 'drawn')]);
    expect(sum(drawn.vessels.get(vessel(1)))).toBe(750);
    expect(sum(drawn.drawn.get(batch(1)))).toBe(250);
    const sampled = costSoFar([start(1, 2_000_000, 1000), out('sample', 1, 500_000, 'samples')]);
    expect(sum(sampled.vessels.get(vessel(1)))).toBe(1000);
  });

  it('of what is added later come to all that stands there', () => {
    const sugar = entry(
      {
        kind: 'addTo',
        vesselId: vessel(1),
        ingredient: { name: 'sugar', amountTyped: '1 kg', costHundredths: 120 },
      },
      [],
    );
    const costs = costSoFar([start(1, 1_000_000, 100), sugar, pour(1, 2, 500_000)]);
    expect(sum(costs.vessels.get(vessel(2)))).toBe(110);
    expect(costs.lines).toHaveLength(2);
  });

  it('liquid from a vessel whose history is not there says so, and adds nothing', () => {
    const costs = costSoFar([start(1, 1_000_000, 100), pour(3, 1, 500_000)]);
    expect(costs.unfollowed).toBe(1);
    expect(sum(costs.vessels.get(vessel(1)))).toBe(100);
  });

  it('nothing is lost or made however often it is divided and blended', () => {
    const pours = fc.array(
      fc.record({
        from: fc.integer({ min: 1, max: 4 }),
        to: fc.integer({ min: 1, max: 4 }),
        ul: fc.integer({ min: 1, max: 900_000 }),
      }),
      { maxLength: 40 },
    );
    fc.assert(
      fc.property(pours, fc.integer({ min: 0, max: 1_000_000_000 }), (all, cost) => {
        const held = new Map([1, 2, 3, 4].map((n) => [n, 1_000_003]));
        const entries = [1, 2, 3, 4].map((n) => start(n, 1_000_003, cost, null));
        for (const { from, to, ul } of all) {
          const much = Math.min(ul, (held.get(from) ?? 0) - 1);
          if (from === to || much < 1) continue;
          held.set(from, (held.get(from) ?? 0) - much);
          held.set(to, (held.get(to) ?? 0) + much);
          entries.push(pour(from, to, much));
        }
        const costs = costSoFar(entries);
        const parts = [...costs.vessels.values()].flatMap((shares) => [...shares.values()]);
        expect(parts.reduce((a, b) => a + BigInt(b), 0n)).toBe(
          4n * BigInt(cost) * BigInt(PARTS_OF_A_HUNDREDTH),
        );
        expect(parts.every((part) => Number.isSafeInteger(part) && part >= 0)).toBe(true);
      }),
    );
  });
});
