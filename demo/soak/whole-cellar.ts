import { createHash } from 'node:crypto';
import type { CheckReport } from '#core/contract/cellar.ts';
import { canonical, checkCellar } from '../../src-main/cellar/check-cellar.ts';
import type { CellarServices } from '../../src-main/cellar/cellar-services.ts';
import { openServices } from '../../src-main/cellar/cellar-services.ts';
import { openCellar } from '../../src-main/cellar/open-cellar.ts';
import { PROJECTED_TABLES, rebuildProjections } from '../../src-main/cellar/rebuild-projections.ts';
import { openSession } from '../../src-main/cellar/session.ts';
import { newIdMaker } from '../../src-main/platform/new-id.ts';

/** The program's own check, run to its end. */
export async function checked(services: CellarServices): Promise<CheckReport> {
  const steps = checkCellar(services, undefined);
  for (;;) {
    const step = await steps.next();
    if (step.done === true) return step.value;
  }
}

/** What is wrong with an open cellar: what its check finds, and every projection that a rebuild gives otherwise. */
export async function faultsOf(services: CellarServices): Promise<string[]> {
  const { faults } = await checked(services);
  const before = projections(services);
  rebuildProjections(services.session);
  const after = projections(services);
  return [
    ...faults.map(({ type, detail }) => `${type}: ${detail}`),
    ...PROJECTED_TABLES.filter((table) => before.get(table) !== after.get(table)).map(
      (table) => `${table} differs from its rebuild`,
    ),
  ];
}

/** Opens a file as the program does and says what is wrong with it; what it holds is handed to `look` before it is closed. */
export async function faultsOfFile(
  file: string,
  look?: (services: CellarServices) => void,
): Promise<string[]> {
  const cellar = openCellar(file);
  try {
    const clock = Date.now;
    const services = openServices(openSession(cellar, clock, newIdMaker(clock)));
    look?.(services);
    return await faultsOf(services);
  } finally {
    cellar.close();
  }
}

/** Opens a file as the program does, and lets SQLite alone look it over. */
export async function quickFaultsOfFile(
  file: string,
  look: (services: CellarServices) => void,
): Promise<string[]> {
  return Promise.resolve(
    withFile(file, (services) => {
      look(services);
      const { sqlite } = services.session.cellar;
      const lines = sqlite.pragma('integrity_check(5)') as { integrity_check: string }[];
      return lines.map((line) => line.integrity_check).filter((line) => line !== 'ok');
    }),
  );
}

function withFile<T>(file: string, work: (services: CellarServices) => T): T {
  const cellar = openCellar(file);
  try {
    return work(openServices(openSession(cellar, Date.now, newIdMaker(Date.now))));
  } finally {
    cellar.close();
  }
}

function projections({ session }: CellarServices): Map<string, string> {
  return new Map(PROJECTED_TABLES.map((table) => [table, tableDigest(session.cellar.sqlite, table)]));
}

type Sqlite = CellarServices['session']['cellar']['sqlite'];

function tableDigest(sqlite: Sqlite, table: string): string {
  const rows = (sqlite.prepare(`SELECT * FROM "${table}"`).all() as Row[]).map(sameText).sort();
  return createHash('sha256').update(rows.join('\n')).digest('hex');
}

type Row = Readonly<Record<string, unknown>>;

/** A row as text; what is JSON in it may have its fields in any order. */
function sameText(row: Row): string {
  return canonical(
    Object.fromEntries(Object.entries(row).map(([column, value]) => [column, jsonOrAsItIs(value)])),
  );
}

function jsonOrAsItIs(value: unknown): unknown {
  if (typeof value !== 'string' || !/^[[{]/u.test(value)) return value;
  try {
    return JSON.parse(value) as unknown;
  } catch {
    return value;
  }
}

/** One checksum over all tables, indexes and the header of an open file: two that agree are the same cellar. */
export function wholeDigest(sqlite: Sqlite): string {
  return createHash('sha256').update(sqlite.serialize()).digest('hex');
}

const OF_THE_INDEX = /_words_(?:data|idx|docsize|config)$/u;

/** Every row of every table as text, without how it lies on the disk, nor how the words are indexed. */
export function contentDigest(sqlite: Sqlite): string {
  const tables = sqlite
    .prepare(
      `SELECT name FROM sqlite_schema WHERE type = 'table' AND sql NOT LIKE 'CREATE VIRTUAL%' ORDER BY name`,
    )
    .pluck()
    .all() as string[];
  const hash = createHash('sha256');
  for (const table of tables.filter((name) => !OF_THE_INDEX.test(name))) {
    const rows = sqlite.prepare(`SELECT * FROM "${table}"`).raw().all().map(rowText).sort();
    hash.update(`${table}\n${rows.join('\n')}\n`);
  }
  return hash.digest('hex');
}

function rowText(row: unknown): string {
  return JSON.stringify(row, (_key, value: unknown) =>
    value instanceof Uint8Array ? Buffer.from(value).toString('base64') : value,
  );
}
