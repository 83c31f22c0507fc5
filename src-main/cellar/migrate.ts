import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Database } from 'better-sqlite3';
import { FileRefused } from './file-refused.ts';

export interface Migration {
  readonly version: number;
  readonly name: string;
  readonly sql: string;
}

export interface Migrations {
  readonly steps: readonly Migration[];
  /** Triggers and views, dropped before and made anew after, so that no step trips over them. */
  readonly triggers: string;
}

/** Reads `NNNN_what_it_does.sql`, numbered from 1 without a gap, and `triggers.sql`. Throws when the numbering has a hole. */
export function readMigrations(folder: string = migrationsFolder(import.meta.dirname)): Migrations {
  const steps = readdirSync(folder)
    .filter((file) => /^\d{4}_[a-z0-9_]+\.sql$/.test(file))
    .sort()
    .map((file, index) => {
      const version = Number(file.slice(0, 4));
      if (version !== index + 1) throw new Error(`migration ${file} should be number ${index + 1}`);
      return { version, name: file, sql: readFileSync(join(folder, file), 'utf8') };
    });
  return { steps, triggers: readFileSync(join(folder, 'triggers.sql'), 'utf8') };
}

/**
 * Brings a file to the newest version in one transaction, or leaves it as it was. Foreign keys are off on the
 * connection while it runs, since a rebuilt table is dropped and a cascade would take its children with it; they
 * are checked before the commit, and any orphan, or any row lost from a table the steps did not drop, aborts.
 *
 * @returns the version before
 */
export function migrate(db: Database, migrations: Migrations, file: string): number {
  const from = db.pragma('user_version', { simple: true }) as number;
  const newest = migrations.steps.length;
  if (from > newest) {
    throw new FileRefused({ type: 'NewerVersion', file, fileVersion: from, programVersion: newest });
  }
  if (from === newest) return from;
  const pending = migrations.steps.filter((step) => step.version > from);
  db.pragma('foreign_keys = OFF');
  try {
    db.transaction(() => {
      dropTriggersAndViews(db);
      const before = rowCounts(db);
      for (const step of pending) db.exec(step.sql);
      refuseLostRows(before, rowCounts(db));
      db.exec(migrations.triggers);
      const orphans = db.pragma('foreign_key_check') as unknown[];
      if (orphans.length > 0) throw new Error(`migration leaves ${orphans.length} orphaned rows`);
      db.pragma(`user_version = ${newest}`);
    }).immediate();
  } finally {
    db.pragma('foreign_keys = ON');
  }
  return from;
}

function dropTriggersAndViews(db: Database): void {
  const made = db.prepare(`SELECT type, name FROM sqlite_schema WHERE type IN ('trigger', 'view')`).all() as {
    type: string;
    name: string;
  }[];
  for (const { type, name } of made) db.exec(`DROP ${type} "${name.replaceAll('"', '""')}"`);
}

function rowCounts(db: Database): Map<string, number> {
  const tables = db
    .prepare(
      `SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND sql NOT LIKE 'CREATE VIRTUAL%'`,
    )
    .pluck()
    .all() as string[];
  return new Map(
    tables.map((name) => [
      name,
      db
        .prepare(`SELECT COUNT(*) FROM "${name.replaceAll('"', '""')}"`)
        .pluck()
        .get() as number,
    ]),
  );
}

/** The book itself may only grow: a step that leaves any surviving table with fewer rows is refused. */
function refuseLostRows(before: ReadonlyMap<string, number>, after: ReadonlyMap<string, number>): void {
  for (const [table, rows] of before) {
    const now = after.get(table);
    if (now !== undefined && now < rows) throw new Error(`migration loses ${rows - now} rows of ${table}`);
  }
}

/** Sources and the built program lie at different depths; the folder is looked for upwards from this file. */
function migrationsFolder(from: string): string {
  for (let folder = from, up = 0; up < 6; folder = dirname(folder), up += 1) {
    const candidate = join(folder, 'migrations');
    if (existsSync(join(candidate, 'triggers.sql'))) return candidate;
  }
  throw new Error('the migrations folder is missing');
}
