import type { CultureLines, CultureRow } from '#core/contract/cultures.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import { ALL_BATCHES } from '#core/ledger/batch-filter.ts';
import type { CultureId } from '#core/ledger/ids.ts';
import { isDefinedError, safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';

const DAYS_AT_ONCE = 10;

/** The cultures of the cellar, and the one whose lines are shown. */
export class CulturesState {
  /** Null until the first answer. */
  rows = $state.raw<readonly CultureRow[] | null>(null);
  lines = $state.raw<CultureLines | null>(null);
  /** How many batches this culture has worked in. */
  descended = $state(0);
  days = $state.raw<readonly EntryRow[]>([]);
  moreDays = $state(false);
  #asking = 0;

  async loadRows(): Promise<void> {
    try {
      this.rows = await client.cultures.list();
    } catch (error) {
      faults.report(error);
    }
  }

  /** Loads the lines of one culture; a culture that is not there any more shows none. */
  async loadLines(cultureId: CultureId | null): Promise<void> {
    const asking = (this.#asking += 1);
    if (cultureId === null) {
      this.lines = null;
      return;
    }
    try {
      const [lines, worked, days] = await Promise.all([
        safe(client.cultures.lines({ cultureId })),
        client.book.batches({
          ...ALL_BATCHES,
          cultureId,
          offset: 0,
          limit: 1,
        }),
        client.ledger.entries({
          about: { kind: 'culture', cultureId },
          beforeSequence: null,
          limit: DAYS_AT_ONCE,
        }),
      ]);
      if (asking !== this.#asking) return;
      if (lines.error !== null) {
        this.lines = null;
        if (!isDefinedError(lines.error)) throw lines.error;
        return;
      }
      this.lines = lines.data;
      this.descended = worked.total;
      this.days = days.entries;
      this.moreDays = days.more;
    } catch (error) {
      if (asking === this.#asking) faults.report(error);
    }
  }

  async loadMoreDays(): Promise<void> {
    const oldest = this.days.at(-1);
    const cultureId = this.lines?.culture.cultureId;
    if (oldest === undefined || cultureId === undefined) return;
    try {
      const older = await client.ledger.entries({
        about: { kind: 'culture', cultureId },
        beforeSequence: oldest.sequence,
        limit: DAYS_AT_ONCE,
      });
      if (this.lines?.culture.cultureId !== cultureId) return;
      this.days = [...this.days, ...older.entries];
      this.moreDays = older.more;
    } catch (error) {
      faults.report(error);
    }
  }
}
