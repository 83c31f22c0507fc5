import type { ShelfRow } from '#core/contract/shelves.ts';
import type { ShelfId } from '#core/ledger/ids.ts';
import { acts } from '../acts/acts-state.svelte.ts';
import { nav } from '../navigation/navigation.svelte.ts';
import { toLabel } from '../paper/to-label.svelte.ts';
import type { KeyAct, KeyGroup } from '../shell/keys.svelte.ts';
import { noteAbout } from './note-about.ts';
import { beginTransfer } from './shelf-press.ts';
import { severalRequests } from './several-requests.ts';
import { shelves } from './shelves-state.svelte.ts';

/** The vessel at hand when something is in it. */
function filledAtHand(): ShelfRow | null {
  const row = shelves.vesselAtHand;
  return row === null || row.stage === 'empty' ? null : row;
}

function withFilled(run: (row: ShelfRow) => void): void {
  const row = filledAtHand();
  if (row === null) {
    shelves.announcement = 'Choose a vessel with something in it first.';
    return;
  }
  run(row);
}

/** With one filled and some empty vessels selected it is split into those, else it is what is at hand. */
function beginSplit(): void {
  const { split } = severalRequests(shelves.selectedRows());
  if (split !== null) acts.open(split);
  else {
    withFilled(({ vesselId }) => {
      acts.open({ kind: 'split', fromVesselId: vesselId });
    });
  }
}

/** Labels for the vessels selected, else for the one at hand. */
function labelChosen(): void {
  const selected = shelves.selectedRows();
  const rows = selected.length > 0 ? selected : shelves.vesselAtHand === null ? [] : [shelves.vesselAtHand];
  if (rows.length === 0) shelves.announcement = 'Choose the vessels to label first.';
  else toLabel.label(rows.map(({ vesselId }) => ({ kind: 'vessel', vesselId })));
}

/** Keys that the shelves themselves heed; listed here so that the list of keys tells them. */
const told = (keys: string, says: string): KeyAct => ({
  keys,
  says,
  run: () => undefined,
  enabled: () => false,
});

/** The keys that act while the shelves are in sight. */
export function shelfKeyActs(): KeyGroup {
  return {
    where: 'On the shelves',
    acts: [
      {
        keys: 'R',
        says: 'Record a reading',
        run: () => {
          acts.open({ kind: 'reading', vesselId: filledAtHand()?.vesselId });
        },
      },
      {
        keys: 'N',
        says: 'Note',
        run: () => {
          const row = shelves.vesselAtHand;
          if (row) acts.open({ kind: 'note', about: noteAbout(row) });
        },
        enabled: () => shelves.vesselAtHand !== null,
      },
      {
        keys: 'G',
        says: 'Move on to the next stage',
        run: () => {
          withFilled(({ vesselId }) => {
            acts.open({ kind: 'changeStage', vesselId });
          });
        },
      },
      {
        keys: 'T',
        says: 'Transfer: then go to where it goes and press Enter',
        run: () => {
          withFilled(beginTransfer);
        },
      },
      {
        keys: 'S',
        says: 'Split into several vessels',
        run: beginSplit,
      },
      {
        keys: 'W',
        says: 'Work it out on the bench',
        run: () => {
          withFilled(({ vesselId }) => {
            nav.go({ place: 'bench', vesselId });
          });
        },
      },
      {
        keys: 'L',
        says: 'Print labels',
        run: labelChosen,
      },
      {
        keys: 'P',
        says: 'Print the shelf list',
        run: () => {
          nav.go({ place: 'paper', paper: 'shelves' });
        },
      },
      {
        keys: 'E',
        says: 'Change this shelf',
        run: () => {
          const group = shelves.cursor === null ? undefined : shelves.data.groupAt(shelves.cursor.group);
          if (group !== undefined && group.positions !== null)
            acts.open({ kind: 'editShelf', shelfId: group.key as ShelfId });
        },
      },
      ...(['roomy', 'close', 'dots'] as const).map((density, i) => ({
        keys: String(i + 1),
        says: `Draw the shelves ${density === 'dots' ? 'as dots' : density}`,
        run: () => {
          shelves.draw(density);
        },
      })),
      {
        keys: '[',
        says: 'Smaller vessels',
        run: () => {
          shelves.zoomBy(-1);
        },
      },
      {
        keys: ']',
        says: 'Larger vessels',
        run: () => {
          shelves.zoomBy(1);
        },
      },
      told('Enter', 'Open the leaf, or put a vessel on a free place'),
      told('Space', 'Add to or take from the selection'),
      told('Shift+ArrowRight', 'Select a run'),
      told('Ctrl+A', 'Select the shelf, then all'),
      told('Home', 'First on the shelf; with Ctrl first of all'),
      told('End', 'Last on the shelf; with Ctrl last of all'),
      told('PageDown', 'One screen on'),
      told('Esc', 'Put aside the transfer, the selection, the filter'),
    ],
  };
}
