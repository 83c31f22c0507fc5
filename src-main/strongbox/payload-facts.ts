import type { Database } from 'better-sqlite3';
import type { BackupCounts, BackupManifest, LastEntry } from '#core/strongbox/manifest.ts';

/** What the seal says of the cellar in a backup; read from the file itself, of whatever version it is. */
export type PayloadFacts = Pick<BackupManifest, 'sqliteVersion' | 'cellar' | 'counts' | 'lastEntry'>;

export function payloadFacts(sqlite: Database): PayloadFacts {
  const one = (sql: string): unknown => sqlite.prepare(sql).get();
  const cellar = one('SELECT name, is_sample, created_at_ms FROM cellar WHERE id = 1') as
    { name: string; is_sample: number; created_at_ms: number } | undefined;
  const first = one('SELECT entry_id FROM entry ORDER BY sequence LIMIT 1') as
    { entry_id: string } | undefined;
  return {
    sqliteVersion: sqlite.prepare('SELECT sqlite_version()').pluck().get() as string,
    cellar: {
      name: cellar?.name ?? '',
      isSample: cellar?.is_sample === 1,
      createdAtMs: cellar?.created_at_ms ?? 0,
      bookId: first?.entry_id ?? null,
      fileVersion: sqlite.pragma('user_version', { simple: true }) as number,
    },
    counts: backupCounts(sqlite),
    lastEntry: lastEntry(sqlite),
  };
}

export function backupCounts(sqlite: Database): BackupCounts {
  const tables = new Set(
    sqlite.prepare(`SELECT name FROM sqlite_schema WHERE type = 'table'`).pluck().all() as string[],
  );
  // A file of an early version has no table of pictures yet.
  const count = (table: string): number =>
    tables.has(table) ? (sqlite.prepare(`SELECT COUNT(*) FROM ${table}`).pluck().get() as number) : 0;
  return {
    ...{ entries: count('entry'), vessels: count('vessel'), batches: count('batch') },
    ...{ cultures: count('culture'), readings: count('reading'), pictures: count('picture') },
  };
}

export function lastEntry(sqlite: Database): LastEntry | null {
  const row = sqlite
    .prepare(
      `SELECT sequence, entry_id AS entryId, happened_at_ms AS happenedAtMs, written_at_ms AS writtenAtMs
       FROM entry ORDER BY sequence DESC LIMIT 1`,
    )
    .get();
  return row === undefined ? null : (row as LastEntry);
}
