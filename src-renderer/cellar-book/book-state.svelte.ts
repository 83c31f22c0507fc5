import type { BatchRow, SavedFilter } from '#core/contract/book.ts';
import type { BatchColumnKey, BatchFilter, KeptFilter } from '#core/ledger/batch-filter.ts';
import type { BatchId, CultureId, FilterId } from '#core/ledger/ids.ts';
import { SvelteMap, SvelteSet } from 'svelte/reactivity';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import { keepColumns, readColumns, type BatchSort } from './batch-columns.ts';
import { fieldsOf, filterOf, isFiltering, NO_FILTER, showsSame, type FilterFields } from './book-filter.ts';

/** Rows asked for, and drawn, together. */
export const CHUNK = 50;
/** Orders in which the most, or the newest, is looked for first. */
const GREATEST_FIRST: readonly BatchSort[] = ['started', 'volume', 'last', 'bottles', 'startedWith'];

/** The ledger of batches as filtered and sorted, read in chunks as they come into sight. */
export class BookState {
  fields = $state<FilterFields>({ ...NO_FILTER });
  sort = $state<BatchSort>('started');
  descending = $state(true);
  cultureId = $state<CultureId | null>(null);
  cultureName = $state<string | null>(null);
  columns = $state.raw<readonly BatchColumnKey[] | null>(readColumns());

  /** Filters kept by name, and the one that was last laid in. */
  kept = $state.raw<readonly SavedFilter[]>([]);
  keptId = $state<FilterId | null>(null);
  /** Batches chosen to be compared, in the order in which they were chosen. */
  readonly chosen = new SvelteMap<BatchId, string>();

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
    return isFiltering(this.fields);
  }

  /** The filter as the host is asked for it. */
  get filter(): BatchFilter {
    const { sort, descending, cultureId } = this;
    return filterOf(this.fields, { sort, descending }, { cultureId, nowMs: cellar.now() });
  }

  /** The filter as it is kept by name. */
  get toKeep(): KeptFilter {
    return { ...this.filter, columns: this.columns === null ? null : [...this.columns] };
  }

  /** The kept filter in use, with whether what is shown has departed from it. */
  get inUse(): { readonly saved: SavedFilter; readonly changed: boolean } | null {
    const saved = this.kept.find(({ filterId }) => filterId === this.keptId);
    return saved === undefined ? null : { saved, changed: !showsSame(saved.filter, this.toKeep) };
  }

  row(index: number): BatchRow | undefined {
    return this.chunks.get(Math.floor(index / CHUNK))?.[index % CHUNK];
  }

  clearFilter(): void {
    this.fields = { ...NO_FILTER };
    this.keptId = null;
  }

  /** Lays a kept filter in, with its order and its columns. */
  lay({ filterId, filter }: SavedFilter): void {
    this.fields = { ...fieldsOf(filter) };
    [this.sort, this.descending, this.cultureId] = [filter.sort, filter.descending, filter.cultureId];
    this.columns = filter.columns;
    this.keptId = filterId;
    void this.nameCulture(filter.cultureId);
  }

  showColumns(columns: readonly BatchColumnKey[] | null): void {
    this.columns = columns;
    keepColumns(columns);
  }

  choose(row: Pick<BatchRow, 'batchId' | 'name'>, chosen: boolean): void {
    if (chosen) this.chosen.set(row.batchId, row.name);
    else this.chosen.delete(row.batchId);
  }

  /** The same column again turns the order; a new one begins the way it is usually looked for. */
  sortBy(sort: BatchSort): void {
    this.descending = sort === this.sort ? !this.descending : GREATEST_FIRST.includes(sort);
    this.sort = sort;
  }

  async readKept(): Promise<void> {
    try {
      this.kept = await client.book.filters();
    } catch (error) {
      faults.report(error);
    }
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
      const request = { ...this.filter, offset: chunk * CHUNK, limit: CHUNK };
      const { rows, total } = await client.book.batches(request);
      return { chunk, rows, total };
    } catch (error) {
      faults.report(error);
      return null;
    }
  }
}

/** Kept while other places are in sight, so that coming back finds the same filter and order. */
export const book = new BookState();
