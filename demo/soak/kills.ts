import { copyFileSync, existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import type { BackUpReport } from '#core/contract/strongbox.ts';
import type { BookStore } from '../../src-main/ledger/book-store.ts';
import { verifyBackup } from '../../src-main/strongbox/look-inside.ts';
import { dataFolder } from '../../src-main/platform/paths.ts';
import { chanceFrom } from '../load-story.ts';
import { keepBusy, type Acknowledged } from './busy-keeper.ts';
import { pick, type Chance } from './hostile-values.ts';
import { startHost, toItsEnd, type CellarClient } from './killable-host.ts';
import type { CellarServices } from '../../src-main/cellar/cellar-services.ts';
import { faultsOfFile, quickFaultsOfFile } from './whole-cellar.ts';

/** What the program is in the middle of when it is killed. */
export const KILL_MOMENTS = ['acts', 'opening', 'migration', 'backup', 'restore'] as const;
export type KillMoment = (typeof KILL_MOMENTS)[number];

export interface KillReport {
  readonly kills: Readonly<Record<KillMoment, number>>;
  /** Lines that the keeper was told are written. */
  readonly acknowledged: number;
  /** What must be nothing. */
  readonly lost: readonly string[];
  readonly unreadable: readonly string[];
  readonly notSound: readonly string[];
  readonly halfDone: readonly string[];
  /** Finished backups that were verified. */
  readonly backups: number;
}

export interface KillOptions {
  readonly kills: number;
  readonly seed: number;
  /** An empty folder. */
  readonly folder: string;
  /** How often each moment comes, of a hundred. */
  readonly shares?: Readonly<Record<KillMoment, number>>;
  readonly told?: (done: number) => void;
}

const SHARES: Readonly<Record<KillMoment, number>> = {
  acts: 66,
  opening: 8,
  migration: 10,
  backup: 8,
  restore: 8,
};
/** A cellar grows with each round, and its check with it: after so many rounds a new one is begun. */
const ROUNDS_A_CELLAR = 15;
/** So often all of the book is played again and every projection rebuilt; what is wrong before stays wrong until then. */
const THOROUGH_ONE_IN = 5;
const CELLARS = resolve(import.meta.dirname, '../../tests/migrations/cellars');

/** Kills the program at moments of chance in the middle of its work, and looks at what is left each time. */
export async function killAtRandom(options: KillOptions): Promise<KillReport> {
  const { kills, seed, folder, shares = SHARES, told = () => undefined } = options;
  const chance = chanceFrom(seed);
  const found = {
    kills: { acts: 0, opening: 0, migration: 0, backup: 0, restore: 0 },
    ...{ acknowledged: 0, backups: 0, lost: [] as string[], unreadable: [] as string[] },
    ...{ notSound: [] as string[], halfDone: [] as string[] },
  };
  let round: Round | null = null;
  for (let number = 0; number < kills; number += 1) {
    const moment = momentOf(chance, shares);
    if (moment === 'migration') await killMigration(chance, join(folder, `migration-${number}`), found);
    else {
      if (round === null || round.kills === ROUNDS_A_CELLAR)
        round = newRound(join(folder, `cellar-${number}`));
      round.kills += 1;
      await killWork(moment, round, chance, found);
    }
    found.kills[moment] += 1;
    told(number + 1);
  }
  return found;
}

type Found = {
  readonly [key in 'lost' | 'unreadable' | 'notSound' | 'halfDone']: string[];
} & { acknowledged: number; backups: number };

interface Round {
  readonly folder: string;
  readonly cellar: string;
  /** Names of backups that were read from their first byte to their last. */
  readonly verified: Map<string, number>;
  kills: number;
  kept: Acknowledged;
}

function newRound(folder: string): Round {
  mkdirSync(folder, { recursive: true });
  return {
    ...{ folder, cellar: join(folder, 'cellar.undercroft'), verified: new Map(), kills: 0 },
    kept: { entryIds: [], unanswered: null },
  };
}

function momentOf(chance: Chance, shares: Readonly<Record<KillMoment, number>>): KillMoment {
  return pick(
    chance,
    KILL_MOMENTS.flatMap((moment) => Array.from({ length: shares[moment] }, () => moment)),
  );
}

async function killWork(
  moment: Exclude<KillMoment, 'migration'>,
  round: Round,
  chance: Chance,
  found: Found,
): Promise<void> {
  const { folder, cellar, kept } = round;
  const before = kept.entryIds.length;
  const host = startHost({ cellar, dataFolder: folder });
  /** Lines of a backup that a restore put in place, or was putting when the program was killed. */
  let restored: Restoring | null = null;
  if (moment === 'opening') await setTimeout(chance() * 700);
  else {
    const client = await host.enter();
    const enough = before + Math.floor(chance() * 25);
    const busy = keepBusy(client, kept, { chance, until: () => kept.entryIds.length >= enough });
    if (moment === 'acts') await busy.then(() => workUntilKilled(client, round, chance, host));
    else {
      await busy;
      restored = await longWork(client, moment, round, chance);
    }
  }
  await host.kill();
  found.acknowledged += kept.entryIds.length - before;
  await lookAfter(round, restored, found, moment);
}

/** Works on, and is killed at some moment of it. */
async function workUntilKilled(
  client: CellarClient,
  { kept }: Round,
  chance: Chance,
  host: { kill(): Promise<void> },
): Promise<void> {
  const busy = keepBusy(client, kept, { chance, until: () => false });
  await setTimeout(chance() * 30);
  await host.kill();
  await busy;
}

/** Makes a backup or restores one, and returns when it has come so far as chance will have it. */
async function longWork(
  client: CellarClient,
  moment: 'backup' | 'restore',
  { kept }: Round,
  chance: Chance,
): Promise<Restoring | null> {
  const steps = Math.floor(chance() * (moment === 'backup' ? 10 : 26));
  if (moment === 'backup') {
    await someSteps(client.strongbox.backUp(), steps);
    await setTimeout(chance() * 20);
    return null;
  }
  const { backup } = await toItsEnd<BackUpReport>(client.strongbox.backUp());
  const enough = kept.entryIds.length + 3;
  await keepBusy(client, kept, { chance, until: () => kept.entryIds.length >= enough });
  const isDone = await someSteps(client.strongbox.restore({ file: backup.file, passphrase: null }), steps);
  await setTimeout(chance() * 20);
  return { lines: backup.counts.entries, isDone };
}

interface Restoring {
  /** Lines of the backup. */
  readonly lines: number;
  /** The keeper was told that it is done. */
  readonly isDone: boolean;
}

/** Takes so many steps of a long call; true when it has ended by then. */
async function someSteps(work: Promise<AsyncIterator<unknown>>, count: number): Promise<boolean> {
  const steps = await work;
  for (let taken = 0; taken < count; taken += 1) if ((await steps.next()).done === true) return true;
  return false;
}

async function quietly(work: Promise<unknown>): Promise<void> {
  await work.catch(() => undefined);
}

/** Opens what is left, as the program would, and holds it against what was acknowledged. */
async function lookAfter(
  round: Round,
  restored: Restoring | null,
  found: Found,
  moment: KillMoment,
): Promise<void> {
  const { cellar, kept, folder } = round;
  const where = `killed during ${moment}, ${kept.entryIds.length} lines acknowledged`;
  const safeties = await verifiedBackups(join(foldersOwn(folder), 'backups'), round.verified, found, where);
  if (!existsSync(cellar)) {
    if (kept.entryIds.length > 0) found.lost.push(`${where}: the file is gone`);
    return;
  }
  let missing: string[] = [];
  try {
    const isThorough = restored !== null || round.kills % THOROUGH_ONE_IN === 0;
    const look = ({ session }: CellarServices): void => {
      missing = missingIn(session.book, kept.entryIds);
    };
    const faults = await (isThorough ? faultsOfFile(cellar, look) : quickFaultsOfFile(cellar, look));
    found.notSound.push(...faults.map((fault) => `${where}: ${fault}`));
  } catch (error) {
    found.unreadable.push(`${where}: ${String(error)}`);
    return;
  }
  if (restored !== null && missing.length > 0) {
    // The backup is in place: all that was acknowledged must lie in the safety copy, which was made before.
    const isSafe = safeties.some((entries) => entries >= kept.entryIds.length);
    if (!isSafe) found.lost.push(`${where}: ${missing.length} lines are neither here nor in a safety copy`);
    round.kept = { entryIds: kept.entryIds.filter((id) => !missing.includes(id)), unanswered: null };
    return;
  }
  if (restored?.isDone === true && missing.length === 0 && kept.entryIds.length > restored.lines) {
    found.halfDone.push(`${where}: said to be restored, and is as before`);
  }
  found.lost.push(...missing.map((id) => `${where}: ${id}`));
  for (const name of readdirSync(folder)) {
    if (/\.(?:restoring-|replaced-|replacing|partial)/u.test(name))
      found.halfDone.push(`${where}: ${name} was left`);
  }
}

/** Where the program keeps its own files when it is told to keep them in this folder. */
function foldersOwn(folder: string): string {
  return dataFolder({
    platform: process.platform,
    home: folder,
    env: { XDG_DATA_HOME: folder, APPDATA: folder },
  });
}

function missingIn(book: BookStore, entryIds: readonly string[]): string[] {
  return entryIds.filter((id) => book.byId(id) === null);
}

/** Every file with a backup's name must be a whole one, whenever the program was killed; gives their numbers of lines. */
async function verifiedBackups(
  folder: string,
  verified: Map<string, number>,
  found: Found,
  where: string,
): Promise<number[]> {
  if (!existsSync(folder)) return [];
  for (const name of readdirSync(folder)) {
    const file = join(folder, name);
    if (name.includes('.partial')) {
      rmSync(file);
      continue;
    }
    if (verified.has(name)) continue;
    try {
      const steps = verifyBackup({ file, passphrase: null, workFolder: folder }, undefined);
      let step = await steps.next();
      while (step.done !== true) step = await steps.next();
      verified.set(name, step.value.entriesBalanced);
      found.backups += 1;
    } catch (error) {
      found.halfDone.push(`${where}: the backup ${name} is not whole: ${String(error)}`);
    }
  }
  return [...verified.values()];
}

/** A cellar of an earlier version is opened, and the program killed while it may be raising the version. */
async function killMigration(chance: Chance, folder: string, found: Found): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const name = pick(
    chance,
    readdirSync(CELLARS).filter((file) => file.endsWith('.undercroft')),
  );
  const cellar = join(folder, name);
  copyFileSync(join(CELLARS, name), cellar);
  const host = startHost({ cellar, dataFolder: folder });
  await Promise.race([quietly(host.enter()), setTimeout(150 + chance() * 500)]);
  await host.kill();
  const where = `${name}, killed during its migration`;
  try {
    let lines = 0;
    const faults = await faultsOfFile(cellar, ({ session }) => {
      lines = session.book.count();
    });
    found.notSound.push(...faults.map((fault) => `${where}: ${fault}`));
    if (lines === 0) found.lost.push(`${where}: the book is empty`);
  } catch (error) {
    found.unreadable.push(`${where}: ${String(error)}`);
  }
  rmSync(folder, { recursive: true, force: true });
}
