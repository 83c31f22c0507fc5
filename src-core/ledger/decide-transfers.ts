import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { composed, inStage, writeSpan } from './decide-batches.ts';
import { isRefusal, usableVessel } from './decide-vessels.ts';
import type { Filled, Origins } from './fill-amounts.ts';
import { filledVessel, joinOrigins, leaveRest, overdrawn, overfilled, partOrigins } from './fill-amounts.ts';
import type { LedgerError } from './ledger-error.ts';
import type { FillRecord, VesselRecord } from './records.ts';

/** How many earlier standing places a fill remembers; a liquid racked more often has long been measured anew. */
const TRAIL_STEPS_MAX = 40;

/** Racks or moves liquid from one vessel into another, with what is lost to lees stated apart. */
export function transfer(book: ChangeSet, act: ActOf<'transfer'>): LedgerError | null {
  if (act.fromVesselId === act.toVesselId) return { type: 'SameVessel', field: 'toVesselId' };
  const source = filledVessel(book, act.fromVesselId, 'fromVesselId');
  if (isRefusal(source)) return source;
  const receiver = usableVessel(book, act.toVesselId, 'toVesselId');
  if (isRefusal(receiver)) return receiver;
  const takenUl = act.volumeUl + act.leesUl;
  const short = overdrawn(source, takenUl, 'volumeUl');
  if (short !== null) return short;
  const there = book.get('fill', act.toVesselId);
  const full = overfilled(receiver, there?.volumeUl ?? 0, act.volumeUl, 'volumeUl');
  if (full !== null) return full;
  if (there !== null && act.newBatch !== null) {
    return { type: 'NewBatchIntoOccupied', field: 'toVesselId', vesselNumber: receiver.number };
  }
  if (act.newBatch !== null && book.reader.batchCodeTaken(act.newBatch.code)) {
    return { type: 'AlreadyTaken', field: 'code', what: 'batch code', value: act.newBatch.code };
  }
  const [moved = {}, , rest = {}] = partOrigins(source.fill, [act.volumeUl, act.leesUl]);
  if (there === null) pourIntoEmpty(book, act, source, receiver, moved);
  else blendInto(book, act, there, moved);
  leaveRest(book, source.fill, takenUl, rest);
  book.post(act.fromVesselId, act.toVesselId, act.volumeUl);
  book.post(act.fromVesselId, 'lees', act.leesUl);
  return null;
}

function pourIntoEmpty(
  book: ChangeSet,
  act: ActOf<'transfer'>,
  { fill }: Filled,
  receiver: VesselRecord,
  origins: Origins,
): void {
  const { happenedAtMs } = book.context;
  if (act.newBatch !== null) {
    const { batchId: id, code, name, ferment } = act.newBatch;
    book.put('batch', {
      ...{
        id,
        code,
        name,
        ferment,
        note: '',
        startedAtMs: happenedAtMs,
        startedUl: act.volumeUl,
        ingredients: [],
      },
      ...{ parentBatchId: fill.batchId, parentUl: act.volumeUl, keepsCultureId: null },
    });
  }
  const step = { vesselId: fill.id, batchId: fill.batchId, untilMs: happenedAtMs };
  const poured: Omit<FillRecord, 'writtenBy'> = {
    ...fill,
    ...{ id: receiver.id, batchId: act.newBatch?.batchId ?? fill.batchId, volumeUl: act.volumeUl },
    ...{ origins, sinceMs: happenedAtMs, trail: [...fill.trail, step].slice(-TRAIL_STEPS_MAX) },
    onLees: false,
  };
  const stage = act.toStage ?? fill.stage;
  const stageSinceMs = stage === fill.stage ? fill.stageSinceMs : happenedAtMs;
  book.put('fill', { ...poured, stage, stageSinceMs, onLees: stage === 'yeast' || stage === 'settling' });
  writeSpan(book, poured.batchId, receiver.id, stage);
}

function blendInto(book: ChangeSet, act: ActOf<'transfer'>, there: FillRecord, origins: Origins): void {
  const blended: FillRecord = {
    ...composed(book, there, 'blend'),
    volumeUl: there.volumeUl + act.volumeUl,
    origins: joinOrigins(there.origins, origins),
  };
  book.put('fill', act.toStage === null ? blended : inStage(book, blended, act.toStage));
}

export function drawOff(book: ChangeSet, act: ActOf<'drawOff'>): LedgerError | null {
  return takeOut(book, act.vesselId, act.volumeUl, 'drawn');
}

export function discard(book: ChangeSet, act: ActOf<'discard'>): LedgerError | null {
  return takeOut(book, act.vesselId, act.volumeUl, 'drain');
}

function takeOut(
  book: ChangeSet,
  vesselId: string,
  volumeUl: number,
  account: 'drawn' | 'drain',
): LedgerError | null {
  const filled = filledVessel(book, vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  const short = overdrawn(filled, volumeUl, 'volumeUl');
  if (short !== null) return short;
  const [, rest = {}] = partOrigins(filled.fill, [volumeUl]);
  leaveRest(book, filled.fill, volumeUl, rest);
  book.post(vesselId, account, volumeUl);
  return null;
}

export function bottle(book: ChangeSet, act: ActOf<'bottle'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  const bottledUl = act.bottles * act.bottleUl;
  const takenUl = bottledUl + act.lossUl;
  const short = overdrawn(filled, takenUl, 'bottles');
  if (short !== null) return short;
  const [, , rest = {}] = partOrigins(filled.fill, [bottledUl, act.lossUl]);
  leaveRest(book, filled.fill, takenUl, rest);
  book.put('lot', {
    ...{ id: book.context.entryId, batchId: filled.fill.batchId },
    ...{ bottles: act.bottles, bottleUl: act.bottleUl, atMs: book.context.happenedAtMs },
  });
  book.post(act.vesselId, 'bottles', bottledUl);
  book.post(act.vesselId, 'loss', act.lossUl);
  return null;
}
