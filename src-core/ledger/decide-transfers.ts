import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { isRefusal, usableVessel } from './decide-vessels.ts';
import { filledVessel, leaveRest, overdrawn } from './fill-amounts.ts';
import type { LedgerError } from './ledger-error.ts';
import { partLiquid } from './liquid.ts';
import type { Account } from './postings.ts';
import { pourInto, pourRefused } from './pour.ts';

/** Racks or moves liquid from one vessel into another, with what is lost to lees stated apart. */
export function transfer(book: ChangeSet, act: ActOf<'transfer'>): LedgerError | null {
  if (act.fromVesselId === act.toVesselId) return { type: 'SameVessel', field: 'toVesselId' };
  const source = filledVessel(book, act.fromVesselId, 'fromVesselId');
  if (isRefusal(source)) return source;
  const receiver = usableVessel(book, act.toVesselId, 'toVesselId');
  if (isRefusal(receiver)) return receiver;
  const { volumeUl, leesUl, newBatch, toStage } = act;
  const short = overdrawn(source, volumeUl + leesUl, 'volumeUl');
  if (short !== null) return short;
  const field = { volume: 'volumeUl', vessel: 'toVesselId' };
  const refused = pourRefused(book, { receiver, volumeUl, newBatch, field });
  if (refused !== null) return refused;
  const [moved, lees, rest] = partLiquid(source.fill, [volumeUl, leesUl]);
  if (moved === undefined || lees === undefined) throw new Error('a liquid parts into as many as asked for');
  leaveRest(book, source.fill, rest);
  pourInto(book, { source: source.fill, liquid: moved, receiver, newBatch, toStage });
  book.pour(act.fromVesselId, 'lees', lees);
  return null;
}

export function drawOff(book: ChangeSet, act: ActOf<'drawOff'>): LedgerError | null {
  return takeOut(book, act.vesselId, act.volumeUl, 'drawn');
}

export function discard(book: ChangeSet, act: ActOf<'discard'>): LedgerError | null {
  return takeOut(book, act.vesselId, act.volumeUl, 'drain');
}

/** A sample for a measurement. Poured back it would change nothing, so only what is used up is written. */
export function sample(book: ChangeSet, act: ActOf<'sample'>): LedgerError | null {
  return takeOut(book, act.vesselId, act.volumeUl, 'samples');
}

/** Filtered or fined clear: what it cost is a loss, and the lees are gone. */
export function filter(book: ChangeSet, act: ActOf<'filter'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  const { fill } = filled;
  if (act.lossUl >= fill.volumeUl) return overdrawn(filled, fill.volumeUl + 1, 'lossUl');
  const [lost, rest] = partLiquid(fill, [act.lossUl]);
  if (lost === undefined || rest === undefined) throw new Error('a liquid parts into as many as asked for');
  book.put('fill', { ...fill, ...rest, onLees: false });
  book.pour(act.vesselId, 'loss', lost);
  return null;
}

function takeOut(book: ChangeSet, vesselId: string, volumeUl: number, account: Account): LedgerError | null {
  const filled = filledVessel(book, vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  const short = overdrawn(filled, volumeUl, 'volumeUl');
  if (short !== null) return short;
  const [taken, rest] = partLiquid(filled.fill, [volumeUl]);
  if (taken === undefined) throw new Error('a liquid parts into as many as asked for');
  leaveRest(book, filled.fill, rest);
  book.pour(vesselId, account, taken);
  return null;
}
