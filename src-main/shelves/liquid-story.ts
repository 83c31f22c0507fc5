import type { Database } from 'better-sqlite3';
import type { OriginShare } from '#core/contract/shelves.ts';
import type { StageSpan } from '#core/contract/book.ts';
import { foresee, type Foreseen } from '#core/ferments/foresight.ts';
import { FERMENTS } from '#core/ferments/registry.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { BatchRecord, FillRecord, ReadingRecord, StageSpanRecord } from '#core/ledger/records.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import { readingFromColumns, READING_COLUMNS } from './reading-columns.ts';

export interface Turns {
  readonly workingFromMs: number | null;
  readonly motherFromMs: number | null;
}

/** A batch with the batches it was taken from, up to this one's beginning: what its liquid has been through. */
export interface LiquidStory {
  /** Spans of the batch and of its ancestors before it began; oldest first. */
  spans(batch: BatchRecord): StageSpan[];
  /** Readings of the batch and of its ancestors before it began; oldest first. */
  readings(batch: BatchRecord): ReadingRecord[];
  foresight(batch: BatchRecord): Foreseen | null;
  origins(fill: FillRecord | null): OriginShare[];
  /** When yeast, salt or a tea culture first went to work on it, and when a mother first did; null: not yet. */
  turns(batch: BatchRecord): Turns;
  /** True when water went in after a mother had begun: a vinegar cut with water must be measured anew. */
  cutWithWater(batch: BatchRecord): boolean;
  /** The kinds of things put into it since it began, such as honey or sulfite. */
  added(batch: BatchRecord): ReadonlySet<string>;
}

/** Batches taken from batches taken from batches: further back than any home cellar goes. */
const GENERATIONS_MAX = 60;

export function openLiquidStory(sqlite: Database, records: RecordStore): LiquidStory {
  const spansOf = sqlite.prepare(
    `SELECT substr(id, 1, 36) AS entryId, batch_id AS batchId, vessel_id AS vesselId, stage, from_ms AS fromMs
     FROM stage_span WHERE batch_id = ? AND from_ms <= ? ORDER BY from_ms, id`,
  );
  const readingsOf = sqlite.prepare(
    `SELECT ${READING_COLUMNS} FROM reading WHERE batch_id = ? AND at_ms <= ? ORDER BY at_ms, id`,
  );

  /** The batch and its ancestors, each with the time until which it speaks of this liquid; oldest first. */
  const line = (batch: BatchRecord): { batchId: BatchId; untilMs: number }[] => {
    const steps = [{ batchId: batch.id, untilMs: Number.MAX_SAFE_INTEGER }];
    let current = batch;
    while (current.parentBatchId !== null && steps.length < GENERATIONS_MAX) {
      const parent = records.get('batch', current.parentBatchId);
      if (parent === null) break;
      steps.push({ batchId: parent.id, untilMs: current.startedAtMs });
      current = parent;
    }
    return steps.reverse();
  };

  const spans = (batch: BatchRecord): StageSpan[] =>
    line(batch).flatMap(({ batchId, untilMs }) => spansOf.all(batchId, untilMs) as StageSpan[]);
  const readings = (batch: BatchRecord): ReadingRecord[] =>
    line(batch).flatMap(({ batchId, untilMs }) => readingsOf.all(batchId, untilMs).map(readingFromColumns));

  const waterInto = sqlite.prepare(
    `SELECT 1 FROM addition WHERE batch_id = ? AND at_ms BETWEEN ? AND ? AND what = 'water' LIMIT 1`,
  );
  const addedKinds = sqlite
    .prepare('SELECT DISTINCT what FROM addition WHERE batch_id = ? AND at_ms <= ?')
    .pluck();
  const turns = (batch: BatchRecord): Turns => {
    const story = spans(batch);
    const first = (...stages: string[]): number | null =>
      story.find((span) => stages.includes(span.stage))?.fromMs ?? null;
    return { workingFromMs: first('yeast', 'lactic', 'vinegar'), motherFromMs: first('vinegar') };
  };

  return {
    spans,
    readings,
    turns,
    added(batch) {
      const kinds = line(batch).flatMap(
        ({ batchId, untilMs }) => addedKinds.all(batchId, untilMs) as string[],
      );
      return new Set(kinds);
    },
    cutWithWater(batch) {
      const fromMs = turns(batch).motherFromMs;
      if (fromMs === null) return false;
      return line(batch).some(
        ({ batchId, untilMs }) => waterInto.get(batchId, fromMs, untilMs) !== undefined,
      );
    },
    foresight(batch) {
      const story = spans(batch);
      const from = (stage: StageSpanRecord['stage']): number | null =>
        story.find((span) => span.stage === stage)?.fromMs ?? null;
      return foresee({
        profile: FERMENTS[batch.ferment],
        readings: readings(batch),
        yeastFromMs: from('yeast'),
        motherFromMs: from('vinegar'),
      });
    },
    origins(fill) {
      if (fill === null) return [];
      const ofTokens = Object.values(fill.origins).reduce((a, b) => a + b, 0);
      return Object.entries(fill.origins)
        .map(([batchId, tokens]) => {
          const batch = records.get('batch', batchId);
          const named = { code: batch?.code ?? '', name: batch?.name ?? '' };
          return { batchId: batchId as BatchId, ...named, tokens, ofTokens };
        })
        .sort((a, b) => b.tokens - a.tokens);
    },
  };
}
