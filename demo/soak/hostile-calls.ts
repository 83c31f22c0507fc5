import { StandardRPCJsonSerializer } from '@orpc/client/standard';
import { isContractProcedure } from '@orpc/contract';
import { createRouterClient } from '@orpc/server';
import { createHash } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { contract } from '#core/contract/index.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { compose, type Undercroft } from '../../src-main/compose.ts';
import type { Log } from '../../src-main/platform/log.ts';
import { chanceFrom } from '../load-story.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import {
  broken,
  fittingValue,
  pick,
  worstValue,
  type Chance,
  type Known,
  type ValueShape,
} from './hostile-values.ts';
import { faultsOf, wholeDigest } from './whole-cellar.ts';
import { httpWire, pipeWire, type Answer, type Wire } from './wires.ts';

export interface HostileOptions {
  readonly calls: number;
  readonly seed: number;
  readonly through: 'http' | 'pipe';
  /** An empty folder: everything that is written lies in it. */
  readonly folder: string;
  /** Begin with the sample year, which has one of everything; else with one shelf. */
  readonly sample: boolean;
}

export interface HostileReport {
  readonly calls: number;
  readonly answered: number;
  readonly refused: number;
  /** Messages and bodies that are no call at all. */
  readonly garbage: number;
  readonly entries: number;
  /** What must be nothing: each says what was asked and what became of it. */
  readonly untyped: readonly string[];
  readonly hung: readonly string[];
  readonly changedThoughRefused: readonly string[];
  readonly notSound: readonly string[];
}

const HANGS_AFTER_MS = 60_000;
const LOOKS_EVERY = 50;
const PROGRAM_NOW_MS = SAMPLE_NOW_MS + 3_600_000;

/**
 * Calls every method through one of the hosts with input that fits its schema, with input that was broken after it
 * fitted, and with bytes that are no call. A refusal must leave the file as it was, every answer must have a type, and
 * at the end the book must balance and give the very shelf that is shown.
 */
export async function attackByCalls(options: HostileOptions): Promise<HostileReport> {
  const chance = chanceFrom(options.seed);
  const deep = join(options.folder, 'a', 'b', 'c');
  mkdirSync(deep, { recursive: true });
  const app = compose({
    ...{ cellar: join(deep, 'cellar.undercroft'), demo: options.sample, dataFolder: deep },
    clock: () => PROGRAM_NOW_MS,
  });
  const faults: string[] = [];
  const log: Log = {
    say: () => undefined,
    refuse: () => undefined,
    fault: (sentence, error) =>
      faults.push(`${sentence} ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`),
  };
  const wire = options.through === 'http' ? await httpWire(app.router, log) : pipeWire(app.router, log);
  try {
    if (!options.sample) await begin(app);
    return await attack(options, { app, wire, faults, chance, deep });
  } finally {
    await wire.close();
    app.close();
  }
}

interface Parts {
  readonly app: Undercroft;
  readonly wire: Wire;
  readonly faults: string[];
  readonly chance: Chance;
  readonly deep: string;
}

async function attack(options: HostileOptions, parts: Parts): Promise<HostileReport> {
  const { app, wire, faults, chance } = parts;
  const found = {
    ...{ answered: 0, refused: 0, garbage: 0 },
    ...{ untyped: [] as string[], hung: [] as string[], changedThoughRefused: [] as string[] },
  };
  const watch = watchFile(app);
  const known = knownIn(app, chance);
  const onUnhandled = (error: unknown): void => {
    found.untyped.push(
      `nobody caught ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
    );
  };
  process.on('unhandledRejection', onUnhandled);
  try {
    for (let number = 0; number < options.calls; number += 1) {
      if (number % 100 === 0) known.refresh();
      const call = nextCall(parts, known);
      const { said } = call;
      const faultsBefore = faults.length;
      const answer = await inTime(call.send(wire));
      if (answer === 'hung') found.hung.push(said);
      else if (answer === null) found.garbage += 1;
      else if (answer.status < 400) found.answered += 1;
      else found.refused += 1;
      const isFault = answer !== null && answer !== 'hung' && answer.status >= 500 && answer.status !== 507;
      if (isFault || faults.length > faultsBefore) {
        found.untyped.push(
          `${said}\n  ${faults.slice(faultsBefore).join('\n  ') || (answer as Answer).text}`,
        );
      }
      const mayWrite = answer !== null && answer !== 'hung' && answer.status < 400;
      const looksClosely = number % LOOKS_EVERY === 0;
      if (!watch.isAsBefore(mayWrite, looksClosely)) found.changedThoughRefused.push(said);
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  } finally {
    process.off('unhandledRejection', onUnhandled);
  }
  if (({} as Record<string, unknown>)['polluted'] !== undefined)
    found.untyped.push('Object.prototype was written to');
  const notSound = await faultsOf(app.desk.services);
  const other = app.desk.services.session.book.count();
  app.desk.openHome();
  notSound.push(...(await faultsOf(app.desk.services)));
  const entries = Math.max(other, app.desk.services.session.book.count());
  return { ...found, calls: options.calls, entries, notSound };
}

async function inTime<T>(work: Promise<T>): Promise<T | 'hung'> {
  let limit: NodeJS.Timeout | undefined;
  const late = new Promise<'hung'>((resolve) => {
    limit = setTimeout(() => {
      resolve('hung');
    }, HANGS_AFTER_MS);
  });
  try {
    return await Promise.race([work, late]);
  } finally {
    clearTimeout(limit);
  }
}

/** Knows the file as it was after the last call that may write, and says whether it still is. */
function watchFile(app: Undercroft): { isAsBefore(mayWrite: boolean, looksClosely: boolean): boolean } {
  const open = () => app.desk.services.session.cellar.sqlite;
  const changes = (): number => open().prepare('SELECT total_changes()').pluck().get() as number;
  let sqlite = open();
  let count = changes();
  let digest = wholeDigest(sqlite);
  return {
    isAsBefore(mayWrite, looksClosely) {
      const moved = open() !== sqlite || changes() !== count;
      if (!moved && !looksClosely) return true;
      const isSame = open() === sqlite && wholeDigest(sqlite) === digest;
      sqlite = open();
      count = changes();
      if (!isSame) digest = wholeDigest(sqlite);
      return mayWrite || isSame;
    },
  };
}

interface Method {
  readonly path: string;
  readonly shape: ValueShape | undefined;
}

const ASKED = { io: 'input', unrepresentable: 'any', cycles: 'ref', reused: 'inline' } as const;

const METHODS: readonly Method[] = Object.entries(contract).flatMap(([place, methods]) =>
  Object.entries(methods as Record<string, unknown>).flatMap(([name, method]): Method[] => {
    if (!isContractProcedure(method)) return [];
    const schema = method['~orpc'].inputSchema as z.ZodType | undefined;
    const shape = schema === undefined ? undefined : (z.toJSONSchema(schema, ASKED) as ValueShape);
    return [{ path: `${place}/${name}`, shape }];
  }),
);
const NEVER_METHODS = [
  ...['', '/', 'ledger', 'ledger/', 'ledger/__proto__', 'constructor', '__proto__/post', 'ledger/post/post'],
  ...[
    'LEDGER/POST',
    'ledger/post%00',
    'ledger%2fpost',
    '..%2fledger/post',
    'ledger/toString',
    'ledger/then',
    '💥',
  ],
];
/** These are heavy, or change which cellar lies open: a few of them show as much as many. */
const SELDOM: Readonly<Record<string, number>> = {
  ...{ 'cellar/openSample': 0.002, 'cellar/openHome': 1, 'cellar/open': 0.1, 'cellar/check': 0.02 },
  ...{ 'exchange/takeOut': 0.1, 'cellar/saveCopy': 0.1 },
  ...{ 'strongbox/backUp': 0.1, 'strongbox/list': 0.3 },
};

interface Call {
  readonly said: string;
  /** Null when what was sent is no call, so that nothing is waited for. */
  send(wire: Wire): Promise<Answer | null>;
}

function nextCall({ chance, deep }: Parts, known: Known): Call {
  if (chance() < 0.02) {
    const bytes = garbage(chance);
    return { said: `garbage ${show(bytes)}`, send: (wire) => wire.sendGarbage(bytes).then(() => null) };
  }
  if (chance() < 0.01) {
    const path = pick(chance, NEVER_METHODS);
    return { said: path, send: (wire) => wire.send(path, '{"json":{}}') };
  }
  const { path, shape } = nextMethod(chance);
  if (path === 'photos/add') {
    const form = photoForm(chance, known, shape);
    return { said: path, send: (wire) => wire.send(path, form) };
  }
  const fitting = shape === undefined ? undefined : fittingValue(shape, chance, known);
  const turn = chance();
  const input = inFolder(
    turn < 0.4 ? fitting : turn < 0.95 ? broken(fitting, chance) : worstValue(chance),
    deep,
    chance,
  );
  const body = bodyOf(input, chance);
  const said = `${path} ${show(body)}`;
  if (chance() < 0.05) {
    const torn = tornText(body, chance);
    return { said: `torn ${path} ${show(torn)}`, send: (wire) => wire.sendTorn(path, torn) };
  }
  return { said, send: (wire) => wire.send(path, body) };
}

function nextMethod(chance: Chance): Method {
  if (chance() < 0.25) return METHODS.find(({ path }) => path === 'ledger/post') as Method;
  for (;;) {
    const method = pick(chance, METHODS);
    if (chance() < (SELDOM[method.path] ?? 1)) return method;
  }
}

/** A path that is asked for is one within the folder of this attack, or one of a few that are always refused. */
function inFolder(input: unknown, folder: string, chance: Chance): unknown {
  if (typeof input !== 'object' || input === null) return input;
  for (const field of ['file', 'path', 'target', 'folder']) {
    const given = (input as Record<string, unknown>)[field];
    if (typeof given !== 'string' || given.length > 200) continue;
    const file = `${String(Math.floor(chance() * 40))}${given.replaceAll('/', '_').replaceAll('\\', '_').slice(0, 60)}`;
    const never = [
      '/dev/null',
      '/',
      '/proc/self/mem',
      '/dev/full/x',
      '/dev/zero',
      folder,
      join(folder, 'cellar.undercroft'),
    ];
    const asked = chance() < 0.3 ? pick(chance, never) : join(folder, file);
    Object.assign(input, { [field]: chance() < 0.05 ? file : asked });
  }
  return input;
}

const serializer = new StandardRPCJsonSerializer();

/** The call's body: as the page would write it, or plain JSON with odd notes about what its parts are. */
function bodyOf(input: unknown, chance: Chance): string {
  const asThePage = chance() < 0.6 ? pageBody(input) : undefined;
  if (asThePage !== undefined) return asThePage;
  const text: string | undefined = JSON.stringify(input, (_key, value: unknown) =>
    typeof value === 'bigint' ? String(value) : value,
  );
  const json = typeof text === 'string' ? text : '0';
  if (chance() < 0.7) return `{"json":${json}}`;
  const path = pick(chance, [
    [],
    ['__proto__', 'polluted'],
    ['constructor', 'prototype'],
    ['act'],
    ['act', 'kind'],
    [0],
    [null],
    ['length'],
  ]);
  const note = pick(chance, [
    [0, ...path],
    [1, ...path],
    [2, ...path],
    [3, ...path],
    [4, ...path],
    [5, ...path],
    [6, ...path],
    [7, ...path],
    null,
    'x',
    [[]],
    [99],
  ]);
  return `{"json":${json},"meta":${JSON.stringify(chance() < 0.9 ? [note] : note)}}`;
}

/** Undefined for what the page's own library cannot write, as a list with a constructor of its own. */
function pageBody(input: unknown): string | undefined {
  try {
    const [json, meta] = serializer.serialize(input);
    return JSON.stringify({ json, meta });
  } catch {
    return undefined;
  }
}

function tornText(text: string, chance: Chance): string {
  const at = Math.floor(chance() * text.length);
  return pick(chance, [
    () => text.slice(0, at),
    () => `${text.slice(0, at)}${String.fromCharCode(Math.floor(chance() * 256))}${text.slice(at + 1)}`,
    () => `${text}${text}`,
    () => `\ufeff${text}`,
  ])();
}

function garbage(chance: Chance): string | Uint8Array | object {
  const bytes = Uint8Array.from({ length: Math.floor(chance() * 300) }, () => Math.floor(chance() * 256));
  return pick(chance, [
    ...[
      '',
      'null',
      '0',
      '[]',
      '{}',
      '{"i":1}',
      '{"i":"x","p":null}',
      '{"i":"x","p":{"u":7}}',
      '{"i":"x","t":3,"p":{}}',
    ],
    ...['{"i":"x","p":{"u":"http://[","b":{}}}', '{"i":"x","t":9,"p":{}}', '['.repeat(5000), bytes],
    ...[
      {},
      { i: '1' },
      { i: '1', p: { u: '/cellar/about', b: 7, h: 'x' } },
      { i: '1', t: 4 },
      { i: 1, t: 3, p: 1 },
    ],
    '{"i":"x","p":{"u":"/photos/add","h":{"content-type":"multipart/form-data; boundary=b"},"b":"x"}}',
    Buffer.from(
      '{"i":"x","p":{"u":"/photos/add","h":{"content-type":"multipart/form-data"}}}\u00ff--b',
      'latin1',
    ),
    '{"i":"x","p":{"u":"/cellar/about","h":{"content-disposition":"attachment; filename*=utf-8\'\'%ff"}}}',
  ]);
}

/** The bytes of a picture that is kept when nothing is broken: as small as a JPEG of 4 by 3 pixels can be laid out. */
function jpegBytes(chance: Chance): number[] {
  const words = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
  return [
    ...[0xff, 0xd8, 0xff, 0xe0, 0, 16, ...words('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0],
    ...[0xff, 0xdb, 0, 67, 0, ...Array<number>(64).fill(1)],
    ...[0xff, 0xc0, 0, 11, 8, 0, 3, 0, 4, 1, 1, 0x11, 0],
    ...[0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0, 0x12, Math.floor(chance() * 200), 0x34, 0xff, 0xd9],
  ];
}

function photoForm(chance: Chance, known: Known, shape: ValueShape | undefined): FormData {
  const bytes = jpegBytes(chance);
  if (chance() < 0.4)
    bytes.splice(Math.floor(chance() * bytes.length), Math.floor(chance() * 4), Math.floor(chance() * 256));
  const picture = Uint8Array.from(bytes);
  const given = fittingValue(shape ?? {}, chance, known) as { act: Record<string, unknown> };
  Object.assign(given.act, {
    widthPx: 4,
    heightPx: 3,
    checksum: createHash('sha256').update(picture).digest('hex'),
  });
  const sent = {
    ...given,
    picture: new File([picture], '"><img src=x>.jpg'),
    thumbnail: new File([picture], '../../x'),
  };
  const spoiled =
    chance() < 0.5 ? sent : { ...sent, act: broken(given.act, chance), typed: worstValue(chance) };
  const [json, meta, maps, blobs] = serializer.serialize(spoiled);
  const form = new FormData();
  form.set(
    'data',
    JSON.stringify({ json, meta, maps: chance() < 0.9 ? maps : [['__proto__'], ['act', 'x']] }),
  );
  blobs.forEach((blob, index) => {
    form.set(String(index), blob);
  });
  return form;
}

/** Ids that are in the file, by the field that asks for one. */
function knownIn(app: Undercroft, chance: Chance): Known & { refresh(): void } {
  let ids: Readonly<Record<string, readonly string[]>> = {};
  return {
    nowMs: PROGRAM_NOW_MS,
    refresh() {
      const { sqlite } = app.desk.services.session.cellar;
      const some = (table: string, column = 'id') =>
        sqlite
          .prepare(`SELECT ${column} FROM ${table} ORDER BY rowid DESC LIMIT 40`)
          .pluck()
          .all() as string[];
      ids = {
        ...{ vessel: some('vessel'), batch: some('batch'), culture: some('culture'), place: some('place') },
        ...{ shelf: some('shelf'), lot: some('lot'), filter: some('batch_filter'), photo: some('photo') },
        ...{
          entry: some('entry', 'entry_id'),
          reading: some('reading'),
          intake: some('entry', 'request_id'),
        },
      };
    },
    id(field) {
      const what = /(vessel|batch|culture|place|shelf|lot|filter|photo|entry|reading|intake)(Id)?s?$/iu
        .exec(field)?.[1]
        ?.toLowerCase();
      const known = what === undefined ? undefined : ids[what];
      if (known === undefined || known.length === 0 || chance() < 0.03) return undefined;
      return pick(chance, known);
    },
  };
}

async function begin(app: Undercroft): Promise<void> {
  await createRouterClient(app.router, { context: {} }).cellar.begin({
    ...{ name: 'Attacked cellar', houseRules: HOUSE_RULES_AT_FIRST },
    shelves: { placeName: 'Pantry', shelfCount: 2, positions: 20 },
  });
}

/** Enough of what was sent to send it again, without filling the screen. */
function show(value: unknown): string {
  const text = typeof value === 'string' ? value : JSON.stringify(value);
  return text.length > 300 ? `${text.slice(0, 300)}… (${text.length})` : text;
}
