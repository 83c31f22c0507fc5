import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

// SQLite's write-ahead log, read without SQLite (sqlite.org/fileformat2, section 4). A torn log is read on both sides of
// the tear: each frame is proven by the checksum in the frame before it, which is what the running checksum was there.

const LOG_HEADER_BYTES = 32;
const FRAME_HEADER_BYTES = 24;
const MAGIC = 0x377f0682;

export interface LoggedPage {
  readonly page: number;
  readonly bytes: Buffer;
}

export interface DamagedLog {
  /** Null when the log does not say. */
  readonly pageBytes: number | null;
  /** Pages of transactions that were ended, oldest first; a page may stand here several times. */
  readonly pages: readonly LoggedPage[];
  /** Frames that are not what was written, or belong to a transaction that was not ended. */
  readonly framesLeft: number;
}

const NO_LOG: DamagedLog = { pageBytes: null, pages: [], framesLeft: 0 };

/** Reads a log as far as its frames can be proven. One that is not there holds nothing. */
export function readDamagedLog(file: string, assumedPageBytes: number): DamagedLog {
  let handle: number;
  try {
    handle = openSync(file, 'r');
  } catch {
    return NO_LOG;
  }
  try {
    const { size } = fstatSync(handle);
    if (size <= LOG_HEADER_BYTES) return NO_LOG;
    return readFrames(readBytes(handle, 0, size), assumedPageBytes);
  } finally {
    closeSync(handle);
  }
}

interface Frame {
  readonly page: number;
  /** Size of the file in pages after this frame, when it ends a transaction. */
  readonly ends: boolean;
  readonly salts: string;
  readonly sums: readonly [number, number];
  readonly head: Buffer;
  readonly bytes: Buffer;
}

function readFrames(log: Buffer, assumedPageBytes: number): DamagedLog {
  const magic = log.readUInt32BE(0);
  const told = log.readUInt32BE(8);
  const isOurs = (magic & ~1) === MAGIC && told >= 512 && told <= 65_536 && (told & (told - 1)) === 0;
  const pageBytes = isOurs ? told : assumedPageBytes;
  const frameBytes = FRAME_HEADER_BYTES + pageBytes;
  const frames: Frame[] = [];
  for (let at = LOG_HEADER_BYTES; at + frameBytes <= log.length; at += frameBytes) {
    frames.push({
      page: log.readUInt32BE(at),
      ends: log.readUInt32BE(at + 4) !== 0,
      salts: log.subarray(at + 8, at + 16).toString('hex'),
      sums: [log.readUInt32BE(at + 16), log.readUInt32BE(at + 20)],
      head: log.subarray(at, at + 8),
      bytes: log.subarray(at + FRAME_HEADER_BYTES, at + frameBytes),
    });
  }
  // Frames of an earlier round of the log have other salts; their pages were taken into the file before.
  const salts = isOurs ? log.subarray(16, 24).toString('hex') : mostOf(frames.map((frame) => frame.salts));
  const isBig = isOurs ? (magic & 1) === 1 : null;
  const first: readonly [number, number] = [log.readUInt32BE(24), log.readUInt32BE(28)];
  const ofThisRound = frames.map((frame) => frame.salts === salts);
  const proven = frames.map((frame, index) => {
    if (ofThisRound[index] !== true || frame.page === 0) return false;
    const before = index === 0 ? first : frames[index - 1]?.sums;
    const orders = isBig === null ? [false, true] : [isBig];
    return before !== undefined && orders.some((big) => isProven(frame, before, big));
  });
  const lastEnd = frames.findLastIndex((frame, index) => proven[index] === true && frame.ends);
  const pages = frames
    .filter((_frame, index) => index <= lastEnd && proven[index] === true)
    .map(({ page, bytes }) => ({ page, bytes }));
  // A frame whose salts were hit looks like one of an earlier round, but stands before frames of this one.
  const lastOfRound = ofThisRound.lastIndexOf(true);
  return { pageBytes: isOurs ? told : null, pages, framesLeft: lastOfRound + 1 - pages.length };
}

/** The checksum of section 4.2, over a frame's first eight bytes and its page. */
function isProven(frame: Frame, before: readonly [number, number], big: boolean): boolean {
  let [one, two] = before;
  for (const part of [frame.head, frame.bytes]) {
    for (let at = 0; at + 8 <= part.length; at += 8) {
      one = (one + (big ? part.readUInt32BE(at) : part.readUInt32LE(at)) + two) >>> 0;
      two = (two + (big ? part.readUInt32BE(at + 4) : part.readUInt32LE(at + 4)) + one) >>> 0;
    }
  }
  return one === frame.sums[0] && two === frame.sums[1];
}

function mostOf(all: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const one of all) counts.set(one, (counts.get(one) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0] ?? '';
}

/** Bytes of a file; where it ends before, or the disk cannot read them, they are left away or zero. */
export function readBytes(handle: number, from: number, count: number): Buffer {
  const bytes = Buffer.alloc(count);
  let done = 0;
  while (done < count) {
    let read: number;
    try {
      read = readSync(handle, bytes, done, Math.min(count - done, 4_194_304), from + done);
    } catch {
      // A sector that cannot be read: it stays zero, and what follows is tried.
      done += Math.min(count - done, 4096);
      continue;
    }
    if (read === 0) return bytes.subarray(0, done);
    done += read;
  }
  return bytes;
}
