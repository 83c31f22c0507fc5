import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { HouseRules } from '#core/contract/house-rules.ts';
import { sha256 } from '../photos/read-pictures.ts';
import type { DamagedPages } from './damaged-pages.ts';
import { rowsOfPage, type DamagedRow, type Value } from './damaged-rows.ts';

/** A line of the book as it was found, all its columns as they stand. */
export interface FoundLine {
  readonly sequence: number;
  readonly entry_id: string;
  readonly request_id: string;
  readonly kind: string;
  readonly happened_at_ms: number;
  readonly written_at_ms: number;
  readonly act_format: number;
  readonly act: string;
  readonly postings: string;
  readonly typed: string;
  /** Which image of the log it was read in last; 0 when it stands in the file alone. */
  readonly seen: number;
}

export interface FoundCellar {
  readonly name: string;
  readonly begun: number;
  readonly isSample: number;
  readonly houseRules: string | null;
  readonly createdAtMs: number;
}

export interface Found {
  /** Everything found under a number of the book, in order; a number may come twice. */
  lines(): Generator<FoundLine, void, void>;
  readonly distinctLines: number;
  /** The highest number of a line that left two traces: one alone may be a damaged number. */
  readonly highestSeen: number;
  /** How many numbers up to this one lines were found of. */
  numbersUpTo(sequence: number): number;
  readonly cellar: FoundCellar | null;
  readonly pictures: { readonly saved: number; readonly damaged: number; readonly withoutThumbnail: number };
  readonly brokenRows: number;
}

const PAGES_A_STEP = 256;

/**
 * Looks through all pages for rows of the book, pictures and what the cellar is called. Lines are gathered in a passing
 * table of the new file, pictures that are what their checksum says go into it at once.
 */
export function* findRows(
  pages: DamagedPages,
  into: Database,
): Generator<{ readonly done: number; readonly total: number }, Found, void> {
  into.exec(FOUND_TABLE);
  const keepLine = into.prepare(
    `INSERT INTO temp.found_line VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
     ON CONFLICT DO UPDATE SET seen = excluded.seen`,
  );
  const pictures = openPictures(into);
  const traces: [number, number] = [0, 0];
  const see = (sequence: number): void => {
    if (sequence > traces[0]) traces.splice(0, 2, sequence, traces[0]);
    else if (sequence > traces[1]) traces[1] = sequence;
  };
  let cellar: FoundCellar | null = null;
  let brokenRows = 0;
  let done = 0;
  const total = pages.filePages + pages.logFramesTaken;
  const take = (row: DamagedRow): void => {
    if (isLine(row)) {
      see(row.rowid);
      const columns = row.values.slice(1, 10);
      const digest = createHash('sha256').update(JSON.stringify(columns)).digest('hex');
      keepLine.run(row.rowid, digest, ...columns, Math.max(0, done - pages.filePages + 1));
    } else if (isPicture(row)) pictures.keep(row.values);
    else if (isCellar(row)) cellar = cellarOf(row.values);
    else see(sequenceNamed(row) ?? 0);
  };
  into.exec('BEGIN');
  for (const image of pages.images()) {
    const { rows, broken } = rowsOfPage(pages, image);
    brokenRows += broken;
    for (const row of rows) take(row);
    done += 1;
    if (done % PAGES_A_STEP === 0) yield { done, total };
  }
  into.exec('COMMIT');
  const page = into.prepare(
    `SELECT * FROM temp.found_line WHERE sequence IN (
       SELECT DISTINCT sequence FROM temp.found_line WHERE sequence > ? ORDER BY sequence LIMIT 300)
     ORDER BY sequence, seen DESC`,
  );
  const upTo = into
    .prepare('SELECT COUNT(DISTINCT sequence) FROM temp.found_line WHERE sequence <= ?')
    .pluck();
  return {
    *lines() {
      let last = 0;
      for (;;) {
        const some = page.all(last) as FoundLine[];
        yield* some;
        const end = some.at(-1);
        if (end === undefined) return;
        last = end.sequence;
      }
    },
    distinctLines: into.prepare('SELECT COUNT(*) FROM temp.found_line').pluck().get() as number,
    numbersUpTo: (sequence) => upTo.get(sequence) as number,
    ...{ highestSeen: traces[1], cellar, pictures: pictures.counts(), brokenRows },
  };
}

const FOUND_TABLE = `
  CREATE TEMP TABLE found_line (
    sequence INTEGER NOT NULL, digest TEXT NOT NULL,
    entry_id, request_id, kind, happened_at_ms, written_at_ms, act_format, act, postings, typed,
    seen INTEGER NOT NULL,
    PRIMARY KEY (sequence, digest)
  ) WITHOUT ROWID`;

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/u;
const SHA256 = /^[0-9a-f]{64}$/u;
const isUuid = (value: Value | undefined): boolean => typeof value === 'string' && UUID.test(value);
const isText = (value: Value | undefined): value is string => typeof value === 'string';
const isWhole = (value: Value | undefined): value is number => Number.isSafeInteger(value);

/** A row of `entry`: no other table has an id and three texts of JSON in these places. */
function isLine({ rowid, values }: DamagedRow): boolean {
  const [first, entryId, requestId, kind, happened, written, format, act, postings, typed] = values;
  const texts = [requestId, kind, postings].every(isText);
  const numbers = [happened, written, format].every(isWhole);
  const facts = [act, typed].every((json) => isText(json) && json.startsWith('{'));
  return rowid >= 1 && values.length >= 10 && first === null && isUuid(entryId) && texts && numbers && facts;
}

function isPicture({ values }: DamagedRow): boolean {
  const [checksum, width, height, kept, thumbnailChecksum, thumbnail, content] = values;
  return (
    values.length === 7 &&
    [checksum, thumbnailChecksum].every((sum) => isText(sum) && SHA256.test(sum)) &&
    [width, height, kept].every(isWhole) &&
    [thumbnail, content].every((bytes) => bytes instanceof Uint8Array)
  );
}

/** The one row of `cellar`. */
function isCellar({ rowid, values }: DamagedRow): boolean {
  const [id, name, begun, isSample, rules, created] = values;
  const flags = [begun, isSample].every((flag) => flag === 0 || flag === 1);
  return (
    rowid === 1 &&
    id === null &&
    values.length >= 6 &&
    isText(name) &&
    flags &&
    isText(rules) &&
    isWhole(created)
  );
}

function cellarOf(values: readonly Value[]): FoundCellar {
  const [, name, begun, isSample, rules, createdAtMs] = values as [
    null,
    string,
    number,
    number,
    string,
    number,
  ];
  return { name, begun, isSample, houseRules: readRules(rules), createdAtMs };
}

/** House rules as they stand beside what else is kept there; null when they are not to be read. */
function readRules(text: string): string | null {
  try {
    const rules = JSON.parse(text) as Record<string, unknown>;
    const known = Object.keys(HouseRules.shape).filter((key) => Object.hasOwn(rules, key));
    const isGood = HouseRules.partial().safeParse(Object.fromEntries(known.map((key) => [key, rules[key]])));
    return isGood.success ? text : null;
  } catch {
    return null;
  }
}

/** The number of a line that a row written beside it names: what it speaks of, or a record as it was before. */
function sequenceNamed({ rowid, values }: DamagedRow): number | undefined {
  if (rowid !== 0) return undefined;
  const [first, second, third] = values;
  const isSubject =
    values.length === 3 && isText(first) && ['vessel', 'batch', 'culture'].includes(first) && isUuid(second);
  if (isSubject && isWhole(third)) return third;
  const isImage =
    values.length === 6 && isWhole(first) && isWhole(second) && isText(third) && isText(values[3]);
  return isImage ? first : undefined;
}

function openPictures(into: Database) {
  const insert = into.prepare(`INSERT OR IGNORE INTO picture VALUES (?, ?, ?, ?, ?, ?, ?)`);
  const whole = new Set<string>();
  const damaged = new Set<string>();
  const withoutThumbnail = new Set<string>();
  return {
    keep(values: readonly Value[]): void {
      const [checksum, width, height, kept, thumbnailSum, thumbnail, content] = values as [
        ...[string, number, number, number, string, Uint8Array, Uint8Array],
      ];
      if (whole.has(checksum)) return;
      if (content.length === 0 || sha256(content) !== checksum) {
        damaged.add(checksum);
        return;
      }
      const isWhole = thumbnail.length > 0 && sha256(thumbnail) === thumbnailSum;
      const small = isWhole ? [thumbnailSum, thumbnail] : [checksum, content];
      insert.run(checksum, Math.max(1, width), Math.max(1, height), kept, ...small, content);
      whole.add(checksum);
      if (!isWhole) withoutThumbnail.add(checksum);
    },
    counts: () => ({
      saved: whole.size,
      damaged: [...damaged].filter((checksum) => !whole.has(checksum)).length,
      withoutThumbnail: withoutThumbnail.size,
    }),
  };
}
