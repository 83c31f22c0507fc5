import { ORPCError } from '@orpc/client';
import { createRouterClient } from '@orpc/server';
import { execFileSync } from 'node:child_process';
import { createHash, randomUUID } from 'node:crypto';
import {
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  rmSync,
  statfsSync,
  writeSync,
} from 'node:fs';
import { join } from 'node:path';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { compose, type Undercroft } from '../../src-main/compose.ts';
import { salvage } from '../../src-main/strongbox/salvage.ts';
import { newIdMaker } from '../../src-main/platform/new-id.ts';
import { chanceFrom } from '../load-story.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import { beginIfNew, keepBusy } from './busy-keeper.ts';
import { toItsEnd, type CellarClient } from './killable-host.ts';
import { contentDigest, faultsOf } from './whole-cellar.ts';

export interface FullDiskReport {
  /** How often something was tried with so much room and no more. */
  readonly tries: number;
  readonly refused: number;
  readonly done: number;
  /** What must be nothing. */
  readonly untyped: readonly string[];
  readonly halfDone: readonly string[];
  readonly notAgain: readonly string[];
  readonly notSound: readonly string[];
}

/** A disk of a few megabytes, made of memory. */
export interface SmallDisk {
  readonly folder: string;
  remove(): void;
}

const DISK_MB = 24;

/** Null where this account may not mount one. */
export function smallDisk(folder: string): SmallDisk | null {
  mkdirSync(folder, { recursive: true });
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${DISK_MB}m`, 'tmpfs', folder], { stdio: 'ignore' });
  } catch {
    return null;
  }
  return {
    folder,
    remove: () => {
      execFileSync('umount', [folder], { stdio: 'ignore' });
    },
  };
}

/** Does everything that writes, with room for nothing, then for one page, and so on until it goes through. */
export async function fillDisk(disk: SmallDisk, seed: number, steps: number): Promise<FullDiskReport> {
  const { folder } = disk;
  const app = compose({
    ...{
      cellar: join(folder, 'cellar.undercroft'),
      dataFolder: join(folder, 'own'),
      clock: () => SAMPLE_NOW_MS,
    },
  });
  const found = {
    ...{ tries: 0, refused: 0, done: 0, untyped: [] as string[], halfDone: [] as string[] },
    ...{ notAgain: [] as string[], notSound: [] as string[] },
  };
  try {
    const client = createRouterClient(app.router, { context: {} });
    await beginIfNew(client);
    const kept = { entryIds: [] as string[], unanswered: null };
    await keepBusy(client, kept, { chance: chanceFrom(seed), until: () => kept.entryIds.length >= 40 });
    for (const [name, doing] of await doings(client, folder)) {
      for (let step = 0; step < steps; step += 1) {
        await tryWith({ app, folder, name, doing, bytes: step * stepBytes(name, steps) }, found);
      }
    }
    found.notSound.push(...(await faultsOf(app.desk.services)));
  } finally {
    app.close();
  }
  return found;
}

/** Whole backups need room for the cellar and its copies; an act needs some pages. */
function stepBytes(name: string, steps: number): number {
  return name === 'an act' || name === 'a rule' || name === 'a photo'
    ? 4096
    : Math.ceil(2_400_000 / steps / 4096) * 4096;
}

interface Doing {
  /** Gives the files that it made. */
  run(): Promise<readonly string[]>;
}

async function doings(client: CellarClient, folder: string): Promise<[string, Doing][]> {
  const { backup } = await toItsEnd<{ backup: { file: string } }>(client.strongbox.backUp());
  const [jar] = await client.shelves.choose({ wanted: 'any', text: '', limit: 1 });
  if (jar === undefined) throw new Error('there is a jar');
  const about = { kind: 'vessel', vesselId: jar.vesselId } as const;
  const post = (text: string) =>
    client.ledger.post({
      requestId: randomUUID(),
      act: { kind: 'note', about, text },
      happenedAtMs: null,
      typed: {},
    });
  const target = join(folder, 'made.undercroft');
  let made = 0;
  return [
    ['an act', { run: async () => (await post('bubbles '.repeat(400)), []) }],
    [
      'a rule',
      { run: async () => (await client.houseRules.settle({ ...HOUSE_RULES_AT_FIRST, currency: 'x' }), []) },
    ],
    ['a photo', { run: async () => (await addPhoto(client, jar.vesselId, (made += 1)), []) }],
    [
      'a backup',
      {
        run: async () => [
          (await toItsEnd<{ backup: { file: string } }>(client.strongbox.backUp())).backup.file,
        ],
      },
    ],
    ['a copy', { run: async () => (await toItsEnd(client.cellar.saveCopy({ file: target })), [target]) }],
    [
      'tables',
      {
        run: async () => {
          const what = { kind: 'tables', byteOrderMark: false } as const;
          await toItsEnd(client.exchange.takeOut({ what, path: join(folder, 'tables') }));
          return [join(folder, 'tables')];
        },
      },
    ],
    [
      'a salvage',
      {
        run: async () => {
          const clock = () => SAMPLE_NOW_MS;
          const steps = salvage(
            { file: backup.file, target },
            { clock, newId: newIdMaker(clock) },
            undefined,
          );
          for (let step = await steps.next(); step.done !== true;) step = await steps.next();
          return [target];
        },
      },
    ],
    [
      'a restore',
      {
        run: async () => {
          const restored = await toItsEnd<{ safety: { file: string } }>(
            client.strongbox.restore({ file: backup.file, passphrase: null }),
          );
          return [restored.safety.file];
        },
      },
    ],
  ];
}

interface Try {
  readonly app: Undercroft;
  readonly folder: string;
  readonly name: string;
  readonly doing: Doing;
  readonly bytes: number;
}

async function tryWith({ app, folder, name, doing, bytes }: Try, found: Mutable): Promise<void> {
  const where = `${name} with room for ${bytes} bytes`;
  const sqlite = () => app.desk.services.session.cellar.sqlite;
  const before = contentDigest(sqlite());
  const files = filesIn(folder);
  const filler = fillUp(folder, bytes);
  found.tries += 1;
  let refused = false;
  try {
    throwAway(await doing.run());
    found.done += 1;
  } catch (error) {
    refused = isDiskFull(error);
    if (refused) found.refused += 1;
    else
      found.untyped.push(
        `${where}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
      );
  } finally {
    rmSync(filler, { force: true });
  }
  if (!refused) return;
  if (contentDigest(sqlite()) !== before) found.halfDone.push(`${where}: the cellar was changed`);
  const left = [...filesIn(folder)].filter((file) => !files.has(file));
  if (left.length > 0) found.halfDone.push(`${where}: left ${left.join()}`);
  try {
    throwAway(await doing.run());
  } catch (error) {
    found.notAgain.push(`${where}: ${String(error)}`);
  }
}

type Mutable = {
  -readonly [key in keyof FullDiskReport]: FullDiskReport[key] extends number ? number : string[];
};

function throwAway(files: readonly string[]): void {
  for (const file of files) rmSync(file, { recursive: true, force: true });
}

/** All files but SQLite's own log and the program's list of what it did. */
function filesIn(folder: string): Set<string> {
  const all = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  return new Set(all.filter((file) => !/-wal$|strongbox|backups$|strongbox-work/u.test(file)));
}

/** Takes all room but so many bytes. */
function fillUp(folder: string, leave: number): string {
  const file = join(folder, 'filler');
  const handle = openSync(file, 'w');
  try {
    const piece = Buffer.alloc(4096, 1);
    for (;;) {
      const { bavail, bsize } = statfsSync(folder);
      const free = bavail * bsize - leave;
      if (free <= 0) break;
      for (let written = 0; written < free; written += piece.length) writeSync(handle, piece);
    }
    fsyncSync(handle);
  } catch (error) {
    if (!isFull(error)) throw error;
  } finally {
    closeSync(handle);
  }
  return file;
}

function isFull(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ENOSPC';
}

/** Told to the keeper as a full disk, by whichever of the typed errors. */
function isDiskFull(error: unknown): boolean {
  const refusal: unknown =
    error instanceof ORPCError
      ? error.data
      : error instanceof Error && 'refusal' in error
        ? error.refusal
        : null;
  return JSON.stringify(refusal ?? null).includes('DiskFull');
}

async function addPhoto(client: CellarClient, vesselId: string, nth: number): Promise<void> {
  const words = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
  const picture = Uint8Array.from([
    ...[0xff, 0xd8, 0xff, 0xe0, 0, 16, ...words('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0],
    ...[0xff, 0xdb, 0, 67, 0, ...Array<number>(64).fill(1)],
    ...[0xff, 0xc0, 0, 11, 8, 0, 3, 0, 4, 1, 1, 0x11, 0],
    ...[
      0xff,
      0xda,
      0,
      8,
      1,
      1,
      0,
      0,
      63,
      0,
      ...Array.from({ length: 30_000 }, (_, at) => (at * nth) % 200),
      0xff,
      0xd9,
    ],
  ]);
  const checksum = createHash('sha256').update(picture).digest('hex');
  const act = {
    kind: 'addPhoto',
    about: { kind: 'vessel', vesselId },
    checksum,
    widthPx: 4,
    heightPx: 3,
    caption: '',
  };
  await client.photos.add({
    ...{ requestId: randomUUID(), act: act as never, happenedAtMs: null, typed: {} },
    ...{ picture: new File([picture], 'p.jpg'), thumbnail: new File([picture], 't.jpg') },
  });
}
