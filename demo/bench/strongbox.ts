import { createHash, randomBytes } from 'node:crypto';
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, renameSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { createRouterClient } from '@orpc/server';
import { compose } from '../../src-main/compose.ts';
import { copyOnline } from '../../src-main/cellar/copy-online.ts';
import { openCellar } from '../../src-main/cellar/open-cellar.ts';
import { syncFolder } from '../../src-main/platform/sync-folder.ts';
import { extractPayload, readSeal } from '../../src-main/strongbox/seal-file.ts';
import { tasks } from '../../src-main/strongbox/tasks.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import { loadFile } from './load-files.ts';
import { ms, times, type BenchLine } from './report.ts';
import { median, sideBySide } from './side-by-side.ts';

const SPEED_GOAL = 0.9;
const RESTART_GOAL = 1.5;
const PICTURE_BYTES = 1_000_000;
const today = { startMs: SAMPLE_NOW_MS, endMs: SAMPLE_NOW_MS + 86_400_000 };
const nothing = (): void => undefined;

/**
 * Backing up and restoring beside the `sqlite3` command's `.backup` and `.restore` of the same file, proving the backup
 * apart; and opening after the program was killed beside opening after it was closed.
 */
export async function strongboxWork(rounds: number, megabytes: number): Promise<BenchLine[]> {
  const folder = mkdtempSync(join(tmpdir(), 'undercroft-bench-strongbox-'));
  try {
    const file = join(folder, 'cellar.undercroft');
    buildCellar(file, megabytes);
    const size = `${(statSync(file).size / 1e6).toFixed(0)} MB`;
    return [...(await copies({ folder, file, size, rounds })), ...(await restarts(folder, rounds))];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** A cellar of ten thousand lines with pictures up to that size. */
function buildCellar(file: string, megabytes: number): void {
  copyFileSync(loadFile(200, 10_000), file);
  const cellar = openCellar(file);
  const put = cellar.sqlite.prepare('INSERT INTO picture VALUES (?, 1, 1, 0, ?, ?, ?)');
  const sum = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
  const thumbnail = randomBytes(8000);
  while (statSync(file).size + statSync(`${file}-wal`).size < megabytes * 1e6) {
    const content = randomBytes(PICTURE_BYTES);
    put.run(sum(content), sum(thumbnail), thumbnail, content);
  }
  cellar.close();
}

interface Copying {
  readonly folder: string;
  readonly file: string;
  readonly size: string;
  readonly rounds: number;
}

async function copies({ folder, file, size, rounds }: Copying): Promise<BenchLine[]> {
  const ours = join(folder, 'ours.undercroft-backup');
  const theirs = join(folder, 'theirs.db');
  const target = join(folder, 'restored.undercroft');
  // The command reads a closed copy of the same file, since ours is held by the program alone.
  const closed = join(folder, 'closed.db');
  copyFileSync(file, closed);
  const command = spawnSync('sqlite3', ['-version'], { encoding: 'utf8' });
  const has = command.status === 0;
  const run = (database: string, words: string): void => {
    const { status, stderr } = spawnSync('sqlite3', [database, words], { encoding: 'utf8' });
    if (status !== 0) throw new Error(`sqlite3 ${words}: ${stderr}`);
  };
  const cellar = openCellar(file);
  try {
    const backUp = async (): Promise<void> => {
      rmSync(ours, { force: true });
      const partial = `${ours}.partial`;
      for await (const _ of copyOnline(cellar, partial, cellar.closing));
      const copy = new BetterSqlite(partial);
      copy.pragma('journal_mode = DELETE');
      copy.close();
      renameSync(partial, ours);
      syncFolder(dirname(ours));
    };
    const theirBackUp = (): void => {
      rmSync(theirs, { force: true });
      run(closed, `.backup '${theirs}'`);
    };
    const turns = { rounds, warmUp: 1 };
    const [backup = NaN, command1 = NaN] = await sideBySide(has ? [backUp, theirBackUp] : [backUp], turns);
    const id = '00000000-0000-4000-8000-000000000000';
    const made = { id, madeAtMs: SAMPLE_NOW_MS, reason: 'byHand', programVersion: 'bench' } as const;
    const [sealing = NaN] = await sideBySide([() => tasks.seal({ file: ours, made }, nothing)], {
      ...{ rounds: 1, warmUp: 0 },
    });
    const [proving = NaN] = await sideBySide([() => tasks.verify({ file: ours }, nothing)], turns);
    const manifest = readSeal(ours);
    const restore = async (): Promise<void> => {
      const candidate = `${target}.restoring`;
      await extractPayload(ours, candidate, manifest);
      renameSync(candidate, target);
      syncFolder(folder);
    };
    const theirRestore = (): void => {
      rmSync(theirs, { force: true });
      run(theirs, `.restore '${ours}'`);
    };
    const [restored = NaN, command2 = NaN] = await sideBySide(
      has ? [restore, theirRestore] : [restore],
      turns,
    );
    return [
      speedLine(`backing up ${size}`, backup, has ? command1 : null, '.backup'),
      {
        what: 'sealing it, and proving all of it after writing',
        ...{ measured: `${ms(sealing)} and ${ms(proving)}`, beside: 'reported apart', ratio: '' },
        ...{ goal: '', met: null },
      },
      speedLine(`restoring ${size}`, restored, has ? command2 : null, '.restore'),
    ];
  } finally {
    cellar.close();
  }
}

/** How fast ours is as a share of the command's speed: 1 is as fast, less is slower. */
function speedLine(what: string, ours: number, command: number | null, word: string): BenchLine {
  const goal = `>= ${SPEED_GOAL} of its speed`;
  if (command === null) {
    return {
      what,
      measured: ms(ours),
      beside: 'the sqlite3 command is not here',
      ratio: '',
      goal,
      met: null,
    };
  }
  const ratio = command / ours;
  return {
    ...{ what, measured: ms(ours), beside: `${ms(command)} by sqlite3 ${word}`, ratio: times(ratio) },
    ...{ goal, met: ratio >= SPEED_GOAL },
  };
}

async function restarts(folder: string, rounds: number): Promise<BenchLine[]> {
  const clean = loadFile(200, 10_000);
  const working = join(folder, 'working.undercroft');
  const killed = join(folder, 'killed.undercroft');
  copyFileSync(clean, working);
  const cellar = openCellar(working);
  // A log as long as it gets before SQLite takes it into the file by itself, and a program that ends there.
  cellar.sqlite.pragma('wal_autocheckpoint = 0');
  const rename = cellar.sqlite.prepare('UPDATE shelf_row SET search = search || ? WHERE vessel_id = ?');
  const vessels = cellar.sqlite.prepare('SELECT vessel_id FROM shelf_row').pluck().all();
  while (statSync(`${working}-wal`).size < 4_000_000) for (const id of vessels) rename.run(' ', id);
  copyFileSync(working, killed);
  copyFileSync(`${working}-wal`, `${killed}-wal`);
  cellar.close();

  const opened = join(folder, 'opened.undercroft');
  const openFrom = async (from: string): Promise<number> => {
    for (const end of ['', '-wal', '-shm']) {
      rmSync(`${opened}${end}`, { force: true });
      if (existsSync(`${from}${end}`)) copyFileSync(`${from}${end}`, `${opened}${end}`);
    }
    const startedAt = performance.now();
    const undercroft = compose({ cellar: opened, dataFolder: folder, clock: () => SAMPLE_NOW_MS });
    const client = createRouterClient(undercroft.router);
    await client.cellar.about();
    await client.shelves.overview({ grouping: 'place', today });
    const tookMs = performance.now() - startedAt;
    undercroft.close();
    return tookMs;
  };
  const afterKill: number[] = [];
  const afterClosing: number[] = [];
  for (let round = -2; round < rounds; round += 1) {
    const [one, other] = [await openFrom(killed), await openFrom(working)];
    if (round < 0) continue;
    afterKill.push(one);
    afterClosing.push(other);
  }
  const [hot, cold] = [median(afterKill), median(afterClosing)];
  return [
    {
      what: 'opening after the program was killed',
      ...{ measured: ms(hot), beside: `${ms(cold)} after it was closed`, ratio: times(hot / cold) },
      ...{ goal: `<= ${RESTART_GOAL}x`, met: hot / cold <= RESTART_GOAL },
    },
  ];
}
