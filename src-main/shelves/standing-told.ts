import type { Database } from 'better-sqlite3';
import type { FillRecord } from '#core/ledger/records.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';

/** The newest telling of each group, and the newest overruling of each use, of what stands in a vessel. */
export interface StandingTold {
  told(fill: FillRecord): ToldFacts;
  overrulings(fill: FillRecord): ReadonlyMap<string, { readonly reason: string; readonly atMs: number }>;
}

export function openStandingTold(sqlite: Database): StandingTold {
  const told = sqlite.prepare(
    `SELECT facts, at_ms AS atMs, id FROM told WHERE vessel_id = ? AND batch_id = ? AND at_ms <= ? ORDER BY at_ms, id`,
  );
  const overruled = sqlite.prepare(
    `SELECT use, reason, at_ms AS atMs, id FROM overruling
     WHERE vessel_id = ? AND batch_id = ? AND at_ms <= ? ORDER BY at_ms, id`,
  );
  /** Everything said where this liquid stands or stood, oldest first. */
  const along = (statement: typeof told, fill: FillRecord): { atMs: number; id: string }[] => {
    const here = { vesselId: fill.id, batchId: fill.batchId, untilMs: Number.MAX_SAFE_INTEGER };
    const rows = [...fill.trail, here].flatMap(
      ({ vesselId, batchId, untilMs }) =>
        statement.all(vesselId, batchId, untilMs) as { atMs: number; id: string }[],
    );
    return rows.sort((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
  };
  return {
    told(fill) {
      const facts = along(told, fill).map(
        (row) => JSON.parse((row as unknown as { facts: string }).facts) as ToldFacts,
      );
      return Object.assign({}, ...facts) as ToldFacts;
    },
    overrulings(fill) {
      const rows = along(overruled, fill) as unknown as { use: string; reason: string; atMs: number }[];
      return new Map(rows.map(({ use, reason, atMs }) => [use, { reason, atMs }]));
    },
  };
}
