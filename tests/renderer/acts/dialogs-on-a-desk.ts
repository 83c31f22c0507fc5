import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest';
import { join } from 'node:path';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { begun, NOW, openDeskOn, scratchFolder, type TestDesk } from '../../main/desk-for-tests.ts';
import { hands, teachDialogs, type Hands } from './acts-desk.ts';
import { served } from './client-of-desk.ts';

export interface GivenToDialogs {
  /** The shelf, the jar and the must of a cellar that has just been begun. */
  readonly at: Awaited<ReturnType<typeof begun>>;
  readonly me: Hands;
}

/**
 * A cellar of its own for each test of a file, with the dialogs upon it. The file says first that calls go there:
 * `vi.mock('#renderer/backend/call.ts', () => import('./client-of-desk.ts'))`. With `clock` running, what the page dates
 * now is never still to come.
 */
export function dialogsOnADesk(
  use: (given: GivenToDialogs) => void,
  clock: 'stands' | 'runs' = 'stands',
): () => TestDesk {
  const scratch = scratchFolder();
  let count = 0;
  beforeAll(teachDialogs);
  beforeEach(async () => {
    localStorage.clear();
    const began = Date.now();
    const now = clock === 'stands' ? undefined : (): number => NOW + Date.now() - began;
    const desk = openDeskOn(join(scratch.folder, `${(count += 1)}.undercroft`), now);
    served.desk = desk;
    use({ at: await begun(desk), me: hands(desk) });
  });
  afterEach(() => {
    acts.close();
    served.desk?.close();
  });
  afterAll(() => {
    scratch.remove();
  });
  return () => {
    if (served.desk === null) throw new Error('no desk');
    return served.desk;
  };
}
