import type { BATCH_SORTS, BatchRow } from '#core/contract/book.ts';
import type { CultureId } from '#core/ledger/ids.ts';
import type { FermentKind, FilledStage } from '#core/ledger/stage.ts';
import { SvelteMap, SvelteSet } from 'svelte/reactivity';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';

export type BatchSort = (typeof BATCH_SORTS)[number];

/** Rows asked for, and drawn, together. */
export const CHUNK = 50;

/** The ledger of batches as filtered and sorted, read in chunks as they come into sight. */
export class BookState {
  text = $state('');
  ferment = $state<FermentKind | ''>('');
  stage = $state<FilledStage | ''>('');
  standingOnly = $state(false);
  sort = $state<BatchSort>('started');
  descending = $state(true);
  cultureId = $state<CultureId | null>(null);
  cultureName = $state<string | null>(null);

  /** Null until the first answer. */
  total = $state<number | null>(null);
  readonly chunks = new SvelteMap<number, readonly BatchRow[]>();
  /** Chunks in or near sight. */
  readonly near = new SvelteSet<number>();
  /** The line that takes the arrow keys. */
  active = $state(0);
  /** What was last asked, as text: the same question again keeps what is in sight, the place in it included. */
  question = '';
  #asked = 0;
  #underWay = new Set<number>();

  get filtered(): boolean {
    return this.text.trim() !== '' || this.ferment !== '' || this.stage !== '' || this.standingOnly;
  }

  row(index: number): BatchRow | undefined {
    return this.chunks.get(Math.floor(index / CHUNK))?.[index % CHUNK];
  }

  clearFilter(): void {
    this.text = '';
    this.ferment = '';
    this.stage = '';
    this.standingOnly = false;
  }

  /** The same column again turns the order; a new one begins the way it is usually looked for. */
  sortBy(sort: BatchSort): void {
    this.descending = sort === this.sort ? !this.descending : sort === 'started' || sort === 'volume';
    this.sort = sort;
  }

  /** Reads anew after the filter or the book has changed. What is in sight stays until its successor is there. */
  async reload(keepRows: boolean): Promise<void> {
    this.#asked += 1;
    this.#underWay.clear();
    const wanted = keepRows ? [...new Set([...this.near, Math.floor(this.active / CHUNK)])] : [0];
    if (!keepRows) this.active = 0;
    const asked = this.#asked;
    const answers = await Promise.all(wanted.map((chunk) => this.#read(chunk)));
    if (asked !== this.#asked) return;
    const read = answers.filter((answer) => answer !== null);
    if (read.length === 0) return;
    this.chunks.clear();
    for (const { chunk, rows } of read) this.chunks.set(chunk, rows);
    this.total = Math.max(...read.map(({ total }) => total));
    this.active = Math.max(0, Math.min(this.active, this.total - 1));
  }

  /** Makes sure a chunk is read. */
  async want(chunk: number): Promise<void> {
    if (this.chunks.has(chunk) || this.#underWay.has(chunk)) return;
    this.#underWay.add(chunk);
    const asked = this.#asked;
    const answer = await this.#read(chunk);
    if (asked !== this.#asked) return;
    this.#underWay.delete(chunk);
    if (answer === null) return;
    this.chunks.set(chunk, answer.rows);
    this.total = answer.total;
  }

  /** Whose family is shown, by name; null when the book shows all. */
  async nameCulture(cultureId: CultureId | null): Promise<void> {
    this.cultureName = null;
    if (cultureId === null) return;
    try {
      const { culture } = await client.cultures.lines({ cultureId });
      if (this.cultureId === cultureId) this.cultureName = culture.name;
    } catch (error) {
      faults.report(error);
    }
  }

  async #read(chunk: number): Promise<{ chunk: number; rows: readonly BatchRow[]; total: number } | null> {
    try {
      const { rows, total } = await client.book.batches({
        text: this.text.trim(),
        ferment: this.ferment === '' ? null : this.ferment,
        stage: this.stage === '' ? null : this.stage,
        standingOnly: this.standingOnly,
        cultureId: this.cultureId,
        sort: this.sort,
        descending: this.descending,
        offset: chunk * CHUNK,
        limit: CHUNK,
      });
      return { chunk, rows, total };
    } catch (error) {
      faults.report(error);
      return null;
    }
  }
}

/** Kept while other places are in sight, so that coming back finds the same filter and order. */
export const book = new BookState();
