import type { ShelfRow } from '#core/contract/shelves.ts';
import type { ActDraft } from '#core/ledger/act.ts';
import type { FilledStage } from '#core/ledger/stage.ts';
import { browserTime } from '../acts/browser-time.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { sayLedgerError } from '../words/error-words.ts';
import { vesselTitle } from '../words/vessel-words.ts';
import { noteAbout } from './note-about.ts';

/** What came of doing one act for several vessels: how many were done, and why others were not. */
export interface SeveralOutcome {
  readonly done: number;
  readonly refused: readonly { readonly title: string; readonly why: string }[];
}

/** Does the same act for one vessel after another, each its own entry of the book with its own undo. */
export class SeveralActs {
  isBusy = $state(false);
  outcome = $state.raw<SeveralOutcome | null>(null);

  moveOn(rows: readonly ShelfRow[], stage: FilledStage, reason: string): Promise<void> {
    return this.#each(rows, ({ vesselId }) => ({ kind: 'changeStage', vesselId, stage, reason }));
  }

  note(rows: readonly ShelfRow[], text: string): Promise<void> {
    return this.#each(rows, (row) => ({ kind: 'note', about: noteAbout(row), text }));
  }

  async #each(rows: readonly ShelfRow[], draft: (row: ShelfRow) => ActDraft): Promise<void> {
    if (this.isBusy) return;
    this.isBusy = true;
    this.outcome = null;
    let done = 0;
    const refused: { title: string; why: string }[] = [];
    try {
      for (const row of rows) {
        const result = await cellar.post(draft(row));
        if (result.ok) done += 1;
        else refused.push({ title: vesselTitle(row), why: whyOf(result) });
      }
    } finally {
      this.isBusy = false;
      this.outcome = { done, refused };
    }
  }
}

type Refused = Extract<Awaited<ReturnType<typeof cellar.post>>, { readonly ok: false }>;

function whyOf(result: Refused): string {
  if (result.refusal === undefined) return result.fault.message;
  return sayLedgerError(result.refusal, { house: cellar.rules, localTime: browserTime }).sentence;
}
