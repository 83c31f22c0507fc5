import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import type { ShelfId, VesselId } from './ids.ts';
import type { LedgerError } from './ledger-error.ts';
import type { VesselRecord } from './records.ts';

/** The vessel, or why it cannot be used: unknown, or retired. */
export function usableVessel(book: ChangeSet, id: string, field: string): VesselRecord | LedgerError {
  const vessel = book.get('vessel', id);
  if (vessel === null) return { type: 'NotFound', field, what: 'vessel', id };
  if (vessel.retired) return { type: 'VesselRetired', field, vesselNumber: vessel.number };
  return vessel;
}

export function isRefusal(value: object | null): value is LedgerError {
  return value !== null && 'type' in value;
}

export function addVessel(book: ChangeSet, act: ActOf<'addVessel'>): LedgerError | null {
  if (book.reader.vesselNumberTaken(act.number)) {
    return { type: 'AlreadyTaken', field: 'number', what: 'vessel number', value: String(act.number) };
  }
  const refused = spotRefused(book, act.shelfId, act.position, act.vesselId);
  if (refused !== null) return refused;
  const {
    vesselId: id,
    number,
    name,
    silhouette,
    capacityUl,
    mouth,
    material,
    closure,
    note,
    shelfId,
    position,
  } = act;
  book.put('vessel', {
    ...{ id, number, name, silhouette, capacityUl, mouth, material, closure, note },
    ...{ shelfId, position: shelfId === null ? null : position, retired: false },
    closureSinceMs: book.context.happenedAtMs,
    ...{ cleanedAtMs: null, cleanedHow: null, restUntilMs: null, holder: '' },
  });
  return null;
}

export function editVessel(book: ChangeSet, act: ActOf<'editVessel'>): LedgerError | null {
  const vessel = usableVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(vessel)) return vessel;
  const heldUl = book.get('fill', act.vesselId)?.volumeUl ?? 0;
  if (act.capacityUl < heldUl) {
    return { type: 'CapacityBelowContents', field: 'capacityUl', heldUl, capacityUl: act.capacityUl };
  }
  const { name, silhouette, capacityUl, mouth, material, closure, note } = act;
  const closureSinceMs = closure === vessel.closure ? vessel.closureSinceMs : book.context.happenedAtMs;
  book.put('vessel', {
    ...{ ...vessel, name, silhouette, capacityUl, mouth, material, closure, note },
    closureSinceMs,
  });
  return null;
}

export function moveVessel(book: ChangeSet, act: ActOf<'moveVessel'>): LedgerError | null {
  const vessel = usableVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(vessel)) return vessel;
  const refused = spotRefused(book, act.shelfId, act.position, act.vesselId);
  if (refused !== null) return refused;
  book.put('vessel', {
    ...vessel,
    shelfId: act.shelfId,
    position: act.shelfId === null ? null : act.position,
  });
  return null;
}

export function retireVessel(book: ChangeSet, act: ActOf<'retireVessel'>): LedgerError | null {
  const vessel = usableVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(vessel)) return vessel;
  const fill = book.get('fill', act.vesselId);
  if (fill !== null) {
    return { type: 'VesselNotEmpty', field: 'vesselId', vesselNumber: vessel.number, holdsUl: fill.volumeUl };
  }
  book.put('vessel', { ...vessel, retired: true, shelfId: null, position: null });
  return null;
}

export function changeClosure(book: ChangeSet, act: ActOf<'changeClosure'>): LedgerError | null {
  const vessel = usableVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(vessel)) return vessel;
  if (vessel.closure === act.closure) return { type: 'SameClosure', field: 'closure', closure: act.closure };
  book.put('vessel', { ...vessel, closure: act.closure, closureSinceMs: book.context.happenedAtMs });
  return null;
}

/** Why a vessel cannot stand there: no such shelf, off its end, or taken. Null when it can, or is to stand nowhere. */
export function spotRefused(
  book: ChangeSet,
  shelfId: ShelfId | null,
  position: number | null,
  vesselId: VesselId,
): LedgerError | null {
  if (shelfId === null) return null;
  const shelf = book.get('shelf', shelfId);
  if (shelf === null) return { type: 'NotFound', field: 'shelfId', what: 'shelf', id: shelfId };
  if (position === null || position > shelf.positions) {
    return {
      type: 'PositionOffShelf',
      field: 'position',
      position: position ?? 0,
      positions: shelf.positions,
    };
  }
  const there = book.reader.vesselAt(shelfId, position);
  if (there === null || there === vesselId) return null;
  const other = book.get('vessel', there);
  return { type: 'PositionTaken', field: 'position', position, byVesselNumber: other?.number ?? 0 };
}
