import type { Database } from 'better-sqlite3';
import type { FillRecord, TrailStep } from '#core/ledger/records.ts';

/** Other liquid came to what stood in a vessel, or several liquids filled it when it was empty. */
export interface Pour {
  readonly atMs: number;
  /** Orders the pours of one moment. */
  readonly sequence: number;
  /** The vessel was empty before. */
  readonly ontoNothing: boolean;
  /** What was poured, as it stood just before; null for what came from outside the cellar or out of bottles. */
  readonly sources: readonly (Pick<FillRecord, 'id' | 'batchId' | 'trail'> | null)[];
}

export interface Pours {
  /** Of one batch in one vessel between two times, both included; in no order. What was struck is left out. */
  into(here: {
    readonly vesselId: string;
    readonly batchId: string;
    readonly sinceMs: number;
    readonly untilMs: number;
  }): Pour[];
}

interface FlowRow {
  readonly entryId: string;
  readonly sequence: number;
  readonly atMs: number;
  readonly ontoNothing: 0 | 1;
  readonly vesselId: FillRecord['id'] | null;
  readonly batchId: FillRecord['batchId'] | null;
  readonly trail: string;
}

/** Length of an entry's id in the id of a flow, before the dash and the number. */
const ENTRY_ID = 36;

export function openPours(sqlite: Database): Pours {
  const flows = sqlite.prepare(
    `SELECT substr(flow.id, 1, ${ENTRY_ID}) AS entryId, entry.sequence, flow.at_ms AS atMs,
       flow.onto_nothing AS ontoNothing, flow.from_vessel_id AS vesselId, flow.from_batch_id AS batchId,
       flow.from_trail AS trail
     FROM flow JOIN entry ON entry.entry_id = substr(flow.id, 1, ${ENTRY_ID})
     WHERE flow.to_vessel_id = ? AND flow.to_batch_id = ? AND flow.at_ms BETWEEN ? AND ?
     ORDER BY flow.id`,
  );
  return {
    into({ vesselId, batchId, sinceMs, untilMs }) {
      const pours = new Map<string, Pour>();
      for (const row of flows.all(vesselId, batchId, sinceMs, untilMs) as FlowRow[]) {
        const { sequence, atMs } = row;
        const known = pours.get(row.entryId)?.sources ?? [];
        const sources = [...known, sourceOf(row)];
        pours.set(row.entryId, { sequence, atMs, sources, ontoNothing: row.ontoNothing === 1 });
      }
      return [...pours.values()];
    },
  };
}

function sourceOf({ vesselId, batchId, trail }: FlowRow): Pour['sources'][number] {
  if (vesselId === null || batchId === null) return null;
  return { id: vesselId, batchId, trail: JSON.parse(trail) as readonly TrailStep[] };
}
