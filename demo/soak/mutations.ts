import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { createRouterClient } from '@orpc/server';
import { CLOSING_BYTES, closingLine, readClosing, SEAL_OPENING } from '#core/strongbox/seal.ts';
import { compose, type Undercroft } from '../../src-main/compose.ts';
import { BackupRefused } from '../../src-main/strongbox/backup-refused.ts';
import { restoreBeside } from '../../src-main/strongbox/restore-whole.ts';
import { writeBackup } from '../../src-main/strongbox/write-backup.ts';
import { chanceFrom } from '../load-story.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import { beginIfNew, keepBusy } from './busy-keeper.ts';
import { pick, type Chance } from './hostile-values.ts';
import { contentDigest } from './whole-cellar.ts';

export interface MutationReport {
  readonly mutations: number;
  readonly refused: Readonly<Record<string, number>>;
  /** Restored, and every row as in the backup before it was changed. */
  readonly restoredSame: number;
  /** What must be nothing. */
  readonly restoredOther: readonly string[];
  readonly untyped: readonly string[];
  readonly leftBehind: readonly string[];
}

export interface MutationOptions {
  readonly mutations: number;
  readonly seed: number;
  /** An empty folder. */
  readonly folder: string;
  readonly told?: (done: number) => void;
}

const PASSPHRASE = 'a crock of pears';
/** Of how many one is an encrypted backup: opening one takes a second by design. */
const ENCRYPTED_ONE_IN = 250;

/** Changes backups in every way that comes to hand, and restores each beside: it must be refused, or be the very same. */
export async function mutateBackups(options: MutationOptions): Promise<MutationReport> {
  const { mutations, seed, folder, told = () => undefined } = options;
  mkdirSync(folder, { recursive: true });
  const chance = chanceFrom(seed);
  const app = compose({
    ...{ cellar: join(folder, 'cellar.undercroft'), dataFolder: folder, clock: () => SAMPLE_NOW_MS },
  });
  const found = {
    ...{ mutations, refused: {} as Record<string, number>, restoredSame: 0 },
    ...{ restoredOther: [] as string[], untyped: [] as string[], leftBehind: [] as string[] },
  };
  try {
    const made = await backups(app, folder, chance);
    const target = join(folder, 'restored.undercroft');
    const file = join(folder, 'changed.undercroft-backup');
    for (let number = 0; number < mutations; number += 1) {
      const isSealed = number % ENCRYPTED_ONE_IN === ENCRYPTED_ONE_IN - 1;
      const from = isSealed ? made.encrypted : pick(chance, made.plain);
      const { bytes, what } = changed(from.bytes, pick(chance, made.plain).bytes, chance, isSealed);
      writeFileSync(file, bytes);
      const passphrase = isSealed ? PASSPHRASE : null;
      try {
        const { session } = app.desk.services;
        const steps = restoreBeside(
          session,
          { file, passphrase, workFolder: join(folder, 'work'), target },
          undefined,
        );
        let step = await steps.next();
        while (step.done !== true) step = await steps.next();
        if (made.contents.has(contentOf(target))) found.restoredSame += 1;
        else found.restoredOther.push(`number ${number}: ${what}`);
      } catch (error) {
        if (error instanceof BackupRefused) {
          const { type } = error.refusal;
          found.refused[type] = (found.refused[type] ?? 0) + 1;
          for (const end of ['', '-wal', '-shm']) {
            if (existsSync(`${target}${end}`)) found.leftBehind.push(`number ${number}: ${what}`);
          }
        } else
          found.untyped.push(
            `number ${number}: ${what}: ${error instanceof Error ? (error.stack ?? '') : String(error)}`,
          );
      }
      for (const end of ['', '-wal', '-shm']) rmSync(`${target}${end}`, { force: true });
      if (number % 100 === 99) told(number + 1);
    }
  } finally {
    app.close();
  }
  return found;
}

interface Made {
  readonly bytes: Buffer;
}

/** Two plain backups of one cellar, of different days, and one encrypted; with what is in them. */
async function backups(app: Undercroft, folder: string, chance: Chance) {
  const client = createRouterClient(app.router, { context: {} });
  await beginIfNew(client);
  const kept = { entryIds: [] as string[], unanswered: null };
  const contents = new Set<string>();
  const plain: Made[] = [];
  const write = async (passphrase: string | null): Promise<Made> => {
    const file = join(
      folder,
      `backup-${plain.length}-${passphrase === null ? 'plain' : 'sealed'}.undercroft-backup`,
    );
    const asked = {
      file,
      reason: 'byHand',
      madeAtMs: SAMPLE_NOW_MS,
      passphrase,
      workFolder: join(folder, 'work'),
    } as const;
    mkdirSync(asked.workFolder, { recursive: true });
    const steps = writeBackup(app.desk.services.session.cellar, asked, undefined);
    let step = await steps.next();
    while (step.done !== true) step = await steps.next();
    return { bytes: readFileSync(file) };
  };
  for (const lines of [40, 90]) {
    await keepBusy(client, kept, { chance, until: () => kept.entryIds.length >= lines });
    const one = await write(null);
    contents.add(payloadContent(one.bytes, folder));
    plain.push(one);
  }
  return { plain, contents, encrypted: await write(PASSPHRASE) };
}

function payloadContent(bytes: Buffer, folder: string): string {
  const file = join(folder, 'payload.undercroft');
  const closing = readClosing(bytes.subarray(bytes.length - CLOSING_BYTES).toString('latin1'), bytes.length);
  writeFileSync(file, bytes.subarray(0, closing?.payloadBytes ?? 0));
  return contentOf(file);
}

function contentOf(file: string): string {
  const sqlite = new BetterSqlite(file, { readonly: true });
  try {
    return contentDigest(sqlite);
  } finally {
    sqlite.close();
  }
}

interface Changed {
  readonly bytes: Buffer;
  readonly what: string;
}

function changed(from: Buffer, other: Buffer, chance: Chance, isSealed: boolean): Changed {
  const bytes = Buffer.from(from);
  const at = Math.floor(chance() ** (chance() < 0.5 ? 1 : 0.2) * bytes.length);
  const sector = pick(chance, [512, 4096]);
  const block = Math.floor(at / sector) * sector;
  const elsewhere = Math.floor((chance() * bytes.length) / sector) * sector;
  const ways: (() => Changed)[] = [
    () => {
      const bits = 1 + Math.floor(chance() * 4);
      for (let bit = 0; bit < bits; bit += 1) {
        const place = bit === 0 ? Math.min(at, bytes.length - 1) : Math.floor(chance() * bytes.length);
        bytes[place] = (bytes[place] ?? 0) ^ (1 << Math.floor(chance() * 8));
      }
      return { bytes, what: `${bits} bits turned, the first at ${at}` };
    },
    () => ({ bytes: bytes.subarray(0, at), what: `cut off at ${at}` }),
    () => ({ bytes: Buffer.concat([bytes, bytes.subarray(at)]), what: `its end twice, from ${at}` }),
    () => ({
      bytes: Buffer.concat([bytes.subarray(0, at), bytes.subarray(at + sector)]),
      what: `${sector} bytes left out at ${at}`,
    }),
    () => ({
      bytes: Buffer.concat([bytes.subarray(0, at), Buffer.alloc(sector), bytes.subarray(at)]),
      what: `${sector} zeros put in at ${at}`,
    }),
    () => ({
      bytes: bytes.fill(pick(chance, [0, 255, 0x5a]), block, Math.min(bytes.length, block + sector)),
      what: `a sector overwritten at ${block}`,
    }),
    () => {
      const kept = Buffer.from(bytes.subarray(block, block + sector));
      Buffer.from(bytes.subarray(elsewhere, elsewhere + sector)).copy(bytes, block);
      kept.copy(bytes, elsewhere);
      return { bytes, what: `sectors ${block} and ${elsewhere} swapped` };
    },
    () => {
      Buffer.from(bytes.subarray(elsewhere, elsewhere + sector)).copy(bytes, block);
      return { bytes, what: `sector ${elsewhere} doubled at ${block}` };
    },
    () => {
      other.subarray(block, block + sector).copy(bytes, block);
      return { bytes, what: `sector ${block} of another backup` };
    },
    () => ({
      bytes: Buffer.concat([bytes.subarray(0, at), other.subarray(at)]),
      what: `the end of another backup, from ${at}`,
    }),
  ];
  const tricks: (() => Changed)[] = isSealed
    ? []
    : [() => resealed(bytes, chance), () => resealed(bytes, chance)];
  return pick(chance, [...ways, ...tricks])();
}

/** Changes what a backup says of itself, and makes its seal anew, so that every checksum is right again. */
function resealed(bytes: Buffer, chance: Chance): Changed {
  const closing = readClosing(bytes.subarray(bytes.length - CLOSING_BYTES).toString('latin1'), bytes.length);
  if (closing === null) throw new Error('a backup has a seal');
  const payload = bytes.subarray(0, closing.payloadBytes);
  const text = bytes
    .subarray(closing.payloadBytes + SEAL_OPENING.length, bytes.length - CLOSING_BYTES)
    .toString();
  const trick = pick(chance, tricksOf(text, chance));
  const words = Buffer.from(`${trick.opening ?? SEAL_OPENING}${trick.text}\n`);
  const sha256 = createHash('sha256').update(words).digest('hex');
  const manifestBytes = words.length - SEAL_OPENING.length;
  const line = closingLine({ payloadBytes: payload.length, manifestBytes, sha256 });
  return {
    bytes: Buffer.concat([payload, words, Buffer.from(line, 'latin1')]),
    what: `resealed with ${trick.what}`,
  };
}

interface Trick {
  readonly what: string;
  readonly text: string;
  readonly opening?: string;
}

function tricksOf(text: string, chance: Chance): readonly Trick[] {
  type Manifest = Record<string, unknown> & { payload: { partSha256: string[] } & Record<string, unknown> };
  const manifest = (): Manifest => JSON.parse(text) as Manifest;
  const edited = (what: string, edit: (given: Manifest) => void): Trick => {
    const given = manifest();
    edit(given);
    return { what, text: JSON.stringify(given) };
  };
  const field = pick(chance, Object.keys(manifest()));
  const worst = pick(chance, [null, '', -1, 1e21, [], {}, 'x', true, '__proto__']);
  return [
    edited(`${field}: ${JSON.stringify(worst)}`, (given) => Object.assign(given, { [field]: worst })),
    edited(`no ${field}`, (given) => Reflect.deleteProperty(given, field)),
    edited('a field nobody knows', (given) => Object.assign(given, { extra: 1 })),
    edited('one line more', (given) => Object.assign(given['counts'] as object, { entries: 1e6 })),
    edited('another last line', (given) => Object.assign(given['lastEntry'] as object, { sequence: 1 })),
    edited('another name', (given) => Object.assign(given['cellar'] as object, { name: '<img src=x>' })),
    edited('another version', (given) =>
      Object.assign(given['cellar'] as object, { fileVersion: pick(chance, [1, 3, 99]) }),
    ),
    edited('parts of one byte', (given) => Object.assign(given.payload, { partBytes: 1 })),
    edited('parts without end', (given) =>
      Object.assign(given.payload, { partBytes: Number.MAX_SAFE_INTEGER }),
    ),
    edited('no parts', (given) => Object.assign(given.payload, { partSha256: [] })),
    edited('a part too many', (given) => given.payload.partSha256.push('0'.repeat(64))),
    edited('parts in another order', (given) => given.payload.partSha256.reverse()),
    edited('a shorter cellar', (given) => Object.assign(given.payload, { bytes: 4096 })),
    edited('a longer cellar', (given) => Object.assign(given.payload, { bytes: 1e12 })),
    { what: 'a field twice', text: text.replace('{', '{"format":1,"format":2,') },
    { what: 'a prototype', text: text.replace('{', '{"__proto__":{"format":1},') },
    { what: 'words that are no JSON', text: text.slice(0, -5) },
    { what: 'nothing', text: '' },
    { what: 'depth', text: '['.repeat(50_000) },
    { what: 'a line end in it', text: text.replace(',', ',\n') },
    { what: 'another opening', text, opening: SEAL_OPENING.replace('1', '2') },
    { what: 'no number in its opening', text, opening: SEAL_OPENING.replace('1', 'x') },
  ];
}
