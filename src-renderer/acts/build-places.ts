import type { ActDraft } from '#core/ledger/act.ts';
import type { PlaceId, ShelfId } from '#core/ledger/ids.ts';
import type { Posted } from '#core/contract/ledger.ts';
import type { Step } from './act-form.svelte.ts';
import type { FormReader } from './form-reader.ts';

const POSITIONS = { low: 1, high: 2000, what: 'number of positions' };
const SHELVES = { low: 1, high: 40, what: 'number of shelves' };

/** A place, with its first shelves when any are asked for; each shelf is an act of its own. */
export function buildAddPlace(read: FormReader): readonly Step[] {
  const name = read.name('name', 'Give the place a name, for instance Pantry.');
  const note = read.note('note');
  const count = read.raw('shelfCount') === '' ? 0 : read.whole('shelfCount', { ...SHELVES, low: 0 });
  const positions = count === 0 ? 0 : read.whole('positions', POSITIONS);
  const place: ActDraft = { kind: 'addPlace', name, note };
  const shelves = Array.from({ length: count }, (_, at): Step => {
    return (earlier) => ({
      kind: 'addShelf',
      placeId: placeOf(earlier),
      name: shelfName('Shelf', at, count),
      positions,
    });
  });
  return [() => place, ...shelves];
}

export function buildEditPlace(read: FormReader, placeId: PlaceId): ActDraft {
  return { kind: 'editPlace', placeId, name: read.name('name'), note: read.note('note') };
}

/** One shelf or several alike, in a place that is there or in a new one named here. */
export function buildAddShelf(read: FormReader): readonly Step[] {
  const existing = read.raw('placeId');
  const isNew = existing === '' || existing === 'new';
  const newPlace = isNew
    ? read.name('placeName', 'Name the place the shelf is in, for instance Pantry.')
    : '';
  const name = read.name('name', 'Give the shelf a name, for instance Top shelf.');
  const count = read.whole('count', SHELVES);
  const positions = read.whole('positions', POSITIONS);
  const shelves = Array.from({ length: count }, (_, at): Step => {
    return (earlier) => ({
      kind: 'addShelf',
      placeId: isNew ? placeOf(earlier) : (existing as PlaceId),
      name: shelfName(name, at, count),
      positions,
    });
  });
  return isNew ? [() => ({ kind: 'addPlace', name: newPlace, note: '' }), ...shelves] : shelves;
}

export function buildEditShelf(read: FormReader, shelfId: ShelfId): ActDraft {
  return {
    kind: 'editShelf',
    shelfId,
    name: read.name('name'),
    positions: read.whole('positions', POSITIONS),
  };
}

/** `Shelf` alone, or `Shelf 1`, `Shelf 2` when there are several. */
export function shelfName(name: string, at: number, count: number): string {
  return count === 1 ? name : `${name} ${at + 1}`;
}

function placeOf(earlier: readonly Posted[]): PlaceId {
  for (const { entry } of earlier) {
    if (entry.act.kind === 'addPlace') return entry.act.placeId;
  }
  throw new Error('The place of a shelf has to be written before it.');
}
