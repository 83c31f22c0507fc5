import type { CultureRow } from '#core/contract/cultures.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import { detailsOf } from '../paper/details-of.ts';
import { groupsOf, type Details } from '../paper/paper-data.ts';
import { boundsOf, type WallDay } from './calendar-days.ts';

/** Lines shown of one day, or of one list; more are counted and found in the book. */
const LINES_AT_ONCE = 200;

/** What is due from now on, and what happened on the days in sight. */
export class CalendarState {
  /** Null until the first answer. */
  rows = $state.raw<readonly ShelfRow[] | null>(null);
  cultures = $state.raw<readonly CultureRow[]>([]);
  /** All that is due of a vessel, not only the most pressing; filled in after the rows. */
  details = $state.raw<Details>(new Map());
  /** How many lines each day in sight has, by the day. */
  doneByDay = $state.raw<ReadonlyMap<string, number>>(new Map());
  /** The lines of the days that are told in full. */
  entries = $state.raw<readonly EntryRow[]>([]);
  more = $state(false);
  #askingDue = 0;
  #askingDone = 0;
  #askingLines = 0;

  async loadDue(): Promise<void> {
    const asking = (this.#askingDue += 1);
    const stopped = (): boolean => asking !== this.#askingDue;
    try {
      const [groups, cultures] = await Promise.all([groupsOf('due', cellar.today()), client.cultures.list()]);
      if (stopped()) return;
      const rows = groups.flatMap((group) => group.rows);
      [this.rows, this.cultures] = [rows, cultures];
      const details = await detailsOf(rows, stopped);
      if (!stopped()) this.details = details;
    } catch (error) {
      if (!stopped()) faults.report(error);
    }
  }

  async loadDone(days: readonly WallDay[]): Promise<void> {
    const asking = (this.#askingDone += 1);
    try {
      const { counts } = await client.ledger.happened({ boundsMs: boundsOf(days), limit: 0 });
      if (asking === this.#askingDone)
        this.doneByDay = new Map(days.map(({ iso }, i) => [iso, counts[i] ?? 0]));
    } catch (error) {
      if (asking === this.#askingDone) faults.report(error);
    }
  }

  async loadLines(days: readonly WallDay[]): Promise<void> {
    const asking = (this.#askingLines += 1);
    try {
      const told = await client.ledger.happened({ boundsMs: boundsOf(days), limit: LINES_AT_ONCE });
      if (asking === this.#askingLines) [this.entries, this.more] = [told.entries, told.more];
    } catch (error) {
      if (asking === this.#askingLines) faults.report(error);
    }
  }

  leave(): void {
    this.#askingDue += 1;
    this.#askingDone += 1;
    this.#askingLines += 1;
  }
}
