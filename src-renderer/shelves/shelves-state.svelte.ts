import type { Grouping, ShelfOverview, ShelfRow } from '#core/contract/shelves.ts';
import type { Posted } from '#core/contract/ledger.ts';
import type { Stage } from '#core/ledger/stage.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { client } from '../backend/call.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import { ShelfData } from './shelf-data.ts';
import { densityFor, ZOOM_MAX, ZOOM_MIN, type Density, type LaidGroup } from './shelf-layout.ts';
import type { Spot } from './shelf-moves.ts';
import { readViewChoices, writeViewChoices } from './view-choices.ts';

/** How many vessels one call reads; the first of a group asks for fewer, so that the first screen is there at once. */
const PAGE = 2000;
const FIRST_PAGE = 240;
const ZOOM_STEP = 0.1;

/** What the shelves show: the vessels read so far, how they are grouped and drawn, and what is chosen on them. */
class ShelvesState {
  grouping = $state<Grouping>('place');
  density = $state<Density>('roomy');
  zoom = $state(1);
  asTable = $state(false);
  filter = $state.raw<ReadonlySet<Stage>>(new Set());
  overview = $state.raw<ShelfOverview | null>(null);
  selected = $state.raw<ReadonlySet<VesselId>>(new Set());
  cursor = $state.raw<Spot | null>(null);
  /** The vessel liquid is being taken from while its receiver is being chosen. */
  transferFrom = $state.raw<ShelfRow | null>(null);
  drawerOpen = $state(false);
  /** Spoken politely: what a filter found, how many are selected. */
  announcement = $state('');
  /** Grows when slots or groups change, and so the layout. */
  structure = $state(0);
  /** Grows when any vessel read changes. */
  version = $state(0);
  isComplete = $state(false);

  /** Kept while another place is in sight. */
  scrollTop = 0;
  /** The groups in sight, which are read before all others. */
  groupsInSight: readonly number[] = [];
  data = new ShelfData('place');

  #anchor: Spot | null = null;
  #densityChosen = false;
  #file = -1;
  #seen: Posted | null = null;
  #reading = false;
  /** False from the moment something may have changed until the groups have been read again. */
  #isFresh = false;
  #cursorVessel: VesselId | null = null;

  constructor() {
    const kept = readViewChoices();
    this.grouping = kept.grouping;
    this.zoom = kept.zoom;
    this.asTable = kept.asTable;
    if (kept.density !== null) {
      this.density = kept.density;
      this.#densityChosen = true;
    }
    this.data = new ShelfData(kept.grouping);
  }

  /**
   * Brings the shelves up to what the book says now: acts just done at once, the rest by reading the overview again.
   * Called whenever the book, the day or the open file changes.
   */
  async follow(): Promise<void> {
    this.#isFresh = false;
    this.isComplete = false;
    if (this.#file !== cellar.fileRevision) this.#forget();
    const posted = cellar.lastPosted;
    if (posted !== null && posted !== this.#seen) {
      this.data.applyRows(posted.rows, posted.goneVesselIds, cellar.today());
      this.#changed(true);
    } else this.data.staleAll();
    this.#seen = posted;
    await this.readOverview();
  }

  /** Reads the groups and their counts, then whatever vessels are not known yet. */
  async readOverview(): Promise<void> {
    const data = this.data;
    try {
      const overview = await client.shelves.overview({
        grouping: data.grouping,
        today: { ...cellar.today() },
      });
      if (data !== this.data) return;
      const isFirst = this.overview === null;
      this.overview = overview;
      if (isFirst && !this.#densityChosen) this.density = densityFor(overview.vesselCount);
      data.takeGroups(overview.groups);
      this.#isFresh = true;
      this.#changed(true);
      void this.#readPages();
    } catch (error) {
      faults.report(error);
    }
  }

  async #readPages(): Promise<void> {
    if (this.#reading) return;
    this.#reading = true;
    try {
      for (;;) {
        const data = this.data;
        const next = data.wanted(this.groupsInSight);
        if (next === null) break;
        const limit = next.offset === 0 ? FIRST_PAGE : PAGE;
        const { key, offset } = next;
        const { rows } = await client.shelves.page({
          ...{ grouping: data.grouping, today: { ...cellar.today() } },
          ...{ key, offset, limit },
        });
        if (data !== this.data) continue;
        const group = data.indexOf(key);
        const slots = data.slotsOf(group);
        const read = offset + rows.length;
        // A page that is not full is the last; before it the overview's count stands.
        const total = rows.length < limit ? read : Math.max(read, data.countOf(group));
        data.takePage(key, offset, rows, total);
        this.#changed(data.slotsOf(group) !== slots);
      }
      this.#changed(false);
    } catch (error) {
      faults.report(error);
    } finally {
      this.#reading = false;
    }
  }

  #changed(structure: boolean): void {
    this.version += 1;
    this.isComplete = this.#isFresh && this.data.isComplete();
    if (structure) this.structure += 1;
    this.#keepChosen();
  }

  /** Selection and cursor follow their vessels; what is gone leaves the selection, and the cursor stays on its shelf. */
  #keepChosen(): void {
    if (this.isComplete && this.selected.size > 0) {
      const standing = [...this.selected].filter((id) => this.data.spotOf(id) !== null);
      if (standing.length !== this.selected.size) this.selected = new Set(standing);
    }
    const cursor = this.cursor;
    if (this.#cursorVessel !== null) {
      const spot = this.data.spotOf(this.#cursorVessel);
      if (spot !== null) {
        if (cursor?.group !== spot.group || cursor.slot !== spot.slot) this.cursor = spot;
        return;
      }
    }
    if (cursor === null) return;
    const slots = this.data.slotsOf(cursor.group);
    if (cursor.group >= this.data.groups.length) this.cursor = null;
    else if (cursor.slot >= slots) this.cursor = slots === 0 ? null : { ...cursor, slot: slots - 1 };
  }

  #forget(): void {
    this.#file = cellar.fileRevision;
    this.#seen = cellar.lastPosted;
    this.data = new ShelfData(this.grouping);
    this.overview = null;
    this.selected = new Set();
    this.filter = new Set();
    this.cursor = null;
    this.#cursorVessel = null;
    this.transferFrom = null;
    this.scrollTop = 0;
  }

  laidGroups(): LaidGroup[] {
    return this.data.groups.map((group, index) => ({
      key: group.key,
      slots: this.data.slotsOf(index),
      tallest: group.tallest,
    }));
  }

  group(by: Grouping): void {
    if (by === this.grouping) return;
    this.grouping = by;
    this.data = new ShelfData(by);
    this.#isFresh = false;
    this.isComplete = false;
    this.cursor = null;
    this.#remember();
    void this.readOverview();
  }

  draw(density: Density): void {
    this.density = density;
    this.#densityChosen = true;
    this.#remember();
  }

  zoomTo(zoom: number): void {
    this.zoom = Math.min(ZOOM_MAX, Math.max(ZOOM_MIN, Math.round(zoom * 100) / 100));
    this.#remember();
  }

  zoomBy(steps: number): void {
    this.zoomTo(this.zoom + steps * ZOOM_STEP);
  }

  showAsTable(asTable: boolean): void {
    this.asTable = asTable;
    this.#remember();
  }

  #remember(): void {
    const { grouping, zoom, asTable } = this;
    writeViewChoices({ grouping, zoom, asTable, density: this.#densityChosen ? this.density : null });
  }

  toggleFilter(stage: Stage): void {
    const filter = new Set(this.filter);
    if (!filter.delete(stage)) filter.add(stage);
    this.filter = filter;
  }

  clearFilter(): void {
    this.filter = new Set();
  }

  /** Puts the cursor on a spot; with `extend` everything between it and where the run began is selected. */
  moveTo(spot: Spot, extend = false): void {
    this.#anchor = extend ? (this.#anchor ?? this.cursor ?? spot) : spot;
    this.cursor = spot;
    this.#cursorVessel = this.data.at(spot.group, spot.slot)?.vesselId ?? null;
    if (extend) this.#selectRun(this.#anchor, spot);
  }

  /** Selects one vessel and nothing else. */
  choose(vesselId: VesselId): void {
    this.selected = new Set([vesselId]);
    this.drawerOpen = true;
  }

  toggle(vesselId: VesselId): void {
    const selected = new Set(this.selected);
    if (!selected.delete(vesselId)) selected.add(vesselId);
    this.selected = selected;
    this.announcement = selected.size === 1 ? '1 selected' : `${selected.size} selected`;
  }

  clearSelection(): void {
    if (this.selected.size > 0) this.announcement = 'Nothing selected';
    this.selected = new Set();
    this.drawerOpen = false;
  }

  /** Selects all vessels of a shelf; asked for again, all there are. */
  selectGroup(group: number): void {
    const here: VesselId[] = [];
    for (let slot = 0; slot < this.data.slotsOf(group); slot++) {
      const row = this.data.at(group, slot);
      if (row) here.push(row.vesselId);
    }
    const all = here.length > 0 && here.every((id) => this.selected.has(id));
    this.selected = new Set(all ? [...this.data.rows()].map(({ row }) => row.vesselId) : here);
    this.announcement = `${this.selected.size} selected`;
  }

  #selectRun(from: Spot, to: Spot): void {
    const [start, end] =
      from.group < to.group || (from.group === to.group && from.slot <= to.slot) ? [from, to] : [to, from];
    const run: VesselId[] = [];
    for (let group = start.group; group <= end.group; group++) {
      const first = group === start.group ? start.slot : 0;
      const last = group === end.group ? end.slot : this.data.slotsOf(group) - 1;
      for (let slot = first; slot <= last; slot++) {
        const row = this.data.at(group, slot);
        if (row) run.push(row.vesselId);
      }
    }
    this.selected = new Set(run);
    this.announcement = `${run.length} selected`;
  }

  /** The vessels selected, in the order they were chosen, as far as they are read. */
  selectedRows(): readonly ShelfRow[] {
    return [...this.selected].map((id) => this.data.rowOf(id)).filter((row) => row !== null);
  }

  /** The vessel under the cursor, else the one selected. */
  get vesselAtHand(): ShelfRow | null {
    const spot = this.cursor;
    const row = spot === null ? null : this.data.at(spot.group, spot.slot);
    if (row) return row;
    const [only] = this.selected;
    return this.selected.size === 1 && only !== undefined ? this.data.rowOf(only) : null;
  }
}

export const shelves = new ShelvesState();
