import type { DamagedPages, PageImage } from './damaged-pages.ts';

// Rows of a SQLite file, read from its leaf pages one by one (sqlite.org/fileformat2, sections 1.6, 2.1 and 2.2). Nothing
// is taken on trust: a cell that points outside its page, or a row that is not whole, is left away.

export type Value = null | number | string | Uint8Array;

/** A row of a table, or an entry of an index, with its number in the table: 0 in an index. */
export interface DamagedRow {
  readonly rowid: number;
  readonly values: readonly Value[];
}

export interface RowsOfPage {
  readonly rows: readonly DamagedRow[];
  /** Cells that are there and give no row. */
  readonly broken: number;
}

const TABLE_LEAF = 13;
const INDEX_LEAF = 10;
const INDEX_INTERIOR = 2;
const NOTHING: RowsOfPage = { rows: [], broken: 0 };

/** What a page holds, if it is a leaf of a table or a page of an index. */
export function rowsOfPage(pages: DamagedPages, { page, bytes }: PageImage): RowsOfPage {
  const head = page === 1 ? 100 : 0;
  const kind = bytes[head];
  if (kind !== TABLE_LEAF && kind !== INDEX_LEAF && kind !== INDEX_INTERIOR) return NOTHING;
  const pointers = head + (kind === INDEX_INTERIOR ? 12 : 8);
  const count = bytes.readUInt16BE(head + 3);
  if (pointers + count * 2 > pages.usableBytes) return NOTHING;
  const rows: DamagedRow[] = [];
  let broken = 0;
  for (let cell = 0; cell < count; cell += 1) {
    const at = bytes.readUInt16BE(pointers + cell * 2);
    const row = at < pointers + count * 2 ? undefined : readCell(pages, bytes, at, kind);
    if (row === undefined) broken += 1;
    else rows.push(row);
  }
  return { rows, broken };
}

function readCell(pages: DamagedPages, bytes: Buffer, from: number, kind: number): DamagedRow | undefined {
  let at = kind === INDEX_INTERIOR ? from + 4 : from;
  const size = readNumber(bytes, at);
  if (size === undefined) return undefined;
  at = size.next;
  let rowid = 0;
  if (kind === TABLE_LEAF) {
    const number = readNumber(bytes, at);
    if (number === undefined) return undefined;
    rowid = number.value;
    at = number.next;
  }
  const payload = readPayload(pages, bytes, { at, size: size.value, inTable: kind === TABLE_LEAF });
  const values = payload === undefined ? undefined : readRecord(payload);
  return values === undefined ? undefined : { rowid, values };
}

/** The part of a payload in its page, and what runs over into pages of its own. */
function readPayload(
  pages: DamagedPages,
  bytes: Buffer,
  { at, size, inTable }: { readonly at: number; readonly size: number; readonly inTable: boolean },
): Buffer | undefined {
  const { usableBytes: usable, pageBytes } = pages;
  const most = inTable ? usable - 35 : Math.floor(((usable - 12) * 64) / 255) - 23;
  const least = Math.floor(((usable - 12) * 32) / 255) - 23;
  if (size <= most) return at + size > usable ? undefined : bytes.subarray(at, at + size);
  const wished = least + ((size - least) % (usable - 4));
  const local = wished <= most ? wished : least;
  if (at + local + 4 > pageBytes || size > PAYLOAD_MAX) return undefined;
  const parts = [bytes.subarray(at, at + local)];
  const seen = new Set<number>();
  let missing = size - local;
  let next = bytes.readUInt32BE(at + local);
  while (missing > 0) {
    const more = seen.has(next) ? undefined : pages.newest(next);
    if (more === undefined) return undefined;
    seen.add(next);
    const part = more.subarray(4, 4 + Math.min(missing, usable - 4));
    parts.push(part);
    missing -= part.length;
    next = more.readUInt32BE(0);
  }
  // The chain of a row ends with it: one that goes on belongs to something else.
  return next === 0 ? Buffer.concat(parts) : undefined;
}

/** SQLite's own limit of a row, 1,000,000,000 bytes. */
const PAYLOAD_MAX = 1_000_000_000;

function readRecord(payload: Buffer): Value[] | undefined {
  const head = readNumber(payload, 0);
  if (head === undefined || head.value > payload.length || head.value < head.next) return undefined;
  const values: Value[] = [];
  let body = head.value;
  for (let at = head.next; at < head.value;) {
    const type = readNumber(payload, at);
    if (type === undefined || type.next > head.value) return undefined;
    at = type.next;
    const value = readValue(payload, body, type.value);
    if (value === undefined) return undefined;
    values.push(value.value);
    body = value.next;
  }
  return body === payload.length ? values : undefined;
}

const WIDTHS = [0, 1, 2, 3, 4, 6, 8];
const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });

function readValue(
  payload: Buffer,
  at: number,
  type: number,
): { readonly value: Value; readonly next: number } | undefined {
  if (type === 0) return { value: null, next: at };
  if (type === 8 || type === 9) return { value: type - 8, next: at };
  if (type === 10 || type === 11) return undefined;
  const length = type <= 7 ? (WIDTHS[type] ?? 8) : Math.floor((type - 12) / 2);
  const next = at + length;
  if (next > payload.length) return undefined;
  if (type === 7) return { value: payload.readDoubleBE(at), next };
  if (type < 7) {
    const value = length === 8 ? Number(payload.readBigInt64BE(at)) : payload.readIntBE(at, length);
    return { value, next };
  }
  if (type % 2 === 0) return { value: Uint8Array.from(payload.subarray(at, next)), next };
  try {
    return { value: text.decode(payload.subarray(at, next)), next };
  } catch {
    return undefined;
  }
}

/** A number of one to nine bytes (section 1.6, "varint"); one that is no exact number here is none of ours. */
function readNumber(
  bytes: Buffer,
  at: number,
): { readonly value: number; readonly next: number } | undefined {
  let value = 0n;
  for (let index = 0; index < 9; index += 1) {
    const byte = bytes[at + index];
    if (byte === undefined) return undefined;
    value = index === 8 ? (value << 8n) | BigInt(byte) : (value << 7n) | BigInt(byte & 127);
    if (index === 8 || byte < 128) {
      const number = Number(value);
      return Number.isSafeInteger(number) ? { value: number, next: at + index + 1 } : undefined;
    }
  }
  return undefined;
}

const TABLE_INTERIOR = 5;

/** The pages below an inner page of a table's tree; none for any other page. */
export function childPages(pages: DamagedPages, { page, bytes }: PageImage): number[] {
  const head = page === 1 ? 100 : 0;
  if (bytes[head] !== TABLE_INTERIOR) return [];
  const count = bytes.readUInt16BE(head + 3);
  const pointers = head + 12;
  if (pointers + count * 2 > pages.usableBytes) return [];
  const cells = Array.from({ length: count }, (_, cell) => bytes.readUInt16BE(pointers + cell * 2));
  const children = cells.filter((at) => at + 4 <= bytes.length).map((at) => bytes.readUInt32BE(at));
  return [...children, bytes.readUInt32BE(head + 8)];
}
