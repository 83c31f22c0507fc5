import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { apartWith, composed, inStage, writeSpan } from './decide-batches.ts';
import { isRefusal, usableVessel } from './decide-vessels.ts';
import { filledVessel, leaveRest, overdrawn, overfilled, type Filled } from './fill-amounts.ts';
import { writeFlow } from './flows.ts';
import type { LedgerError } from './ledger-error.ts';
import { partLiquid, type Liquid } from './liquid.ts';
import { pourInto, pourRefused } from './pour.ts';
import type { FillRecord, VesselRecord } from './records.ts';

/** Parts one liquid into several vessels at once: all parts and the rest by one rule, so that no order matters. */
export function split(book: ChangeSet, act: ActOf<'split'>): LedgerError | null {
  const source = filledVessel(book, act.fromVesselId, 'fromVesselId');
  if (isRefusal(source)) return source;
  const receivers: VesselRecord[] = [];
  for (const [index, part] of act.parts.entries()) {
    const at = (field: string): string => `parts.${index}.${field}`;
    if (part.toVesselId === act.fromVesselId) return { type: 'SameVessel', field: at('toVesselId') };
    if (act.parts.findIndex(({ toVesselId }) => toVesselId === part.toVesselId) < index) {
      return { type: 'SameVessel', field: at('toVesselId') };
    }
    const receiver = usableVessel(book, part.toVesselId, at('toVesselId'));
    if (isRefusal(receiver)) return receiver;
    receivers.push(receiver);
  }
  const takenUl = act.parts.reduce((sum, { volumeUl }) => sum + volumeUl, act.leesUl);
  const short = overdrawn(source, takenUl, 'parts.0.volumeUl');
  if (short !== null) return short;
  for (const [index, { volumeUl, newBatch }] of act.parts.entries()) {
    const receiver = receivers[index];
    const field = { volume: `parts.${index}.volumeUl`, vessel: `parts.${index}.toVesselId` };
    const refused =
      receiver === undefined ? null : pourRefused(book, { receiver, volumeUl, newBatch, field });
    if (refused !== null) return refused;
  }
  const parted = partLiquid(source.fill, [...act.parts.map(({ volumeUl }) => volumeUl), act.leesUl]);
  leaveRest(book, source.fill, parted.at(-1));
  for (const [index, { newBatch, toStage }] of act.parts.entries()) {
    const [receiver, liquid] = [receivers[index], parted[index]];
    if (receiver === undefined || liquid === undefined) throw new Error('a part without its vessel');
    // The codes of new batches are looked up again: the parts of one act must not share one.
    if (newBatch !== null && book.codeTaken(newBatch.code)) {
      return { type: 'AlreadyTaken', field: 'code', what: 'batch code', value: newBatch.code };
    }
    pourInto(book, { source: source.fill, liquid, receiver, newBatch, toStage });
  }
  const lees = parted[act.parts.length];
  if (lees !== undefined) book.pour(act.fromVesselId, 'lees', lees);
  return null;
}

/** Pours several liquids together into one vessel, which may be empty, hold something, or be one of those given. */
export function blend(book: ChangeSet, act: ActOf<'blend'>): LedgerError | null {
  const receiver = usableVessel(book, act.toVesselId, 'toVesselId');
  if (isRefusal(receiver)) return receiver;
  const sources: Filled[] = [];
  for (const [index, { fromVesselId, volumeUl }] of act.parts.entries()) {
    const at = `parts.${index}.fromVesselId`;
    const isTwice = act.parts.findIndex((part) => part.fromVesselId === fromVesselId) < index;
    if (fromVesselId === act.toVesselId || isTwice) return { type: 'SameVessel', field: at };
    const source = filledVessel(book, fromVesselId, at);
    if (isRefusal(source)) return source;
    const short = overdrawn(source, volumeUl, `parts.${index}.volumeUl`);
    if (short !== null) return short;
    sources.push(source);
  }
  const volumeUl = act.parts.reduce((sum, part) => sum + part.volumeUl, 0);
  const field = { volume: 'toVesselId', vessel: 'toVesselId' };
  const refused = pourRefused(book, { receiver, volumeUl, newBatch: act.newBatch, field });
  if (refused !== null) return refused;
  const poured = sources.map(({ fill }, index) => {
    const [moved, rest] = partLiquid(fill, [act.parts[index]?.volumeUl ?? 0]);
    if (moved === undefined) throw new Error('a liquid parts into as many as asked for');
    leaveRest(book, fill, rest);
    book.pour(fill.id, receiver.id, moved);
    return moved;
  });
  const ontoNothing = book.get('fill', receiver.id) === null;
  standBlend(book, act, { receiver, sources, poured });
  const stood = book.get('fill', receiver.id);
  for (const [index, { fill }] of sources.entries()) {
    writeFlow(book, { from: fill, to: stood, volumeUl: poured[index]?.volumeUl ?? 0, ontoNothing });
  }
  return null;
}

interface Poured {
  readonly receiver: VesselRecord;
  readonly sources: readonly Filled[];
  readonly poured: readonly Liquid[];
}

function standBlend(book: ChangeSet, act: ActOf<'blend'>, { receiver, sources, poured }: Poured): void {
  const there = book.get('fill', receiver.id);
  const liquid = book.join(receiver.id, there === null ? poured : [there, ...poured]);
  if (there !== null) {
    const blended: FillRecord = { ...composed(book, there, 'blend'), ...liquid };
    const fills = sources.map(({ fill }) => fill);
    book.put(
      'fill',
      act.toStage === null ? apartWith(book, blended, fills) : inStage(book, blended, act.toStage),
    );
    return;
  }
  const main = largest(sources, poured);
  const { happenedAtMs } = book.context;
  if (act.newBatch !== null) {
    const { batchId: id, code, name, ferment } = act.newBatch;
    book.put('batch', {
      ...{ id, code, name, ferment, note: '', startedAtMs: happenedAtMs, startedUl: liquid.volumeUl },
      ...{ ingredients: [], parentBatchId: main.batchId, parentUl: liquid.volumeUl, keepsCultureId: null },
    });
  }
  const isApart = sources.some(({ fill }) => fill.stage === 'quarantine');
  const stage = act.toStage ?? (isApart ? 'quarantine' : main.stage);
  const stood: Omit<FillRecord, 'writtenBy'> = {
    ...composed(book, main, 'blend'),
    ...liquid,
    ...{ id: receiver.id, batchId: act.newBatch?.batchId ?? main.batchId, sinceMs: happenedAtMs, stage },
    ...{ stageSinceMs: happenedAtMs, trail: [], onLees: stage === 'yeast' || stage === 'settling' },
  };
  book.put('fill', stood);
  writeSpan(book, stood.batchId, receiver.id, stage);
}

/** The liquid that gives most: a blend in an empty vessel goes on as it, unless it is a new batch. */
function largest(sources: readonly Filled[], poured: readonly Liquid[]): FillRecord {
  const given = (index: number): number => poured[index]?.volumeUl ?? 0;
  const index = sources.reduce((best, _source, at) => (given(at) > given(best) ? at : best), 0);
  const main = sources[index];
  if (main === undefined) throw new Error('a blend of nothing');
  return main.fill;
}

/** Draws from a vessel and fills it up again from another, as perpetual barrels are kept. */
export function drawAndRefill(book: ChangeSet, act: ActOf<'drawAndRefill'>): LedgerError | null {
  const { vesselId, toVesselId, fromVesselId } = act;
  if (vesselId === toVesselId) return { type: 'SameVessel', field: 'toVesselId' };
  if (fromVesselId === vesselId || fromVesselId === toVesselId) {
    return { type: 'SameVessel', field: 'fromVesselId' };
  }
  const barrel = filledVessel(book, vesselId, 'vesselId');
  if (isRefusal(barrel)) return barrel;
  const source = filledVessel(book, fromVesselId, 'fromVesselId');
  if (isRefusal(source)) return source;
  const short = overdrawn(barrel, act.drawnUl, 'drawnUl') ?? overdrawn(source, act.refillUl, 'refillUl');
  if (short !== null) return short;
  if (act.drawnUl === barrel.fill.volumeUl) {
    return { type: 'WouldEmpty', field: 'drawnUl', vesselNumber: barrel.vessel.number };
  }
  const heldUl = barrel.fill.volumeUl - act.drawnUl;
  const full = overfilled(barrel.vessel, heldUl, act.refillUl, 'refillUl');
  if (full !== null) return full;
  const [drawn, rest] = partLiquid(barrel.fill, [act.drawnUl]);
  const [refill, left] = partLiquid(source.fill, [act.refillUl]);
  if (drawn === undefined || refill === undefined)
    throw new Error('a liquid parts into as many as asked for');
  if (toVesselId === null) {
    book.pour(vesselId, 'drawn', drawn);
    leaveRest(book, barrel.fill, rest);
  } else {
    const receiver = usableVessel(book, toVesselId, 'toVesselId');
    if (isRefusal(receiver)) return receiver;
    const field = { volume: 'drawnUl', vessel: 'toVesselId' };
    const refused = pourRefused(book, { receiver, volumeUl: act.drawnUl, newBatch: act.newBatch, field });
    if (refused !== null) return refused;
    leaveRest(book, barrel.fill, rest);
    const { newBatch, toStage } = act;
    pourInto(book, { source: barrel.fill, liquid: drawn, receiver, newBatch, toStage });
  }
  leaveRest(book, source.fill, left);
  pourInto(book, {
    source: source.fill,
    liquid: refill,
    receiver: barrel.vessel,
    newBatch: null,
    toStage: null,
  });
  return null;
}
