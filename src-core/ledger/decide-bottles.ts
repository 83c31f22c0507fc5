import { largestRemainder } from './allocate.ts';
import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { composed, inStage, writeSpan } from './decide-batches.ts';
import { isRefusal, usableVessel } from './decide-vessels.ts';
import { filledVessel, leaveRest, overdrawn, overfilled } from './fill-amounts.ts';
import { writeFlow } from './flows.ts';
import type { LedgerError } from './ledger-error.ts';
import { partLiquid, type Liquid, type Origins } from './liquid.ts';
import { partMasses } from './masses.ts';
import { APART_AS_FILLED, type FillRecord, type LotRecord } from './records.ts';

export function bottle(book: ChangeSet, act: ActOf<'bottle'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  const bottledUl = act.bottles * act.bottleUl;
  const short = overdrawn(filled, bottledUl + act.lossUl, 'bottles');
  if (short !== null) return short;
  const [bottled, lost, rest] = partLiquid(filled.fill, [bottledUl, act.lossUl]);
  if (bottled === undefined || lost === undefined)
    throw new Error('a liquid parts into as many as asked for');
  leaveRest(book, filled.fill, rest);
  const { entryId: id, happenedAtMs: atMs } = book.context;
  const keptApartFor = filled.fill.stage === 'quarantine' ? APART_AS_FILLED : '';
  book.put('lot', {
    ...{ id, batchId: filled.fill.batchId, bottles: act.bottles, bottleUl: act.bottleUl, atMs },
    ...{ left: act.bottles, keptApartFor, massesUg: bottled.massesUg, origins: bottled.origins },
  });
  book.pour(act.vesselId, 'bottles', bottled);
  book.pour(act.vesselId, 'loss', lost);
  writeFlow(book, { from: filled.fill, to: null, toLotId: id, volumeUl: bottledUl, ontoNothing: true });
  return null;
}

/** Bottles leave the lot: opened, given to somebody, or broken. */
export function takeBottles(book: ChangeSet, act: ActOf<'takeBottles'>): LedgerError | null {
  const lot = lotWith(book, act.lotId, act.bottles);
  if (isRefusal(lot)) return lot;
  const [taken, rest] = partLot(lot, act.bottles);
  book.put('lot', rest);
  book.pour('bottles', ACCOUNT_BY_WAY[act.how], taken);
  return null;
}

const ACCOUNT_BY_WAY = { opened: 'drunk', given: 'given', broken: 'broken' } as const;

/** Bottles are emptied back into a vessel: as the batch they were, or into what stands there. Kept apart, they keep it apart. */
export function returnBottles(book: ChangeSet, act: ActOf<'returnBottles'>): LedgerError | null {
  const lot = lotWith(book, act.lotId, act.bottles);
  if (isRefusal(lot)) return lot;
  const receiver = usableVessel(book, act.toVesselId, 'toVesselId');
  if (isRefusal(receiver)) return receiver;
  const [taken, rest] = partLot(lot, act.bottles);
  if (act.lossUl >= taken.volumeUl) {
    return { type: 'LotShort', field: 'lossUl', leftUl: taken.volumeUl, wantedUl: act.lossUl };
  }
  const [lost, poured] = partLiquid(taken, [act.lossUl]);
  if (lost === undefined || poured === undefined) throw new Error('a liquid parts into as many as asked for');
  const there = book.get('fill', receiver.id);
  const full = overfilled(receiver, there?.volumeUl ?? 0, poured.volumeUl, 'bottles');
  if (full !== null) return full;
  book.put('lot', rest);
  book.pour('bottles', 'loss', lost);
  book.pour('bottles', receiver.id, poured);
  const { happenedAtMs } = book.context;
  const toStage = lot.keptApartFor === '' ? act.toStage : 'quarantine';
  if (there !== null) {
    const liquid = book.join(receiver.id, [there, poured]);
    const blended: FillRecord = { ...composed(book, there, 'blend'), ...liquid };
    book.put('fill', inStage(book, blended, toStage ?? there.stage));
  } else {
    const stage = toStage ?? 'held';
    book.put('fill', {
      ...{ id: receiver.id, batchId: lot.batchId, ...poured, stage, stageSinceMs: happenedAtMs },
      ...{ sinceMs: happenedAtMs, cultureId: null, pull: null, composedAtMs: happenedAtMs },
      settledAtMs: happenedAtMs,
      ...{ composedBy: 'blend' as const, trail: [], onLees: stage === 'yeast' || stage === 'settling' },
    });
    writeSpan(book, lot.batchId, receiver.id, stage);
  }
  writeFlow(book, {
    from: null,
    to: book.get('fill', receiver.id),
    fromLotId: lot.id,
    volumeUl: poured.volumeUl,
    ontoNothing: there === null,
  });
  return null;
}

function lotWith(book: ChangeSet, lotId: string, bottles: number): LotRecord | LedgerError {
  const lot = book.get('lot', lotId);
  if (lot === null) return { type: 'NotFound', field: 'lotId', what: 'lot', id: lotId };
  if (bottles > lot.left) {
    return { type: 'TooFewBottles', field: 'bottles', left: lot.left, wanted: bottles };
  }
  return lot;
}

/** Bottles of one lot are alike: what they hold is parted by their number. */
function partLot(lot: LotRecord, bottles: number): readonly [Liquid, LotRecord] {
  const counts = [bottles, lot.left - bottles];
  const [takenUg = {}, restUg = {}] = partMasses(lot.massesUg, counts);
  const taken: Record<string, number> = {};
  const rest: Record<string, number> = {};
  for (const [origin, tokens] of Object.entries(lot.origins)) {
    const [a = 0, b = 0] = largestRemainder(tokens, counts);
    if (a > 0) taken[origin] = a;
    if (b > 0) rest[origin] = b;
  }
  const origins: Origins = rest;
  return [
    { volumeUl: bottles * lot.bottleUl, massesUg: takenUg, origins: taken },
    { ...lot, left: lot.left - bottles, massesUg: restUg, origins },
  ];
}
