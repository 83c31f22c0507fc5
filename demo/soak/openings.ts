import BetterSqlite from 'better-sqlite3';
import { copyFileSync, mkdirSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { startHost } from './killable-host.ts';
import { faultsOfFile } from './whole-cellar.ts';

const CELLARS = resolve(import.meta.dirname, '../../tests/migrations/cellars');

/** Opens a cellar of every version there has been: every line must still be there, and all of it be sound. */
export async function openEarlier(
  folder: string,
): Promise<{ readonly files: number; readonly lines: number; readonly bad: string[] }> {
  mkdirSync(folder, { recursive: true });
  const names = readdirSync(CELLARS).filter((name) => name.endsWith('.undercroft'));
  const bad: string[] = [];
  let lines = 0;
  for (const name of names) {
    const file = join(folder, name);
    copyFileSync(join(CELLARS, name), file);
    const before = linesIn(file);
    const faults = await faultsOfFile(file, ({ session }) => {
      if (session.book.count() !== before)
        bad.push(`${name}: ${before} lines became ${session.book.count()}`);
    });
    bad.push(...faults.map((fault) => `${name}: ${fault}`));
    lines += before;
  }
  return { files: names.length, lines, bad };
}

function linesIn(file: string): number {
  const sqlite = new BetterSqlite(file, { readonly: true });
  try {
    return sqlite.prepare('SELECT COUNT(*) FROM entry').pluck().get() as number;
  } finally {
    sqlite.close();
  }
}

/** Starts two programs on one file at the same moment, over and over; gives what went otherwise than it must. */
export async function raceForOneFile(folder: string, times: number): Promise<string[]> {
  mkdirSync(folder, { recursive: true });
  const bad: string[] = [];
  const cellar = join(folder, 'cellar.undercroft');
  for (let race = 1; race <= times; race += 1) {
    const hosts = [0, 1].map(() => startHost({ cellar, dataFolder: folder }));
    const entered = await Promise.all(
      hosts.map(async (host) => host.enter().then(always(true), always(false))),
    );
    const winners = hosts.filter((_host, index) => entered[index] === true);
    const losers = hosts.filter((_host, index) => entered[index] !== true);
    if (winners.length !== 1) bad.push(`race ${race}: ${winners.length} programs had the file`);
    if (!losers.every((host) => /is open in another program/u.test(host.said()))) {
      bad.push(`race ${race}: the other said ${losers.map((host) => host.said()).join()}`);
    }
    for (const host of winners) if ((await host.end()) !== 0) bad.push(`race ${race}: did not end well`);
    bad.push(...(await faultsOfFile(cellar)).map((fault) => `race ${race}: ${fault}`));
  }
  return bad;
}

function always<T>(value: T): () => T {
  return () => value;
}
