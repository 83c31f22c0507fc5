import type { Database } from 'better-sqlite3';
import type { CostIn, LeafCost } from '#core/contract/book.ts';
import { costSoFar, type CostEntry, type CostShares } from '#core/ledger/cost-so-far.ts';
import type { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';
import { ENTRY_COLUMNS, type BookStore } from '../ledger/book-store.ts';
import type { RecordStore } from '../ledger/record-store.ts';

/** Batches upstream of one that are followed, and lines of the book read for them; beyond that the cost says so. */
const BATCHES = 200;
const LINES = 20_000;

export interface CostQuery {
  of(batchId: BatchId): LeafCost;
}

export function openCostQuery(sqlite: Database, book: BookStore, records: RecordStore): CostQuery {
  const upstream = sqlite
    .prepare(
      `WITH RECURSIVE up (id) AS (
         SELECT @id
         UNION SELECT batch.parent_batch_id FROM batch JOIN up ON batch.id = up.id WHERE batch.parent_batch_id IS NOT NULL
         UNION SELECT flow.from_batch_id FROM flow JOIN up ON flow.to_batch_id = up.id WHERE flow.from_batch_id IS NOT NULL)
       SELECT id FROM up LIMIT ${BATCHES + 1}`,
    )
    .pluck();
  const columns = ENTRY_COLUMNS.split(', ').map((column) => `entry.${column}`);
  const linesOf = sqlite.prepare(
    `SELECT ${columns.join(', ')} FROM entry WHERE sequence IN (
         SELECT sequence FROM entry_subject WHERE kind = 'batch' AND subject_id IN (SELECT value FROM json_each(?)))
       AND kind <> 'reverse' AND (postings <> '[]' OR kind = 'addTo')
       AND NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)
     ORDER BY sequence LIMIT ${LINES + 1}`,
  );
  const standing = sqlite.prepare('SELECT id, volume_ul AS volumeUl FROM fill WHERE batch_id = ?');
  const lots = sqlite.prepare(
    'SELECT id AS entryId, bottles, bottle_ul AS bottleUl, at_ms AS atMs FROM lot WHERE batch_id = ? ORDER BY at_ms, id',
  );

  return {
    of(batchId) {
      const batches = upstream.all({ id: batchId }) as string[];
      const rows = linesOf.all(JSON.stringify(batches));
      const entries = book.fromRows(rows).map(({ id, act, happenedAtMs, postings }): CostEntry => {
        const restated = records.get('restatement', id);
        return {
          id,
          postings,
          act: restated?.act ?? act,
          happenedAtMs: restated?.happenedAtMs ?? happenedAtMs,
        };
      });
      const costs = costSoFar(entries);
      const inside = (
        all: readonly CostShares[],
      ): CostIn & { readonly lines: ReadonlyMap<number, number> } => {
        const lines = new Map<number, number>();
        for (const shares of all)
          for (const [line, parts] of shares) lines.set(line, (lines.get(line) ?? 0) + parts);
        const priced = [...lines.keys()].filter((line) => costs.lines[line]?.costHundredths !== null).length;
        return { parts: [...lines.values()].reduce((a, b) => a + b, 0), priced, of: lines.size, lines };
      };
      const plain = ({ parts, priced, of }: CostIn): CostIn => ({ parts, priced, of });

      const vessels = standing.all(batchId) as { id: VesselId; volumeUl: number }[];
      const filled = lots.all(batchId) as {
        entryId: EntryId;
        bottles: number;
        bottleUl: number;
        atMs: number;
      }[];
      const inVessels = vessels.flatMap(({ id }) => costs.vessels.get(id) ?? []);
      const inLots = filled.flatMap(({ entryId }) => costs.lots.get(entryId) ?? []);
      const all = inside([
        ...inVessels,
        ...inLots,
        ...(costs.drawn.has(batchId) ? [costs.drawn.get(batchId) ?? new Map()] : []),
      ]);
      return {
        lines: costs.lines.flatMap((line, number) => {
          const parts = all.lines.get(number);
          return parts === undefined ? [] : [{ ...line, parts }];
        }),
        soFar: plain(all),
        standing:
          vessels.length === 0
            ? null
            : {
                ...plain(inside(inVessels)),
                volumeUl: vessels.reduce((sum, { volumeUl }) => sum + volumeUl, 0),
              },
        lots: filled.map((lot) => ({ ...lot, ...plain(inside([costs.lots.get(lot.entryId) ?? new Map()])) })),
        followed: costs.unfollowed === 0 && batches.length <= BATCHES && rows.length <= LINES,
      };
    },
  };
}
