import type { EntryRow } from '#core/contract/ledger.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ActKind } from '#core/ledger/act.ts';
import { sayEntry } from '../words/act-words.ts';
import { localDayAround } from '../cellar/day.ts';

/** A numbered pin over the charts: what was done to the liquid on one day. */
export interface Pin {
  readonly number: number;
  readonly atMs: number;
  readonly says: string;
}

/** Acts that explain a bend in a line; readings and notes do not get a pin. */
const PINNED: ReadonlySet<ActKind> = new Set<ActKind>([
  'addTo',
  'pitchYeast',
  'transfer',
  'seed',
  'changeStage',
  'changeClosure',
  'bottle',
]);

/** As many pins as can be told apart over one chart; the newest are kept. */
export const PINS_MAX = 16;

/** The acts worth a pin between two moments, oldest first, those of one day under one number. Struck acts have none. */
export function pinsOf(
  entries: readonly EntryRow[],
  range: { readonly fromMs: number; readonly toMs: number },
  rules: HouseRules,
): readonly Pin[] {
  const byDay = new Map<number, { atMs: number; says: string[] }>();
  const worth = entries
    .filter(({ act, struck }) => !struck && PINNED.has(act.kind))
    .filter(({ happenedAtMs }) => happenedAtMs >= range.fromMs && happenedAtMs <= range.toMs)
    .sort((a, b) => a.happenedAtMs - b.happenedAtMs || a.sequence - b.sequence);
  for (const entry of worth) {
    const day = localDayAround(entry.happenedAtMs).startMs;
    const there = byDay.get(day) ?? { atMs: entry.happenedAtMs, says: [] };
    there.says.push(sayEntry(entry, rules));
    byDay.set(day, there);
  }
  return [...byDay.values()]
    .slice(-PINS_MAX)
    .map(({ atMs, says }, i) => ({ number: i + 1, atMs, says: says.join(' ') }));
}
