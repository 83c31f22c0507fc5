import { randomUUID } from 'node:crypto';
import { existsSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Database } from 'better-sqlite3';
import BetterSqlite from 'better-sqlite3';
import type { Clock } from '#core/base/ports.ts';
import type { LocalTime } from '#core/quantities/civil-time.ts';
import { backupName } from '#core/strongbox/backup-name.ts';
import { leaveCopy, type CopyBefore } from '../cellar/open-cellar.ts';
import { beginPassing, giveItsName, passingName, throwAway } from '../cellar/write-aside.ts';
import { programVersion } from '../platform/program-version.ts';
import { checkPayload } from './check-payload.ts';
import { payloadFacts } from './payload-facts.ts';
import { proveParts, readSeal, sealFile } from './seal-file.ts';

/**
 * The backup before a file is brought to a new version, in the program's own folder: it is made while the file is being
 * opened, before anything else can be, and so without letting anything through. Where it cannot be made there, a plain copy is
 * left beside the file; where that cannot be made either, the file is not opened.
 */
export function backUpBeforeMigration(parts: {
  readonly folder: string;
  readonly clock: Clock;
  readonly localTime: LocalTime;
}): CopyBefore {
  return (sqlite, file, newVersion) => {
    try {
      backUp(sqlite, parts);
    } catch {
      leaveCopy(sqlite, file, newVersion);
    }
  };
}

function backUp(
  sqlite: Database,
  { folder, clock, localTime }: Parameters<typeof backUpBeforeMigration>[0],
): void {
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const facts = payloadFacts(sqlite);
  const madeAtMs = clock();
  const named = { cellarName: facts.cellar.name, madeAtMs, reason: 'beforeMigration' } as const;
  let nth = 1;
  let file = join(folder, backupName({ ...named, nth }, localTime));
  while (existsSync(file)) file = join(folder, backupName({ ...named, nth: (nth += 1) }, localTime));
  const passing = passingName(file);
  try {
    beginPassing(passing);
    sqlite.prepare('VACUUM INTO ?').run(passing);
    const made = { id: randomUUID(), madeAtMs, reason: 'beforeMigration', programVersion } as const;
    sealFile(passing, { ...made, ...facts });
    prove(passing);
    giveItsName(passing, file);
  } finally {
    throwAway(passing);
  }
}

function prove(file: string): void {
  const manifest = readSeal(file);
  proveParts(file, manifest);
  const copy = new BetterSqlite(file, { readonly: true });
  try {
    const { faults } = checkPayload(copy, manifest);
    if (faults.length > 0)
      throw new Error(`the backup before a new version is not sound: ${faults.join(', ')}`);
  } finally {
    copy.close();
  }
}
