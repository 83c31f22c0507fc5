import type { Grouping, ShelfGroup, ShelfRow } from '#core/contract/shelves.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { dueGroupOf, type DayBounds } from '../words/due-words.ts';
import type { Spot } from './shelf-moves.ts';

/** The key of the last group, of vessels that stand on no shelf. */
export const UNPLACED = 'unplaced';

/** What is known of a slot: a vessel, that it is free (null), or nothing yet (undefined). */
export type Slot = ShelfRow | null | undefined;

interface Held {
  readonly group: ShelfGroup;
  readonly slots: Slot[];
  /** A shelf has places with numbers; elsewhere vessels simply follow one another. */
  readonly byPosition: boolean;
  loaded: number;
  stale: boolean;
}

/** What a group still wants to have read. */
export interface Wanted {
  readonly key: string;
  readonly offset: number;
}

/**
 * The vessels of the cellar as far as they have been read, by group and slot, and where each stands. Not reactive:
 * whoever changes it says so to the screen.
 */
export class ShelfData {
  readonly grouping: Grouping;
  #held: Held[] = [];
  #indexByKey = new Map<string, number>();
  #spotById = new Map<VesselId, Spot>();

  constructor(grouping: Grouping) {
    this.grouping = grouping;
  }

  get groups(): readonly ShelfGroup[] {
    return this.#held.map((held) => held.group);
  }

  groupAt(index: number): ShelfGroup | undefined {
    return this.#held[index]?.group;
  }

  indexOf(key: string): number {
    return this.#indexByKey.get(key) ?? -1;
  }

  slotsOf(group: number): number {
    return this.#held[group]?.slots.length ?? 0;
  }

  at(group: number, slot: number): Slot {
    return this.#held[group]?.slots[slot];
  }

  /** Where a vessel stands; null when it has not been read or stands nowhere. */
  spotOf(vesselId: VesselId): Spot | null {
    const spot = this.#spotById.get(vesselId);
    if (spot === undefined) return null;
    return this.at(spot.group, spot.slot)?.vesselId === vesselId ? spot : this.#search(vesselId);
  }

  rowOf(vesselId: VesselId): ShelfRow | null {
    const spot = this.spotOf(vesselId);
    return spot === null ? null : (this.at(spot.group, spot.slot) ?? null);
  }

  /** Slots shift when a vessel leaves a group without numbered places: then the group is looked through. */
  #search(vesselId: VesselId): Spot | null {
    for (const { row, spot } of this.rows()) {
      if (row.vesselId !== vesselId) continue;
      this.#spotById.set(vesselId, spot);
      return spot;
    }
    this.#spotById.delete(vesselId);
    return null;
  }

  /** Every vessel read so far, in the order it stands. */
  *rows(): Generator<{ readonly row: ShelfRow; readonly spot: Spot }> {
    for (const [group, held] of this.#held.entries()) {
      for (const [slot, row] of held.slots.entries()) if (row) yield { row, spot: { group, slot } };
    }
  }

  /** The groups as the overview has them now. Rows already read are kept where the group still has as many. */
  takeGroups(groups: readonly ShelfGroup[]): void {
    const before = new Map(this.#held.map((held) => [held.group.key, held]));
    this.#held = groups.map((group) => {
      const known = before.get(group.key);
      const byPosition = group.positions !== null;
      const length = Math.max(group.positions ?? 0, byPosition ? 0 : group.vesselCount);
      if (known === undefined || known.byPosition !== byPosition) {
        return { group, byPosition, slots: new Array<Slot>(length).fill(undefined), loaded: 0, stale: true };
      }
      const beyond: Slot = byPosition && !known.stale ? null : undefined;
      const slots = Array.from({ length }, (_, i) => (i < known.slots.length ? known.slots[i] : beyond));
      const asMany = known.group.vesselCount === group.vesselCount;
      const standing = slots.reduce((sum, slot) => sum + (slot ? 1 : 0), 0);
      const complete = !known.stale && standing === group.vesselCount;
      const loaded = complete ? group.vesselCount : known.stale && asMany ? known.loaded : 0;
      return { group, byPosition, slots, loaded, stale: !complete };
    });
    this.#indexByKey = new Map(this.#held.map((held, i) => [held.group.key, i]));
    this.#spotById.clear();
    for (const index of this.#held.keys()) this.#indexGroup(index);
  }

  /** Fills in a page of a group. `total` is how many vessels the group has. */
  takePage(key: string, offset: number, rows: readonly ShelfRow[], total: number): void {
    const index = this.indexOf(key);
    const held = this.#held[index];
    if (held === undefined) return;
    if (held.byPosition) this.#takeByPosition(held, offset, rows, total);
    else for (const [i, row] of rows.entries()) held.slots[offset + i] = row;
    if (!held.byPosition) held.slots.length = total;
    held.loaded = Math.max(held.loaded, offset + rows.length);
    if (held.loaded >= total || rows.length === 0) {
      held.stale = false;
      held.loaded = total;
    }
    this.#indexGroup(index);
  }

  #takeByPosition(held: Held, offset: number, rows: readonly ShelfRow[], total: number): void {
    const firstRead = offset === 0 ? 0 : (rows[0]?.position ?? 1) - 1;
    const isLast = offset + rows.length >= total;
    const lastRead = isLast ? held.slots.length : (rows.at(-1)?.position ?? 0);
    for (let slot = firstRead; slot < lastRead; slot++) held.slots[slot] = null;
    for (const row of rows) if (row.position !== null) held.slots[row.position - 1] = row;
  }

  /** The next page each group wants, beginning with those asked for first. */
  wanted(first: readonly number[]): Wanted | null {
    for (const index of [...first, ...this.#held.keys()]) {
      const held = this.#held[index];
      if (held === undefined || !held.stale) continue;
      if (held.group.vesselCount === 0) {
        held.stale = false;
        if (held.byPosition) held.slots.fill(null);
        continue;
      }
      return { key: held.group.key, offset: held.loaded };
    }
    return null;
  }

  /** How many vessels the overview gave the group. */
  countOf(group: number): number {
    return this.#held[group]?.group.vesselCount ?? 0;
  }

  isComplete(): boolean {
    return this.#held.every((held) => !held.stale);
  }

  /**
   * Puts changed vessels in place of what was known of them. A vessel that now belongs to another group, or to none,
   * leaves its slot; on a shelf it takes its new place at once, elsewhere both groups are marked to be read again.
   */
  applyRows(rows: readonly ShelfRow[], gone: readonly VesselId[], today: DayBounds): void {
    for (const vesselId of gone) this.#lift(vesselId);
    for (const row of rows) {
      const target = this.#indexByKey.get(groupKeyOf(row, this.grouping, today));
      const spot = this.spotOf(row.vesselId);
      if (spot !== null && spot.group === target && this.#stays(row, spot)) {
        const held = this.#held[spot.group];
        if (held) held.slots[spot.slot] = row;
        continue;
      }
      this.#lift(row.vesselId);
      const held = target === undefined ? undefined : this.#held[target];
      if (held === undefined) continue;
      if (held.byPosition && row.position !== null) {
        while (held.slots.length < row.position) held.slots.push(held.stale ? undefined : null);
        held.slots[row.position - 1] = row;
        this.#spotById.set(row.vesselId, { group: target ?? 0, slot: row.position - 1 });
      } else this.#markStale(held);
    }
  }

  #stays(row: ShelfRow, spot: Spot): boolean {
    const held = this.#held[spot.group];
    return held !== undefined && (!held.byPosition || row.position === spot.slot + 1);
  }

  #lift(vesselId: VesselId): void {
    const spot = this.spotOf(vesselId);
    const held = spot === null ? undefined : this.#held[spot.group];
    if (spot === null || held === undefined) return;
    this.#spotById.delete(vesselId);
    if (held.byPosition) held.slots[spot.slot] = null;
    else {
      held.slots.splice(spot.slot, 1);
      this.#markStale(held);
    }
  }

  #markStale(held: Held): void {
    held.stale = true;
    held.loaded = 0;
  }

  /** Marks everything to be read again; what is known stays in sight until then. */
  staleAll(): void {
    for (const held of this.#held) this.#markStale(held);
  }

  #indexGroup(group: number): void {
    for (const [slot, row] of (this.#held[group]?.slots ?? []).entries()) {
      if (row) this.#spotById.set(row.vesselId, { group, slot });
    }
  }
}

/** The key of the group a vessel belongs to. */
export function groupKeyOf(row: ShelfRow, grouping: Grouping, today: DayBounds): string {
  switch (grouping) {
    case 'place':
      return row.shelfId ?? UNPLACED;
    case 'stage':
      return row.stage;
    case 'due':
      return row.due === null ? 'nothing' : dueGroupOf(row.due, today);
  }
}
