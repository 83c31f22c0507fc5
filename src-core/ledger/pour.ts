import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { apartWith, composed, inStage, writeSpan } from './decide-batches.ts';
import { overfilled } from './fill-amounts.ts';
import { writeFlow } from './flows.ts';
import type { LedgerError } from './ledger-error.ts';
import type { Liquid } from './liquid.ts';
import type { FillRecord, VesselRecord } from './records.ts';
import type { FilledStage } from './stage.ts';

/** How many earlier standing places a fill remembers; a liquid racked more often has long been measured anew. */
const TRAIL_STEPS_MAX = 40;

export type NewBatch = ActOf<'transfer'>['newBatch'];

export interface Pouring {
  /** What it was taken from, as it stood before. */
  readonly source: FillRecord;
  readonly liquid: Liquid;
  readonly receiver: VesselRecord;
  readonly newBatch: NewBatch;
  readonly toStage: FilledStage | null;
}

/** Why liquid cannot be poured into a vessel, or null: no room, or a new batch where one stands or of a code that is taken. */
export function pourRefused(
  book: ChangeSet,
  given: {
    readonly receiver: VesselRecord;
    readonly volumeUl: number;
    readonly newBatch: NewBatch;
    /** The fields to name in the refusal. */
    readonly field: { readonly volume: string; readonly vessel: string };
  },
): LedgerError | null {
  const { receiver, volumeUl, newBatch, field } = given;
  const there = book.get('fill', receiver.id);
  const full = overfilled(receiver, there?.volumeUl ?? 0, volumeUl, field.volume);
  if (full !== null) return full;
  if (newBatch === null) return null;
  if (there !== null) {
    return { type: 'NewBatchIntoOccupied', field: field.vessel, vesselNumber: receiver.number };
  }
  if (book.codeTaken(newBatch.code)) {
    return { type: 'AlreadyTaken', field: 'code', what: 'batch code', value: newBatch.code };
  }
  return null;
}

/** Pours liquid into an empty vessel, as the same batch or a new one, or into what stands there. */
export function pourInto(book: ChangeSet, pouring: Pouring): void {
  const { source, liquid, receiver } = pouring;
  const there = book.get('fill', receiver.id);
  if (there === null) pourIntoEmpty(book, pouring);
  else blendInto(book, pouring, there);
  book.pour(source.id, receiver.id, liquid);
  writeFlow(book, {
    ...{ from: source, to: book.get('fill', receiver.id) },
    ...{ volumeUl: liquid.volumeUl, ontoNothing: there === null },
  });
}

function pourIntoEmpty(book: ChangeSet, { source, liquid, receiver, newBatch, toStage }: Pouring): void {
  const { happenedAtMs } = book.context;
  if (newBatch !== null) {
    const { batchId: id, code, name, ferment } = newBatch;
    book.put('batch', {
      ...{ id, code, name, ferment, note: '', startedAtMs: happenedAtMs, startedUl: liquid.volumeUl },
      ...{ ingredients: [], parentBatchId: source.batchId, parentUl: liquid.volumeUl, keepsCultureId: null },
    });
  }
  const step = { vesselId: source.id, batchId: source.batchId, untilMs: happenedAtMs };
  const stage = toStage ?? source.stage;
  const poured: Omit<FillRecord, 'writtenBy'> = {
    ...source,
    ...liquid,
    ...{ id: receiver.id, batchId: newBatch?.batchId ?? source.batchId, sinceMs: happenedAtMs },
    ...{ trail: [...source.trail, step].slice(-TRAIL_STEPS_MAX), stage },
    stageSinceMs: stage === source.stage ? source.stageSinceMs : happenedAtMs,
    onLees: stage === 'yeast' || stage === 'settling',
  };
  book.put('fill', poured);
  writeSpan(book, poured.batchId, receiver.id, stage);
}

function blendInto(book: ChangeSet, { source, liquid, toStage }: Pouring, there: FillRecord): void {
  const blended: FillRecord = { ...composed(book, there, 'blend'), ...book.join(there.id, [there, liquid]) };
  book.put('fill', toStage === null ? apartWith(book, blended, [source]) : inStage(book, blended, toStage));
}
