import { acts } from '../acts/acts-state.svelte.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { houseRules } from '../house-rules/house-rules-state.svelte.ts';
import { nav } from '../navigation/navigation.svelte.ts';
import type { KeyGroup } from './keys.svelte.ts';
import { cyclePane } from './panes.ts';
import { PLACES } from './places.ts';
import { shell } from './shell-state.svelte.ts';

/** The keys that act in every place. */
export function everywhereKeys(): KeyGroup {
  return {
    where: 'Everywhere',
    acts: [
      ...PLACES.map(({ place, name, number }) => ({
        keys: `Ctrl+${number}`,
        says: name,
        run: () => {
          nav.go({ place });
        },
      })),
      {
        keys: 'Ctrl+K',
        says: 'Find, or chalk a reading',
        run: () => {
          shell.findOrChalk();
        },
      },
      {
        keys: 'Ctrl+N',
        says: 'New batch',
        run: () => {
          acts.open({ kind: 'startBatch' });
        },
      },
      {
        keys: 'Ctrl+Shift+N',
        says: 'New vessel',
        run: () => {
          acts.open({ kind: 'addVessel' });
        },
      },
      {
        keys: 'Ctrl+Z',
        says: 'Undo the last act',
        run: () => void cellar.undo(),
        enabled: () => cellar.undoState.undo !== null,
      },
      {
        keys: 'Ctrl+Shift+Z',
        says: 'Redo',
        run: () => void cellar.redo(),
        enabled: () => cellar.undoState.redo !== null,
      },
      {
        keys: 'Ctrl+S',
        says: 'Whether everything is saved',
        run: () => {
          shell.alreadySavedOpen = true;
        },
      },
      {
        keys: 'Ctrl+Shift+S',
        says: 'Save a copy',
        run: () => {
          houseRules.showCopy();
        },
      },
      {
        keys: 'Ctrl+Shift+B',
        says: 'Back up now',
        run: () => {
          shell.askStrongbox('backUp');
        },
      },
      {
        keys: 'Ctrl+Shift+O',
        says: 'Restore from a backup',
        run: () => {
          shell.askStrongbox('restore');
        },
      },
      {
        keys: 'Ctrl+O',
        says: 'Open another cellar',
        run: () => {
          houseRules.showOpening();
        },
      },
      {
        keys: 'Ctrl+Shift+P',
        says: 'Pantry mode on or off',
        run: () => void cellar.settle({ ...cellar.rules, pantry: !cellar.rules.pantry }),
      },
      {
        keys: 'Ctrl+,',
        says: 'House Rules',
        run: () => {
          houseRules.show();
        },
      },
      {
        keys: 'F6',
        says: 'Next pane',
        run: () => {
          cyclePane(1);
        },
      },
      {
        keys: 'Shift+F6',
        says: 'Previous pane',
        run: () => {
          cyclePane(-1);
        },
      },
      {
        keys: 'Alt+ArrowLeft',
        says: 'Back',
        run: () => {
          nav.back();
        },
      },
      {
        keys: 'F1',
        says: 'Keys for this place',
        run: () => {
          shell.keysOpen = true;
        },
      },
      {
        keys: '?',
        says: 'Keys for this place',
        run: () => {
          shell.keysOpen = true;
        },
      },
    ],
  };
}
