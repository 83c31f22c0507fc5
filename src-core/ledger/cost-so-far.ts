import type { Act } from './act.ts';
import { largestRemainder, muldiv } from './allocate.ts';
import type { EntryId } from './ids.ts';
import type { Posting } from './postings.ts';

/** Parts of a hundredth of the currency that are still told apart, so that shares of a cost lose nothing worth naming. */
export const PARTS_OF_A_HUNDREDTH = 10_000;

/** One thing that went in, with what it cost as far as that was told. */
export interface CostLine {
  readonly entryId: EntryId;
  readonly atMs: number;
  readonly name: string;
  readonly amountTyped: string;
  readonly costHundredths: number | null;
}

/** A line of the book as the reckoning of costs reads it; only those that stand, in the order they were written. */
export interface CostEntry {
  readonly id: EntryId;
  readonly happenedAtMs: number;
  readonly act: Act;
  readonly postings: readonly Posting[];
}

/** What of each line's cost lies in some liquid, in parts of a hundredth. Lines without a cost are there with nothing. */
export type CostShares = ReadonlyMap<number, number>;

export interface Costs {
  readonly lines: readonly CostLine[];
  /** Cost in what stands in each vessel at the end. */
  readonly vessels: ReadonlyMap<string, CostShares>;
  /** Cost in the bottles filled by each entry, when they were filled. */
  readonly lots: ReadonlyMap<EntryId, CostShares>;
  /** Cost in what was drawn off or given away, by batch. */
  readonly drawn: ReadonlyMap<string, CostShares>;
  /** Entries that moved liquid whose earlier history is not among those given. */
  readonly unfollowed: number;
}

/** Accounts whose liquid was had: it takes its share of the cost with it. What is lost leaves its cost to the rest. */
const HAD: ReadonlySet<string> = new Set(['bottles', 'drawn', 'drunk', 'given']);

interface Held {
  volumeUl: number;
  batchId: string;
  shares: Map<number, number>;
}

/**
 * Follows every cost through the cellar: what goes in carries it, transfers and bottles take it along by volume, and what
 * is lost (lees, air, samples, drains) leaves it to what remains. No cost is made up where none was told.
 */
export function costSoFar(entries: readonly CostEntry[]): Costs {
  const lines: CostLine[] = [];
  const held = new Map<string, Held>();
  const lots = new Map<EntryId, Map<number, number>>();
  const drawn = new Map<string, Map<number, number>>();
  let unfollowed = 0;

  for (const entry of entries) {
    const deltas = volumesOf(entry.postings);
    const bought = boughtIn(entry);
    const sources = [...deltas].filter(([account, ul]) => ul < 0 && held.has(account));
    const taps = [...deltas].filter(([account, ul]) => ul > 0 && (isVessel(account) || HAD.has(account)));
    if ([...deltas].some(([account, ul]) => ul < 0 && isVessel(account) && !held.has(account)))
      unfollowed += 1;

    const poured = pourOut(sources, taps, held);
    const [parts, from] = [poured.shares, poured.batchId];
    const weights = taps.map(([, ul]) => ul);
    const shares = taps.map(() => new Map<number, number>());
    for (const [line, cost] of parts) {
      const each = weights.length === 0 ? [] : largestRemainder(cost, weights);
      each.forEach((part, i) => shares[i]?.set(line, part));
    }
    taps.forEach(([account, ul], i) => {
      const share = shares[i] ?? new Map<number, number>();
      if (account === 'bottles') lots.set(entry.id, share);
      else if (HAD.has(account)) merge(ofKey(drawn, from ?? ''), share);
      else pourIn(held, { account, ul, share, batchId: batchAfter(entry.act, account) ?? from ?? '' });
    });
    for (const line of bought.lines) {
      const number = lines.push(line) - 1;
      const into = held.get(bought.vesselId);
      into?.shares.set(number, (line.costHundredths ?? 0) * PARTS_OF_A_HUNDREDTH);
    }
  }
  const vessels = new Map([...held].map(([id, { shares }]) => [id, shares]));
  return { lines, vessels, lots, drawn, unfollowed };
}

/** Takes from every source what flows on, with the cost of what is lost on the way left to the rest and to the flow. */
function pourOut(
  sources: readonly (readonly [string, number])[],
  taps: readonly (readonly [string, number])[],
  held: Map<string, Held>,
): { shares: Map<number, number>; batchId: string | null } {
  const shares = new Map<number, number>();
  const outUl = sources.reduce((sum, [, ul]) => sum - ul, 0);
  const onUl = Math.min(
    outUl,
    taps.reduce((sum, [, ul]) => sum + ul, 0),
  );
  let batchId: string | null = null;
  for (const [account, ul] of sources) {
    const from = held.get(account);
    if (from === undefined) continue;
    batchId ??= from.batchId;
    const restUl = Math.max(0, from.volumeUl + ul);
    const flowsUl = outUl === 0 ? 0 : muldiv(-ul, onUl, outUl);
    for (const [line, cost] of from.shares) {
      const part = flowsUl === 0 ? 0 : muldiv(cost, flowsUl, flowsUl + restUl);
      if (flowsUl > 0) shares.set(line, (shares.get(line) ?? 0) + part);
      from.shares.set(line, cost - part);
    }
    from.volumeUl = restUl;
    if (restUl === 0) held.delete(account);
  }
  return { shares, batchId };
}

function pourIn(
  held: Map<string, Held>,
  given: { account: string; ul: number; share: Map<number, number>; batchId: string },
): void {
  const { account, ul, share, batchId } = given;
  const there = held.get(account);
  if (there === undefined) {
    held.set(account, { volumeUl: ul, batchId, shares: share });
    return;
  }
  there.volumeUl += ul;
  merge(there.shares, share);
}

/** What an act brings in that may have cost something. */
function boughtIn({ id, happenedAtMs, act }: CostEntry): { vesselId: string; lines: CostLine[] } {
  if (act.kind !== 'startBatch' && act.kind !== 'addTo') return { vesselId: '', lines: [] };
  const things = act.kind === 'startBatch' ? act.ingredients : [act.ingredient];
  return {
    vesselId: act.vesselId,
    lines: things.map(({ name, amountTyped, costHundredths = null }) => ({
      ...{ entryId: id, atMs: happenedAtMs, name, amountTyped, costHundredths },
    })),
  };
}

/** The batch that comes to stand in a vessel by an act, where the act names a new one for it. */
function batchAfter(act: Act, vesselId: string): string | null {
  switch (act.kind) {
    case 'startBatch':
      return act.batchId;
    case 'addCulture':
      return act.standing?.batchId ?? null;
    case 'split':
      return act.parts.find(({ toVesselId }) => toVesselId === vesselId)?.newBatch?.batchId ?? null;
    case 'transfer':
    case 'blend':
    case 'drawAndRefill':
      return act.toVesselId === vesselId ? (act.newBatch?.batchId ?? null) : null;
    default:
      return null;
  }
}

function volumesOf(postings: readonly Posting[]): Map<string, number> {
  const deltas = new Map<string, number>();
  for (const { account, deltaUl } of postings) deltas.set(account, (deltas.get(account) ?? 0) + deltaUl);
  return deltas;
}

function isVessel(account: string): boolean {
  return account.includes('-');
}

function merge(into: Map<number, number>, from: ReadonlyMap<number, number>): void {
  for (const [line, cost] of from) into.set(line, (into.get(line) ?? 0) + cost);
}

function ofKey<K>(map: Map<K, Map<number, number>>, key: K): Map<number, number> {
  const known = map.get(key) ?? new Map<number, number>();
  map.set(key, known);
  return known;
}
