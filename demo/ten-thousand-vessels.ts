import { existsSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import type { Act } from '#core/ledger/act.ts';
import type { Entry } from '#core/ledger/entry.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import { withContractions } from '#core/ledger/contraction.ts';
import { postEntry } from '#core/ledger/post-entry.ts';
import { openCellar } from '../src-main/cellar/open-cellar.ts';
import { bringProjectionsUpToDate } from '../src-main/cellar/rebuild-projections.ts';
import { openSession, type CellarSession } from '../src-main/cellar/session.ts';
import { openProjector } from '../src-main/ledger/projector.ts';
import { newIdMaker } from '../src-main/platform/new-id.ts';
import { openShelvesProjection } from '../src-main/shelves/shelves-projection.ts';
import { chanceFrom, loadStory } from './load-story.ts';
import { SAMPLE_NOW_MS } from './sample-cellar.ts';

export interface LoadSize {
  readonly vessels: number;
  /** Lines of the book in all, the ones that add shelves and vessels included. */
  readonly entries: number;
  /** When the story ends; the sample's day when absent. */
  readonly endsAtMs?: number;
  readonly seed?: number;
  readonly onProgress?: (written: number) => void;
}

/** What a vessel sees in three years when nothing else is said. */
const ENTRIES_A_VESSEL = 7;
const STORY_DAYS = 1100;
const DAY_MS = 86_400_000;
/** Lines in one transaction: a write-ahead log of some hundred megabytes at the most. */
const ENTRIES_A_TRANSACTION = 20_000;
const SEED = 20_261_125;
/** Shelf letters go to ZZ, 40 positions each. */
const VESSELS_MAX = 28_000;

/**
 * Builds a cellar file of that size. Every line is decided by the core, appended to the book and projected as a
 * keeper's own would be; only what a window would be told after each act is left away, and the shelf is drawn once at
 * the end. The same size and seed give the same cellar, ids included. Throws when the file is there already.
 */
export function buildLoadCellar(path: string, size: LoadSize): void {
  if (existsSync(path)) throw new Error(`${path} is there already`);
  const { vessels, entries, endsAtMs = SAMPLE_NOW_MS, seed = SEED, onProgress } = size;
  const next = chanceFrom(seed);
  let nowMs = endsAtMs - STORY_DAYS * DAY_MS;
  const bytes = (count: number) => Uint8Array.from({ length: count }, () => Math.floor(next() * 256));
  const newId = newIdMaker(() => nowMs, bytes);
  const cellar = openCellar(path);
  try {
    // Nothing of value is at stake while the file is being made, and a million waits for the disk would be hours.
    cellar.sqlite.pragma('synchronous = OFF');
    cellar.sqlite.pragma('cache_size = -200000');
    const session = openSession(cellar, () => nowMs, newId);
    // An empty file is said to be projected as it is done now, so that its first opening rebuilds nothing.
    bringProjectionsUpToDate(session);
    const write = openWriter(session);
    const story = loadStory(vessels, { newId, next });
    const stepMs = Math.floor((STORY_DAYS * DAY_MS) / Math.max(1, entries));
    const writeMany = cellar.sqlite.transaction((until: number, from: number) => {
      for (let sequence = from; sequence < until; sequence += 1) {
        nowMs += stepMs;
        write(story.next().value, nowMs);
      }
    });
    for (let written = 0; written < entries; written += ENTRIES_A_TRANSACTION) {
      const until = Math.min(entries, written + ENTRIES_A_TRANSACTION);
      writeMany.immediate(until, written);
      onProgress?.(until);
    }
    finish(session, vessels, endsAtMs);
  } finally {
    cellar.close();
  }
}

function openWriter(session: CellarSession): (act: Act, atMs: number) => void {
  const { cellar, records, book, reader, newId } = session;
  const projector = openProjector(
    cellar.sqlite,
    records,
    book,
    openShelvesProjection(cellar.sqlite, records),
  );
  return (act, atMs) => {
    const id = newId() as EntryId;
    const outcome = postEntry(reader, act, { entryId: id, happenedAtMs: atMs, nowMs: atMs });
    if (!outcome.ok) throw new Error(`the story's ${act.kind} was refused: ${JSON.stringify(outcome.error)}`);
    const { postings } = outcome.value;
    const told = withContractions(act, outcome.value);
    const entry: Entry = { id, happenedAtMs: atMs, writtenAtMs: atMs, act: told, postings, typed: {} };
    projector.apply(entry, book.append(entry, newId()), outcome.value);
  };
}

function finish({ cellar, records }: CellarSession, vessels: number, endsAtMs: number): void {
  const { sqlite } = cellar;
  const shelves = openShelvesProjection(sqlite, records);
  sqlite
    .transaction(() => {
      for (const id of sqlite.prepare('SELECT id FROM vessel').pluck().all() as VesselId[]) {
        shelves.refresh(id);
      }
      sqlite
        .prepare('UPDATE cellar SET name = ?, begun = 1, is_sample = 0, created_at_ms = ? WHERE id = 1')
        .run(`A cellar of ${vessels} vessels`, endsAtMs);
    })
    .immediate();
}

const HELP = `Builds a made-up cellar of any size, to look at or to measure with.

  node demo/ten-thousand-vessels.ts FILE [--vessels N] [--entries M] [--replace]

  FILE          where the cellar file is to lie; then: npm start -- --cellar FILE
  --vessels N   how many vessels (10000)
  --entries M   how many lines of the book (${ENTRIES_A_VESSEL} a vessel)
  --replace     throw away the file that is there
`;

if (import.meta.main) process.exitCode = run();

function run(): number {
  try {
    const { values, positionals } = parseArgs({
      allowPositionals: true,
      options: {
        vessels: { type: 'string', default: '10000' },
        entries: { type: 'string' },
        replace: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    });
    const [file] = positionals;
    if (values.help || file === undefined || positionals.length > 1) {
      console.log(HELP);
      return values.help ? 0 : 2;
    }
    const vessels = wholeNumber('--vessels', values.vessels, VESSELS_MAX);
    const entries = wholeNumber(
      '--entries',
      values.entries ?? String(vessels * ENTRIES_A_VESSEL),
      20_000_000,
    );
    const path = resolve(process.env['INIT_CWD'] ?? '.', file);
    if (values.replace) for (const end of ['', '-wal', '-shm']) rmSync(`${path}${end}`, { force: true });
    const startedAt = performance.now();
    buildLoadCellar(path, {
      ...{ vessels, entries, endsAtMs: Date.now() },
      onProgress: (written) => {
        if (process.stdout.isTTY) process.stdout.write(`\r${written} of ${entries} lines`);
      },
    });
    const seconds = ((performance.now() - startedAt) / 1000).toFixed(1);
    console.log(`\n${path}: ${vessels} vessels, ${entries} lines of the book, built in ${seconds} s.`);
    return 0;
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return 1;
  }
}

function wholeNumber(name: string, typed: string, most: number): number {
  const number = /^\d{1,8}$/.test(typed) ? Number(typed) : 0;
  if (number < 1 || number > most) throw new Error(`${name} takes a whole number from 1 to ${most}.`);
  return number;
}
