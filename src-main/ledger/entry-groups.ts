import type { Database } from 'better-sqlite3';
import type { VesselId } from '#core/ledger/ids.ts';
import { ENTRY_COLUMNS, type BookStore, type StoredEntry } from './book-store.ts';

/**
 * Lines that one request wrote together. The first carries the request's own id, each further one that id with its number
 * behind a slash, so that what belongs together stands in the book itself and survives a restart.
 */
export interface EntryGroups {
  /** The request id of the nth line of a request, counted from 0. */
  memberId(requestId: string, index: number): string;
  /** The request a line was written by; null for a line that is not there. */
  requestOf(sequence: number): string | null;
  /** How many lines a request wrote. */
  written(requestId: string): number;
  /** How many lines of a request have not been struck. */
  standing(requestId: string): number;
  /** The line a request ended with; null when it wrote none. */
  lastOf(requestId: string): StoredEntry | null;
  /** The vessels that lines of a request speak of. */
  vesselsOf(requestId: string): VesselId[];
  /** The lines of a request that have not been struck, the newest first. */
  unstruck(requestId: string): StoredEntry[];
  /** Request ids as they stand beside lines of the book, by the line's number. */
  requestsOf(afterSequence: number, limit: number): Map<number, string>;
}

export function openEntryGroups(sqlite: Database, book: BookStore): EntryGroups {
  const requestOf = sqlite.prepare('SELECT request_id FROM entry WHERE sequence = ?').pluck();
  // A slash is followed by a zero among the signs, so this is all that begins with the id and a slash.
  const ofRequest = `(request_id = @id OR (request_id >= @id || '/' AND request_id < @id || '0'))`;
  const notStruck = 'NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id)';
  const unstruck = sqlite.prepare(
    `SELECT ${ENTRY_COLUMNS} FROM entry WHERE ${ofRequest} AND ${notStruck} ORDER BY sequence DESC`,
  );
  const written = sqlite.prepare(`SELECT COUNT(*) FROM entry WHERE ${ofRequest}`).pluck();
  const standing = sqlite.prepare(`SELECT COUNT(*) FROM entry WHERE ${ofRequest} AND ${notStruck}`).pluck();
  const last = sqlite.prepare(
    `SELECT ${ENTRY_COLUMNS} FROM entry WHERE ${ofRequest} ORDER BY sequence DESC LIMIT 1`,
  );
  const vessels = sqlite
    .prepare(
      `SELECT DISTINCT about.subject_id FROM entry CROSS JOIN entry_subject AS about ON about.sequence = entry.sequence
       WHERE about.kind = 'vessel' AND ${ofRequest}`,
    )
    .pluck();
  const requests = sqlite.prepare(
    'SELECT sequence, request_id FROM entry WHERE sequence > ? ORDER BY sequence LIMIT ?',
  );
  return {
    memberId: (requestId, index) => (index === 0 ? requestId : `${requestId}/${index}`),
    requestOf(sequence) {
      const written = requestOf.get(sequence) as string | undefined;
      return written?.split('/')[0] ?? null;
    },
    written: (requestId) => written.get({ id: requestId }) as number,
    standing: (requestId) => standing.get({ id: requestId }) as number,
    lastOf: (requestId) => book.fromRows(last.all({ id: requestId }))[0] ?? null,
    vesselsOf: (requestId) => vessels.all({ id: requestId }) as VesselId[],
    unstruck: (requestId) => book.fromRows(unstruck.all({ id: requestId })),
    requestsOf: (afterSequence, limit) =>
      new Map(
        (requests.all(afterSequence, limit) as { sequence: number; request_id: string }[]).map((row) => [
          row.sequence,
          row.request_id,
        ]),
      ),
  };
}
