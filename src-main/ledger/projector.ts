import type { Database } from 'better-sqlite3';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { entrySubjects } from '#core/ledger/entry-subjects.ts';
import type { Entry, Outcome } from '#core/ledger/entry.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { Change } from '#core/ledger/records.ts';
import { priorImage } from '#core/ledger/records.ts';
import { openWordsProjection } from '../find/words-projection.ts';
import type { ShelvesProjection } from '../shelves/shelves-projection.ts';
import type { BookStore } from './book-store.ts';
import type { RecordStore } from './record-store.ts';

export interface Projected {
  readonly rows: ShelfRow[];
  readonly goneVesselIds: VesselId[];
}

/** Applies an entry's outcome to every projection. The one way in, for a new entry and for a rebuild alike. */
export interface Projector {
  apply(entry: Entry, sequence: number, outcome: Outcome): void;
  /** The vessels whose ticket may show something else after these changes. */
  affectedVessels(changes: readonly Change[]): VesselId[];
  refresh(vesselIds: readonly VesselId[]): Projected;
}

export function openProjector(
  sqlite: Database,
  records: RecordStore,
  book: BookStore,
  shelves: ShelvesProjection,
): Projector {
  const words = openWordsProjection(sqlite);
  // CROSS JOIN: from the few batches to their fills, never through all vessels of the cellar.
  // A reading or a name concerns every vessel whose liquid descends from the batch, through any number of new batches.
  const ofBatch = sqlite
    .prepare(
      `WITH RECURSIVE line (id) AS (
         SELECT @id UNION SELECT batch.id FROM batch JOIN line ON batch.parent_batch_id = line.id)
       SELECT fill.id FROM line CROSS JOIN fill ON fill.batch_id = line.id`,
    )
    .pluck();
  const ofCulture = sqlite
    .prepare(
      `SELECT id FROM fill WHERE culture_id = @id
       UNION SELECT fill.id FROM fill JOIN batch ON batch.id = fill.batch_id WHERE batch.keeps_culture_id = @id`,
    )
    .pluck();
  return {
    apply(entry, sequence, outcome) {
      records.apply(outcome.changes);
      book.writeSubjects(sequence, entrySubjects(entry.act, outcome.changes));
      book.writeImages(sequence, outcome.changes.map(priorImage));
      words.writeLine(sequence, entry.act);
      words.writeChanged(outcome.changes, book);
    },
    affectedVessels(changes) {
      const found = new Set<VesselId>();
      const addAll = (ids: unknown[]): void => {
        for (const id of ids as VesselId[]) found.add(id);
      };
      for (const change of changes) {
        switch (change.kind) {
          case 'vessel':
          case 'fill':
            found.add(change.id as VesselId);
            break;
          case 'batch':
            addAll(ofBatch.all({ id: change.id }));
            break;
          case 'culture':
            addAll(ofCulture.all({ id: change.id }));
            break;
          case 'reading':
            addAll(ofBatch.all({ id: (change.after ?? change.before)?.batchId }));
            break;
          case 'feeding':
            addAll(ofCulture.all({ id: (change.after ?? change.before)?.cultureId }));
            break;
          case 'place':
          case 'shelf':
          case 'pull':
          case 'stageSpan':
          case 'lot':
          case 'told':
          case 'overruling':
          case 'batchFilter':
          case 'photo':
          case 'tasting':
          case 'strike':
          case 'addition':
          case 'flow':
          case 'restatement':
            break;
        }
      }
      return [...found];
    },
    refresh(vesselIds) {
      const rows: ShelfRow[] = [];
      const goneVesselIds: VesselId[] = [];
      for (const vesselId of vesselIds) {
        const row = shelves.refresh(vesselId);
        if (row === null) goneVesselIds.push(vesselId);
        else rows.push(row);
      }
      return { rows, goneVesselIds };
    },
  };
}
