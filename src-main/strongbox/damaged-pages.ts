import { closeSync, fstatSync, openSync } from 'node:fs';
import { readBytes, readDamagedLog } from './damaged-log.ts';

// A SQLite file as pages, read without SQLite (sqlite.org/fileformat2, section 1), so that one which SQLite refuses still
// gives what its good pages hold.

/** One page as it stands in the file, or in the log that was not yet taken into the file. */
export interface PageImage {
  readonly page: number;
  readonly bytes: Buffer;
}

export interface DamagedPages {
  readonly pageBytes: number;
  /** Bytes of a page that hold content. */
  readonly usableBytes: number;
  readonly filePages: number;
  readonly headerReadable: boolean;
  readonly logFramesLeft: number;
  readonly logFramesTaken: number;
  /** A page as it was written last; undefined past the end. */
  newest(page: number): Buffer | undefined;
  /** Every image of every page: the file's own, then the log's, oldest first. */
  images(): Generator<PageImage, void, void>;
  close(): void;
}

const MARK = 'SQLite format 3\0';
const SIZES = [512, 1024, 2048, 4096, 8192, 16_384, 32_768, 65_536];
/** What SQLite makes when nothing else is asked. */
const USUAL_PAGE_BYTES = 4096;

export function openDamagedPages(file: string): DamagedPages {
  const handle = openSync(file, 'r');
  const { size } = fstatSync(handle);
  const header = readBytes(handle, 0, 100);
  const told = header.length === 100 ? header.readUInt16BE(16) : 0;
  const toldBytes = told === 1 ? 65_536 : told;
  const headerReadable =
    header.subarray(0, 16).toString('latin1') === MARK && SIZES.includes(toldBytes) && header[21] === 64;
  const guessed = headerReadable ? toldBytes : likelyPageBytes(handle, size);
  const log = readDamagedLog(`${file}-wal`, guessed);
  const pageBytes = headerReadable ? toldBytes : (log.pageBytes ?? guessed);
  const reserved = headerReadable ? (header[20] ?? 0) : 0;
  const filePages = Math.ceil(size / pageBytes);
  const logged = new Map(log.pages.map(({ page, bytes }) => [page, bytes]));
  const inFile = (page: number): Buffer | undefined => {
    if (page < 1 || page > filePages) return undefined;
    const bytes = readBytes(handle, (page - 1) * pageBytes, pageBytes);
    return bytes.length === pageBytes ? bytes : Buffer.concat([bytes], pageBytes);
  };
  return {
    ...{ pageBytes, usableBytes: pageBytes - reserved, filePages, headerReadable },
    ...{ logFramesLeft: log.framesLeft, logFramesTaken: log.pages.length },
    newest: (page) => logged.get(page) ?? inFile(page),
    *images() {
      for (let page = 1; page <= filePages; page += 1) {
        const bytes = inFile(page);
        if (bytes !== undefined) yield { page, bytes };
      }
      yield* log.pages;
    },
    close: () => {
      closeSync(handle);
    },
  };
}

const PAGES_TRIED = 400;

/** The smallest size at which the file falls into pages that look like pages. */
function likelyPageBytes(handle: number, size: number): number {
  const shares = SIZES.map((pageBytes) => {
    const pages = Math.min(PAGES_TRIED, Math.floor(size / pageBytes));
    let likely = 0;
    for (let page = 1; page < pages; page += 1) {
      if (looksLikePage(readBytes(handle, page * pageBytes, 12), pageBytes)) likely += 1;
    }
    return pages < 2 ? 0 : likely / (pages - 1);
  });
  const best = Math.max(...shares);
  if (best === 0) return USUAL_PAGE_BYTES;
  return SIZES[shares.findIndex((share) => share >= best * 0.8)] ?? USUAL_PAGE_BYTES;
}

function looksLikePage(head: Buffer, pageBytes: number): boolean {
  if (head.length < 12 || ![2, 5, 10, 13].includes(head[0] ?? 0)) return false;
  const cells = head.readUInt16BE(3);
  const content = head.readUInt16BE(5) || 65_536;
  return cells * 2 + 8 <= content && content <= pageBytes;
}
