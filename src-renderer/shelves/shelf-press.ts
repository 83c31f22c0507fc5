import type { ShelfRow } from '#core/contract/shelves.ts';
import type { ShelfId } from '#core/ledger/ids.ts';
import { acts } from '../acts/acts-state.svelte.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { nav } from '../navigation/navigation.svelte.ts';
import { transferFit } from '../words/fit-words.ts';
import { vesselTitle } from '../words/vessel-words.ts';
import type { Spot } from './shelf-moves.ts';
import { shelves } from './shelves-state.svelte.ts';

/** What a press on a spot does: choose, add, extend, put a vessel there, or give the receiver of a transfer. */
export function pressSpot(spot: Spot, how: { readonly add: boolean; readonly extend: boolean }): void {
  const row = shelves.data.at(spot.group, spot.slot);
  if (shelves.transferFrom !== null) {
    shelves.moveTo(spot);
    if (row) receive(row);
    else shelves.announcement = 'No vessel stands there.';
    return;
  }
  if (how.extend) {
    shelves.moveTo(spot, true);
    return;
  }
  shelves.moveTo(spot);
  if (row === null) putVesselAt(spot);
  else if (row !== undefined && how.add) shelves.toggle(row.vesselId);
  else if (row !== undefined) show(row);
}

/** Selects a vessel, fills the side panel with it and writes it into the address. */
export function show(row: ShelfRow): void {
  shelves.choose(row.vesselId);
  nav.replace({ place: 'shelves', vesselId: row.vesselId });
}

/** Opens what Enter opens: the leaf of what stands there, the panel of an empty vessel, a new vessel on a free place. */
export function openSpot(spot: Spot): void {
  const row = shelves.data.at(spot.group, spot.slot);
  if (shelves.transferFrom !== null || row === null) pressSpot(spot, { add: false, extend: false });
  else if (row?.batchId) nav.go({ place: 'leaf', batchId: row.batchId });
  else if (row) show(row);
}

function putVesselAt(spot: Spot): void {
  const group = shelves.data.groupAt(spot.group);
  if (group === undefined || group.positions === null) return;
  acts.open({ kind: 'addVessel', shelfId: group.key as ShelfId, position: spot.slot + 1 });
}

/** Begins choosing where the liquid of a vessel goes. */
export function beginTransfer(row: ShelfRow): void {
  if (row.stage === 'empty') {
    shelves.announcement = `${vesselTitle(row)} is empty: there is nothing to transfer.`;
    return;
  }
  shelves.transferFrom = row;
  // A drawer or a sheet would lie over the vessels that are to be pressed.
  shelves.drawerOpen = false;
  shelves.announcement = `Transferring from ${vesselTitle(row)}. Press where it goes, or Escape.`;
}

export function endTransfer(): void {
  if (shelves.transferFrom !== null) shelves.announcement = 'Transfer put aside. Nothing was moved.';
  shelves.transferFrom = null;
}

/** Takes a vessel as the receiver and opens the plan; one that cannot take anything says why. */
export function receive(to: ShelfRow): void {
  const from = shelves.transferFrom;
  if (from === null) return;
  const fit = transferFit(from, to, cellar.rules);
  if (!fit.suits) {
    shelves.announcement = `${vesselTitle(to)}: ${fit.words}.`;
    return;
  }
  shelves.transferFrom = null;
  shelves.announcement = `From ${vesselTitle(from)} into ${vesselTitle(to)}.`;
  acts.open({ kind: 'transfer', fromVesselId: from.vesselId, toVesselId: to.vesselId });
}
