import type { BackupStanding } from '#core/contract/strongbox.ts';
import { backupAge, type BackupAge } from '#core/strongbox/overdue.ts';
import { client } from '../backend/call.ts';
import { cellar } from './cellar-state.svelte.ts';

/** How often the age of the backup is told anew while the window stays open, and the program is asked again. */
const LOOK_EVERY_MS = 30_000;
/** Several acts in a row are asked about once. */
const SOON_MS = 400;

/** What a menu or a key asks of the Strongbox. */
export type BackupAct = 'backUp' | 'restore';

/** What is known of the backups of the open cellar, wherever in the window it is told. */
class BackupStandingState {
  known = $state.raw<BackupStanding | null>(null);
  /** What was asked for from a menu or by a key, until the Strongbox takes it up. */
  asked = $state<BackupAct | null>(null);
  #nowMs = $state(cellar.now());

  /** How long ago the last backup was, by the program's clock; null while there is nothing that could be lost. */
  age = $derived<BackupAge | null>(this.known === null ? null : backupAge(this.known, this.#nowMs));

  nowMs(): number {
    return this.#nowMs;
  }

  /** Asks the program. What it does not answer is told by whatever else the window asks it. */
  async load(): Promise<void> {
    try {
      this.known = await client.strongbox.standing();
    } catch {
      // The last that was known stays, and grows older.
    }
    this.#nowMs = cellar.now();
  }

  loadSoon(): () => void {
    const soon = setTimeout(() => void this.load(), SOON_MS);
    return () => {
      clearTimeout(soon);
    };
  }

  /** Keeps it true while the window stays open. Returns what ends it. */
  follow(): () => void {
    const look = (): void => {
      if (document.visibilityState === 'visible') void this.load();
    };
    const often = setInterval(look, LOOK_EVERY_MS);
    document.addEventListener('visibilitychange', look);
    return () => {
      clearInterval(often);
      document.removeEventListener('visibilitychange', look);
    };
  }
}

export const backupStanding = new BackupStandingState();
