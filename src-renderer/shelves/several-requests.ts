import type { ShelfRow } from '#core/contract/shelves.ts';
import type { ActRequest } from '../acts/acts-state.svelte.ts';
import { BLEND_PARTS } from '../acts/build-blend.ts';
import { SPLIT_PARTS } from '../acts/build-split.ts';

type Asked<K extends ActRequest['kind']> = Extract<ActRequest, { readonly kind: K }>;

/** What several chosen vessels can be asked to do together; null where they do not suit, or are more than a form takes. */
export interface SeveralRequests {
  /** One filled vessel into the empty ones beside it. */
  readonly split: Asked<'split'> | null;
  /** Two filled vessels or more, into the one empty vessel chosen with them when there is just one. */
  readonly blend: Asked<'blend'> | null;
}

export function severalRequests(rows: readonly ShelfRow[]): SeveralRequests {
  const filled = rows.filter(({ stage }) => stage !== 'empty').map(({ vesselId }) => vesselId);
  const empty = rows.filter(({ stage }) => stage === 'empty').map(({ vesselId }) => vesselId);
  return {
    split:
      filled.length === 1 && empty.length > 0 && empty.length <= SPLIT_PARTS.high
        ? { kind: 'split', fromVesselId: filled[0], toVesselIds: empty }
        : null,
    blend:
      filled.length > 1 && filled.length <= BLEND_PARTS.high
        ? { kind: 'blend', fromVesselIds: filled, toVesselId: empty.length === 1 ? empty[0] : undefined }
        : null,
  };
}
