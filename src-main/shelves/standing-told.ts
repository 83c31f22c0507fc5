import type { Database } from 'better-sqlite3';
import type { FillRecord, TrailStep } from '#core/ledger/records.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { toldElsewhere, toldOfBlend } from '#core/ledger/told-travels.ts';
import { openPours, type Pour } from './pours.ts';

/** What was told of what stands in a vessel and may still be counted on, and the newest overruling of each use. */
export interface StandingTold {
  told(fill: FillRecord): ToldFacts;
  overrulings(fill: FillRecord): ReadonlyMap<string, { readonly reason: string; readonly atMs: number }>;
}

interface Telling {
  readonly atMs: number;
  readonly sequence: number;
  readonly facts: string;
}

interface Overruled {
  readonly use: string;
  readonly reason: string;
  readonly atMs: number;
  readonly id: string;
}

/** A liquid as far as what was told of it goes: where it stands, and where it stood before. */
export type Traced = Pick<FillRecord, 'id' | 'batchId' | 'trail'>;

/** Liquids poured into liquids poured into liquids: further back than this nothing counts as known. */
const POURS_MAX = 200;

export function openStandingTold(sqlite: Database): StandingTold {
  const tellings = sqlite.prepare(
    `SELECT told.facts, told.at_ms AS atMs, entry.sequence FROM told JOIN entry ON entry.entry_id = told.id
     WHERE told.vessel_id = ? AND told.batch_id = ? AND told.at_ms BETWEEN ? AND ?`,
  );
  const overruled = sqlite.prepare(
    `SELECT use, reason, at_ms AS atMs, id FROM overruling
     WHERE vessel_id = ? AND batch_id = ? AND at_ms <= ? ORDER BY at_ms, id`,
  );
  const pours = openPours(sqlite);

  /** Follows a liquid through its vessels, newest telling of each group last; pours mix in what was told of the poured. */
  const follow = (liquid: Traced, untilMs: number, known: Map<string, ToldFacts>): ToldFacts => {
    const steps: TrailStep[] = [...liquid.trail, { vesselId: liquid.id, batchId: liquid.batchId, untilMs }];
    let told: ToldFacts = {};
    let sinceMs = 0;
    for (const [index, step] of steps.entries()) {
      if (index > 0) told = toldElsewhere(told);
      const here = { vesselId: step.vesselId, batchId: step.batchId, sinceMs, untilMs: step.untilMs };
      const events = [
        ...(tellings.all(here.vesselId, here.batchId, sinceMs, step.untilMs) as Telling[]),
        ...pours.into(here).filter(({ ontoNothing }) => !ontoNothing || index === 0),
      ].sort((a, b) => a.atMs - b.atMs || a.sequence - b.sequence);
      for (const event of events) {
        told =
          'facts' in event
            ? { ...told, ...(JSON.parse(event.facts) as ToldFacts) }
            : toldOfBlend(event.ontoNothing ? null : told, pouredTold(event, known));
      }
      sinceMs = step.untilMs;
    }
    return told;
  };

  const pouredTold = (pour: Pour, known: Map<string, ToldFacts>): ToldFacts[] =>
    pour.sources.map((source) => {
      if (source === null) return {};
      const key = `${pour.sequence} ${source.id}`;
      const before = known.get(key);
      if (before !== undefined) return before;
      // Entered as nothing known first, so that no book, however wrong, leads round in a ring.
      known.set(key, {});
      const told = known.size > POURS_MAX ? {} : toldElsewhere(follow(source, pour.atMs, known));
      known.set(key, told);
      return told;
    });

  return {
    told: (fill) => follow(fill, Number.MAX_SAFE_INTEGER, new Map()),
    overrulings(fill) {
      const here = { vesselId: fill.id, batchId: fill.batchId, untilMs: Number.MAX_SAFE_INTEGER };
      const rows = [...fill.trail, here].flatMap(
        ({ vesselId, batchId, untilMs }) => overruled.all(vesselId, batchId, untilMs) as Overruled[],
      );
      rows.sort((a, b) => a.atMs - b.atMs || (a.id < b.id ? -1 : 1));
      return new Map(rows.map(({ use, reason, atMs }) => [use, { reason, atMs }]));
    },
  };
}
