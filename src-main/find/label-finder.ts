import type { Database } from 'better-sqlite3';
import type { FoundLabel } from '#core/contract/find.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { readLabelId } from '#core/labels/label-code.ts';
import type { BatchId, EntryId } from '#core/ledger/ids.ts';
import type { BatchesQuery } from '../cellar-book/batches-query.ts';

/** Finds what a label stands for by the id on it, typed or scanned, in any case. Null when it is no id, or nothing has it. */
export function openLabelFinder(sqlite: Database, batches: BatchesQuery): (id: string) => FoundLabel | null {
  const vessel = sqlite.prepare('SELECT shown FROM shelf_row WHERE number = ?').pluck();
  const batchWith = sqlite.prepare('SELECT id FROM batch WHERE code = ? COLLATE NOCASE').pluck();
  // The line of the book and the code have to agree: a slip in either finds nothing rather than something else.
  const lotOf = sqlite.prepare(
    `SELECT lot.id AS lotId, lot.batch_id AS batchId, lot.at_ms AS bottledAtMs, lot.bottles_left AS bottlesLeft
     FROM lot JOIN entry ON entry.entry_id = lot.id JOIN batch ON batch.id = lot.batch_id
     WHERE entry.sequence = ? AND batch.code = ? COLLATE NOCASE`,
  );
  return (id) => {
    const target = readLabelId(id);
    switch (target?.kind) {
      case undefined:
        return null;
      case 'vessel': {
        const shown = vessel.get(target.number) as string | undefined;
        return shown === undefined ? null : { kind: 'vessel', row: JSON.parse(shown) as ShelfRow };
      }
      case 'batch': {
        const batchId = batchWith.get(target.code) as BatchId | undefined;
        const batch = batchId === undefined ? null : batches.row(batchId);
        return batch === null ? null : { kind: 'batch', batch };
      }
      case 'lot': {
        const row = lotOf.get(target.sequence, target.code) as
          { lotId: EntryId; batchId: BatchId; bottledAtMs: number; bottlesLeft: number } | undefined;
        if (row === undefined) return null;
        const { batchId, ...lot } = row;
        const batch = batches.row(batchId);
        return batch === null ? null : { kind: 'lot', batch, ...lot };
      }
    }
  };
}
