import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { composed, inStage, newLiquid, writeSpan } from './decide-batches.ts';
import { isRefusal, usableVessel } from './decide-vessels.ts';
import { filledVessel, leaveRest, overdrawn, overfilled } from './fill-amounts.ts';
import { writeFlow } from './flows.ts';
import type { CultureId } from './ids.ts';
import type { LedgerError } from './ledger-error.ts';
import { partLiquid, type Liquid } from './liquid.ts';
import { tidyMasses, unassayed } from './masses.ts';
import type { FillRecord } from './records.ts';

export function addCulture(book: ChangeSet, act: ActOf<'addCulture'>): LedgerError | null {
  if (act.parentCultureId !== null) {
    if (act.parentCultureId === act.cultureId) return { type: 'CultureOwnParent', field: 'parentCultureId' };
    const unknown = cultureMissing(book, act.parentCultureId, 'parentCultureId');
    if (unknown !== null) return unknown;
  }
  const { happenedAtMs } = book.context;
  const { cultureId: id, name, sort, source, note, parentCultureId } = act;
  book.put('culture', { id, name, sort, source, note, parentCultureId, sinceMs: happenedAtMs });
  return act.standing === null ? null : standCulture(book, act, act.standing);
}

function standCulture(
  book: ChangeSet,
  act: ActOf<'addCulture'>,
  standing: NonNullable<ActOf<'addCulture'>['standing']>,
): LedgerError | null {
  const { vesselId, volumeUl, batchId, code } = standing;
  const vessel = usableVessel(book, vesselId, 'vesselId');
  if (isRefusal(vessel)) return vessel;
  const held = book.get('fill', vesselId);
  if (held !== null) {
    return { type: 'VesselNotEmpty', field: 'vesselId', vesselNumber: vessel.number, holdsUl: held.volumeUl };
  }
  const refused = overfilled(vessel, 0, volumeUl, 'volumeUl');
  if (refused !== null) return refused;
  if (book.reader.batchCodeTaken(code)) {
    return { type: 'AlreadyTaken', field: 'code', what: 'batch code', value: code };
  }
  const { happenedAtMs } = book.context;
  book.put('batch', {
    ...{ id: batchId, code, name: act.name, ferment: 'cultureKeeping' as const, note: '' },
    ...{ startedAtMs: happenedAtMs, startedUl: volumeUl, ingredients: [] },
    ...{ parentBatchId: null, parentUl: null, keepsCultureId: act.cultureId },
  });
  const liquid = newLiquid(batchId, volumeUl, undefined);
  book.put('fill', {
    ...{ id: vesselId, batchId, ...liquid, stage: 'culture' as const, stageSinceMs: happenedAtMs },
    ...{ sinceMs: happenedAtMs, cultureId: act.cultureId, pull: null },
    ...{ composedAtMs: happenedAtMs, composedBy: 'start' as const, trail: [], onLees: false },
    settledAtMs: happenedAtMs,
  });
  writeSpan(book, batchId, vesselId, 'culture');
  book.pour('store', vesselId, liquid);
  return null;
}

export function editCulture(book: ChangeSet, act: ActOf<'editCulture'>): LedgerError | null {
  const culture = book.get('culture', act.cultureId);
  if (culture === null) return { type: 'NotFound', field: 'cultureId', what: 'culture', id: act.cultureId };
  const { name, sort, source, note } = act;
  book.put('culture', { ...culture, name, sort, source, note });
  return null;
}

export function feedCulture(book: ChangeSet, act: ActOf<'feedCulture'>): LedgerError | null {
  const unknown = cultureMissing(book, act.cultureId, 'cultureId');
  if (unknown !== null) return unknown;
  book.put('feeding', {
    id: book.context.entryId,
    cultureId: act.cultureId,
    atMs: book.context.happenedAtMs,
  });
  return null;
}

export function pitchYeast(book: ChangeSet, act: ActOf<'pitchYeast'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  if (act.cultureId !== null) {
    const unknown = cultureMissing(book, act.cultureId, 'cultureId');
    if (unknown !== null) return unknown;
  }
  const fill = inStage(book, filled.fill, 'yeast');
  book.put('fill', withCulture(book, fill, act.cultureId, 0));
  return null;
}

/** Puts a mother or raw vinegar to work in a vessel: liquid from the culture's own jar, from another vessel, or bought. */
export function seed(book: ChangeSet, act: ActOf<'seed'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  if (act.cultureId !== null) {
    const unknown = cultureMissing(book, act.cultureId, 'cultureId');
    if (unknown !== null) return unknown;
  }
  if (act.cultureId === null && act.fromVesselId === null && act.what === '') {
    return { type: 'NothingToAdd', field: 'what' };
  }
  const refused = overfilled(filled.vessel, filled.fill.volumeUl, act.volumeUl, 'volumeUl');
  if (refused !== null) return refused;
  const isApart = act.fromVesselId !== null && book.get('fill', act.fromVesselId)?.stage === 'quarantine';
  const taken = act.fromVesselId === null ? fromStore(book, act) : fromVessel(book, act, act.fromVesselId);
  if (isRefusal(taken)) return taken;
  const joined: FillRecord = {
    ...composed(book, filled.fill, 'seed'),
    ...book.join(filled.fill.id, [filled.fill, taken]),
  };
  const staged = inStage(book, joined, isApart ? 'quarantine' : act.toStage);
  book.put('fill', withCulture(book, staged, act.cultureId, act.volumeUl));
  return null;
}

/** Bought or unnamed: it has no origin in this cellar, so it brings no tokens. */
function fromStore(book: ChangeSet, act: ActOf<'seed'>): Liquid {
  const massesUg = tidyMasses(act.massesUg ?? unassayed(act.volumeUl));
  const liquid: Liquid = { volumeUl: act.volumeUl, massesUg, origins: {} };
  book.pour('store', act.vesselId, liquid);
  if (act.volumeUl > 0) {
    const receiver = book.get('fill', act.vesselId);
    writeFlow(book, { from: null, to: receiver, volumeUl: act.volumeUl, ontoNothing: false });
  }
  return liquid;
}

function fromVessel(book: ChangeSet, act: ActOf<'seed'>, fromVesselId: string): Liquid | LedgerError {
  if (fromVesselId === act.vesselId) return { type: 'SameVessel', field: 'fromVesselId' };
  const source = filledVessel(book, fromVesselId, 'fromVesselId');
  if (isRefusal(source)) return source;
  const short = overdrawn(source, act.volumeUl, 'volumeUl');
  if (short !== null) return short;
  const [moved, rest] = partLiquid(source.fill, [act.volumeUl]);
  if (moved === undefined || act.volumeUl === 0) return { volumeUl: 0, massesUg: {}, origins: {} };
  const receiver = book.get('fill', act.vesselId);
  leaveRest(book, source.fill, rest);
  book.pour(source.fill.id, act.vesselId, moved);
  writeFlow(book, { from: source.fill, to: receiver, volumeUl: act.volumeUl, ontoNothing: false });
  return moved;
}

/** Names the culture now at work and writes its next pull. Without a culture the fill keeps none: it is not known. */
function withCulture(
  book: ChangeSet,
  fill: FillRecord,
  cultureId: CultureId | null,
  volumeUl: number,
): FillRecord {
  if (cultureId === null) return { ...fill, cultureId: null, pull: null };
  const number = book.reader.lastPullNumber(cultureId) + 1;
  const { entryId, happenedAtMs } = book.context;
  book.put('pull', {
    ...{ id: entryId, cultureId, number, atMs: happenedAtMs },
    ...{ vesselId: fill.id, batchId: fill.batchId, volumeUl },
  });
  return { ...fill, cultureId, pull: number };
}

function cultureMissing(book: ChangeSet, id: CultureId, field: string): LedgerError | null {
  return book.get('culture', id) === null ? { type: 'NotFound', field, what: 'culture', id } : null;
}
