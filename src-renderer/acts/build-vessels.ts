import type { ActDraft } from '#core/ledger/act.ts';
import type { ShelfId, VesselId } from '#core/ledger/ids.ts';
import type { Closure, Material, Mouth, Silhouette } from '#core/ledger/stage.ts';
import { CLOSURE_WORDS, MATERIAL_WORDS, MOUTH_WORDS, SILHOUETTE_WORDS } from '../words/choice-words.ts';
import type { Step } from './act-form.svelte.ts';
import type { FormReader } from './form-reader.ts';

/** What a vessel of each shape usually is, offered until the keeper says otherwise. Common practice, no source. */
export const USUAL_VESSEL: Readonly<
  Record<
    Silhouette,
    {
      readonly capacity: string;
      readonly mouth: Mouth;
      readonly material: Material;
      readonly closure: Closure;
    }
  >
> = {
  jar: { capacity: '2 L', mouth: 'wide', material: 'glass', closure: 'cloth' },
  crock: { capacity: '5 L', mouth: 'wide', material: 'stoneware', closure: 'lid' },
  bucket: { capacity: '15 L', mouth: 'wide', material: 'foodPlastic', closure: 'lid' },
  flask: { capacity: '1 L', mouth: 'narrow', material: 'glass', closure: 'airlock' },
  demijohn: { capacity: '5 L', mouth: 'narrow', material: 'glass', closure: 'airlock' },
  bottle: { capacity: '750 ml', mouth: 'narrow', material: 'glass', closure: 'cork' },
  cask: { capacity: '30 L', mouth: 'narrow', material: 'wood', closure: 'bung' },
};

const ALIKE = { low: 1, high: 200, what: 'number of vessels' };

/** Where a new vessel may stand: the free positions of the chosen shelf, in order. */
export interface Standing {
  readonly freePositions: readonly number[];
  readonly positions: number;
}

/** One vessel or several alike, standing side by side from the chosen position on. */
export function buildAddVessel(read: FormReader, standing: Standing | null): readonly Step[] {
  const fields = vesselFields(read);
  const count = read.whole('count', ALIKE);
  const shelfId = read.idOrNone<ShelfId>('shelfId');
  const spots =
    shelfId === null ? Array.from({ length: count }, () => null) : spotsFor(read, count, standing);
  return spots.map((position): Step => () => ({ kind: 'addVessel', ...fields, shelfId, position }));
}

export function buildEditVessel(read: FormReader, vesselId: VesselId): ActDraft {
  return { kind: 'editVessel', vesselId, ...vesselFields(read) };
}

export function buildMoveVessel(read: FormReader, vesselId: VesselId, standing: Standing | null): ActDraft {
  const shelfId = read.idOrNone<ShelfId>('shelfId');
  const position = shelfId === null ? null : (spotsFor(read, 1, standing)[0] ?? null);
  return { kind: 'moveVessel', vesselId, shelfId, position };
}

function vesselFields(read: FormReader) {
  return {
    name: read.line('name'),
    silhouette: read.choice('silhouette', SILHOUETTE_WORDS, 'Choose the shape of the vessel.'),
    capacityUl: read.volume('capacityUl'),
    mouth: read.choice('mouth', MOUTH_WORDS, 'Say how wide the mouth is.'),
    material: read.choice('material', MATERIAL_WORDS, 'Say what the vessel is made of.'),
    closure: read.choice('closure', CLOSURE_WORDS, 'Say how the vessel is closed.'),
    note: read.note('note'),
  };
}

function spotsFor(read: FormReader, count: number, standing: Standing | null): readonly (number | null)[] {
  const positions = standing?.positions ?? 2000;
  const first = read.whole('position', { low: 1, high: positions, what: 'position' });
  if (standing === null) return Array.from({ length: count }, (_, at) => first + at);
  if (count === 1) return [first];
  const free = standing.freePositions.filter((position) => position >= first);
  if (free.length >= count) return free.slice(0, count);
  read.problem(
    'count',
    free.length === 0
      ? `No position of this shelf is free from ${first} on. Choose another shelf, or none.`
      : `${free.length === 1 ? 'One position is' : `${free.length} positions are`} free on this shelf from ${first} on, and ${count} are asked for. Add fewer here, or choose another shelf.`,
    free.length === 0 ? [] : [{ label: `Use ${free.length}`, text: String(free.length), how: 'use' }],
  );
  return free;
}
