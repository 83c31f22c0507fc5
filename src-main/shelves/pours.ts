import type { Database } from 'better-sqlite3';
import type { FillRecord } from '#core/ledger/records.ts';
import type { Posting } from '#core/ledger/postings.ts';

/** Other liquid came to what stood in a vessel, or several liquids filled it when it was empty. */
export interface Pour {
  readonly atMs: number;
  readonly sequence: number;
  /** The vessel was empty before. */
  readonly ontoNothing: boolean;
  /** What was poured, as it stood just before; null for what came from outside the cellar. */
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

interface PourRow {
  readonly sequence: number;
  readonly atMs: number;
  readonly act: string;
  readonly postings: string;
}

/** What an act may hold, of whatever kind it is, that tells where liquid came from and went. */
interface Moving {
  readonly kind: string;
  readonly what?: string;
  readonly volumeUl?: number;
  readonly vesselId?: string;
  readonly toVesselId?: string | null;
  readonly fromVesselId?: string | null;
}

/** Put into a vessel from outside, these are liquids or fruit of which nothing was told. */
const FROM_OUTSIDE = new Set(['juice', 'fruit']);
const VESSEL = /^[0-9a-f]{8}-/u;

export function openPours(sqlite: Database): Pours {
  const entries = sqlite.prepare(
    `SELECT entry.sequence, entry.happened_at_ms AS atMs, entry.act, entry.postings
     FROM entry_subject AS about JOIN entry USING (sequence)
     WHERE about.kind = 'vessel' AND about.subject_id = ? AND entry.happened_at_ms BETWEEN ? AND ?
       AND entry.kind NOT IN ('recordReading', 'tellFacts', 'note', 'startBatch', 'reverse')
       AND EXISTS (SELECT 1 FROM entry_subject AS batch
         WHERE batch.sequence = entry.sequence AND batch.kind = 'batch' AND batch.subject_id = ?)
       AND NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)`,
  );
  const fillBefore = sqlite
    .prepare(
      `SELECT before FROM entry_image WHERE sequence = ? AND record_kind = 'fill' AND record_id = ? LIMIT 1`,
    )
    .pluck();
  const before = (sequence: number, vesselId: string): FillRecord | null => {
    const image = (fillBefore.get(sequence, vesselId) as string | null | undefined) ?? null;
    return image === null ? null : (JSON.parse(image) as FillRecord);
  };
  return {
    into({ vesselId, batchId, sinceMs, untilMs }) {
      return (entries.all(vesselId, sinceMs, untilMs, batchId) as PourRow[]).flatMap((row) => {
        const { sequence, atMs } = row;
        const act = JSON.parse(row.act) as Moving;
        const from = pouredFrom(vesselId, act, JSON.parse(row.postings) as Posting[]);
        if (from.length === 0) return [];
        const there = before(sequence, vesselId);
        if (there !== null && there.batchId !== batchId) return [];
        const sources = from.map((source) => (source === null ? null : before(sequence, source)));
        return [{ sequence, atMs, sources, ontoNothing: there === null }];
      });
    },
  };
}

/** The vessels that an entry poured into this one; null stands for liquid from outside. Nothing where none came in. */
function pouredFrom(vesselId: string, act: Moving, postings: readonly Posting[]): readonly (string | null)[] {
  if (act.kind === 'drawAndRefill') {
    // What is drawn may be more than what is filled in again, so the sums alone do not tell.
    const from = vesselId === act.vesselId ? act.fromVesselId : act.vesselId;
    return vesselId === act.fromVesselId ? [] : [from ?? null];
  }
  if ((act.kind === 'addTo' && FROM_OUTSIDE.has(act.what ?? '')) || act.kind === 'seed') {
    if (act.vesselId !== vesselId || (act.kind === 'seed' && act.volumeUl === 0)) return [];
    return [act.fromVesselId ?? null];
  }
  const deltaOf = (account: string): number =>
    postings.find((posting) => posting.account === account)?.deltaUl ?? 0;
  if (deltaOf(vesselId) <= 0) return [];
  return postings
    .map(({ account }) => account)
    .filter((account) => VESSEL.test(account) && deltaOf(account) < 0);
}
