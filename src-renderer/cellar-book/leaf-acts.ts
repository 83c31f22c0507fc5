import type { BatchId, VesselId } from '#core/ledger/ids.ts';
import { acts } from '../acts/acts-state.svelte.ts';
import type { Again } from '../acts/make-again.ts';
import { nav } from '../navigation/navigation.svelte.ts';
import { toLabel } from '../paper/to-label.svelte.ts';
import type { KeyGroup } from '../shell/keys.svelte.ts';

/** What can be done from a leaf. Those that need a vessel do nothing while the batch stands in none. */
export interface LeafActs {
  readonly record: () => void;
  readonly note: () => void;
  readonly moveOn: () => void;
  readonly transfer: () => void;
  readonly split: () => void;
  readonly look: () => void;
  readonly titrate: () => void;
  readonly heat: () => void;
  readonly showOnShelf: () => void;
  readonly workOut: () => void;
  readonly taste: () => void;
  readonly edit: () => void;
  readonly print: () => void;
  readonly forBinder: () => void;
  readonly label: () => void;
  readonly again: () => void;
  readonly compare: () => void;
}

/** The acts of a leaf on the part of the batch that is held when they are pressed. */
export function leafActs(batchId: BatchId, held: () => VesselId | null, again: () => Again | null): LeafActs {
  const onHeld = (act: (vesselId: VesselId) => void) => (): void => {
    const vesselId = held();
    if (vesselId !== null) act(vesselId);
  };
  return {
    record: onHeld((vesselId) => acts.open({ kind: 'reading', vesselId })),
    note: () => acts.open({ kind: 'note', about: { kind: 'batch', batchId } }),
    moveOn: onHeld((vesselId) => acts.open({ kind: 'changeStage', vesselId })),
    transfer: onHeld((vesselId) => acts.open({ kind: 'transfer', fromVesselId: vesselId })),
    split: onHeld((vesselId) => acts.open({ kind: 'split', fromVesselId: vesselId })),
    look: onHeld((vesselId) => acts.open({ kind: 'look', vesselId })),
    titrate: onHeld((vesselId) => acts.open({ kind: 'titrate', vesselId })),
    heat: onHeld((vesselId) => acts.open({ kind: 'heat', vesselId })),
    showOnShelf: onHeld((vesselId) => nav.go({ place: 'shelves', vesselId })),
    workOut: onHeld((vesselId) => nav.go({ place: 'bench', vesselId })),
    taste: () => {
      const vesselId = held();
      const about =
        vesselId === null ? ({ kind: 'batch', batchId } as const) : ({ kind: 'vessel', vesselId } as const);
      acts.open({ kind: 'taste', about });
    },
    edit: () => acts.open({ kind: 'editBatch', batchId }),
    print: () => window.print(),
    forBinder: () => nav.go({ place: 'paper', paper: 'leaf', batchId }),
    label: () => toLabel.label([{ kind: 'batch', batchId }]),
    again: () => {
      const made = again();
      if (made !== null) acts.open({ kind: 'startBatch', again: made });
    },
    compare: () => nav.go({ place: 'compare', batchIds: [batchId] }),
  };
}

/** The same acts by single letters, for as long as the leaf is in sight. */
export function leafKeys(leaf: LeafActs, stands: () => boolean): KeyGroup {
  const enabled = stands;
  return {
    where: 'On a leaf',
    acts: [
      { keys: 'R', says: 'Record a reading', run: leaf.record, enabled },
      { keys: 'N', says: 'Write a note', run: leaf.note },
      { keys: 'G', says: 'Move on to the next stage', run: leaf.moveOn, enabled },
      { keys: 'T', says: 'Transfer', run: leaf.transfer, enabled },
      { keys: 'S', says: 'Split into several vessels', run: leaf.split, enabled },
      { keys: 'H', says: 'Show on the shelf', run: leaf.showOnShelf, enabled },
      { keys: 'W', says: 'Work it out on the bench', run: leaf.workOut, enabled },
      { keys: 'A', says: 'Make it again', run: leaf.again },
      { keys: 'C', says: 'Compare it with others', run: leaf.compare },
      { keys: 'L', says: 'Print labels for it', run: leaf.label },
      { keys: 'P', says: 'Print this leaf', run: leaf.print },
      { keys: 'B', says: 'Lay it out for the binder', run: leaf.forBinder },
      { keys: 'Ctrl+P', says: 'Print this leaf', run: leaf.print },
    ],
  };
}
