import type { PhotoRow } from '#core/contract/photos.ts';
import type { BatchId, VesselId } from '#core/ledger/ids.ts';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';

export type AboutPhotos =
  | { readonly kind: 'vessel'; readonly vesselId: VesselId }
  | { readonly kind: 'batch'; readonly batchId: BatchId };

/** The photos of one batch or vessel, newest first. */
export class PhotosState {
  rows = $state.raw<readonly PhotoRow[]>([]);
  #asked = 0;

  async load(about: AboutPhotos): Promise<void> {
    const asked = ++this.#asked;
    try {
      const rows = await client.photos.of({ about });
      if (asked === this.#asked) this.rows = rows;
    } catch (error) {
      if (asked === this.#asked) faults.report(error);
    }
  }

  byEntry(entryId: string): PhotoRow | null {
    return this.rows.find(({ photoId }) => photoId === entryId) ?? null;
  }
}
