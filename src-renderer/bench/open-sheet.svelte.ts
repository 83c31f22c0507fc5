import type { KeptSheet } from './kept-sheets.svelte.ts';

/** The kept sheet that is to be laid onto the bench next. Each asking begins the page anew. */
class OpenSheet {
  serial = $state(0);
  #sheet: KeptSheet | null = null;

  ask(sheet: KeptSheet): void {
    this.#sheet = sheet;
    this.serial += 1;
  }

  /** The sheet asked for, if it is one of this reckoning; it is handed out once. */
  take(reckoningId: string): KeptSheet | null {
    const sheet = this.#sheet;
    if (sheet?.reckoningId !== reckoningId) return null;
    this.#sheet = null;
    return sheet;
  }
}

export const openSheet = new OpenSheet();
