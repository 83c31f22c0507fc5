import { setImmediate } from 'node:timers/promises';
import type { Outgoing, OutStep, TakenOut } from '#core/contract/exchange.ts';
import { BYTE_ORDER_MARK } from '#core/exchange/csv-text.ts';
import type { CellarServices } from '../cellar/cellar-services.ts';
import { FileRefused } from '../cellar/file-refused.ts';
import { ABOUT_TABLES, ABOUT_TABLES_NAME } from './about-tables.ts';
import { bookPieces, bookSchemaText } from './book-document.ts';
import { openOutFile, type OutFile } from './out-file.ts';
import { tableSources, type TableSource } from './table-source.ts';

/** Something was written in the book while it was read: what was read so far does not fit together. */
class BookChanged extends Error {}

/** Why something cannot be taken out, beside what a disk may refuse. */
export class TakeOutRefused extends Error {
  readonly why: 'changedMeanwhile' | 'noSuchTable' | 'pathMissing';
  constructor(why: TakeOutRefused['why']) {
    super(why);
    this.why = why;
  }
}

const ATTEMPTS = 5;

interface Piece {
  /** Begins a file of this name. */
  readonly begins?: string;
  readonly text: string;
  /** A picture's bytes, in the place of text. */
  readonly picture?: Buffer;
  /** How many lines the piece brings. */
  readonly lines: number;
}

/**
 * Takes something out piece by piece, lets other calls through between the pieces, and begins anew when one of them wrote
 * in the book: what comes out is the cellar at one moment. To the window (`path` null) each step carries its piece.
 *
 * @throws FileRefused · TakeOutRefused
 */
export async function* takeOut(
  services: CellarServices,
  what: Outgoing,
  path: string | null,
  signal: AbortSignal | undefined,
): AsyncGenerator<OutStep, TakenOut, void> {
  const { cellar, book } = services.session;
  const stop = signal === undefined ? cellar.closing : AbortSignal.any([cellar.closing, signal]);
  if (what.kind === 'tables' && path === null) throw new TakeOutRefused('pathMissing');
  const sources = sourcesOf(services, what);
  const name = nameOf(what, services.session.clock());
  const out = path === null ? null : openOutFile(path, cellar.file, what.kind === 'tables');
  try {
    for (let attempt = 1; ; attempt += 1) {
      const begun = book.count();
      const total = totalOf(services, what, sources);
      const tally = { lines: 0, bytes: 0 };
      yield { what: 'out', done: 0, total, text: '', again: attempt > 1 };
      try {
        for (const piece of piecesOf(services, what, sources)) {
          stop.throwIfAborted();
          if (book.count() !== begun) throw new BookChanged();
          lay(out, piece, tally);
          const done = Math.min(tally.lines, total);
          yield { what: 'out', done, total, text: out === null ? piece.text : '', again: false };
          await setImmediate();
        }
        return { name, lines: tally.lines, ...(out?.finish() ?? { file: null, bytes: tally.bytes }) };
      } catch (error) {
        if (!(error instanceof BookChanged)) throw error;
        if (attempt === ATTEMPTS) throw new TakeOutRefused('changedMeanwhile');
        out?.again();
      }
    }
  } catch (error) {
    const closed = cellar.closing.aborted && signal?.aborted !== true;
    if (!closed || error instanceof FileRefused) throw error;
    throw new FileRefused({ type: 'OtherFault', file: path ?? name, detail: 'CELLAR_CLOSED' });
  } finally {
    out?.abandon();
  }
}

function lay(out: OutFile | null, piece: Piece, tally: { lines: number; bytes: number }): void {
  if (out !== null && piece.begins !== undefined) out.begin(piece.begins);
  const bytes = piece.picture ?? Buffer.from(piece.text, 'utf8');
  out?.writeBytes(bytes);
  tally.lines += piece.lines;
  tally.bytes += bytes.length;
}

function sourcesOf({ session }: CellarServices, what: Outgoing): TableSource[] {
  if (what.kind !== 'table' && what.kind !== 'tables') return [];
  const all = tableSources(session);
  if (what.kind === 'tables') return all;
  const one = all.filter(({ name }) => name === what.table);
  if (one.length === 0) throw new TakeOutRefused('noSuchTable');
  return one;
}

function totalOf({ session }: CellarServices, what: Outgoing, sources: readonly TableSource[]): number {
  const pictures = withPictures(what) ? checksumsIn(session).length : 0;
  const rows = what.kind === 'book' ? session.book.count() : pictures;
  return Math.max(
    1,
    sources.reduce((sum, source) => sum + source.count(), rows),
  );
}

function* piecesOf(
  services: CellarServices,
  what: Outgoing,
  sources: readonly TableSource[],
): Generator<Piece> {
  switch (what.kind) {
    case 'book': {
      yield { begins: 'book', text: '', lines: 0 };
      yield* bookPieces(services);
      return;
    }
    case 'bookSchema':
      yield { begins: 'schema', text: bookSchemaText(), lines: 1 };
      return;
    case 'table':
    case 'tables':
      for (const source of sources) yield* tablePieces(source, what.byteOrderMark);
      if (what.kind === 'tables') yield { begins: ABOUT_TABLES_NAME, text: ABOUT_TABLES, lines: 0 };
      if (withPictures(what)) yield* pictureFiles(services.session);
  }
}

function* tablePieces(source: TableSource, byteOrderMark: boolean): Generator<Piece> {
  const mark = byteOrderMark ? BYTE_ORDER_MARK : '';
  yield { begins: `${source.name}.csv`, text: `${mark}${source.heading()}`, lines: 0 };
  for (let page = source.page(source.first); page !== null; page = source.page(page.last)) {
    yield { text: page.lines.join(''), lines: page.lines.length };
  }
}

function withPictures(what: Outgoing): boolean {
  return what.kind === 'tables' && what.pictures === true;
}

function checksumsIn({ cellar }: CellarServices['session']): readonly string[] {
  return cellar.sqlite.prepare('SELECT checksum FROM picture ORDER BY checksum').pluck().all() as string[];
}

/** One picture at a time: together they may be more than fits in memory. */
function* pictureFiles(session: CellarServices['session']): Generator<Piece> {
  const content = session.cellar.sqlite.prepare('SELECT content FROM picture WHERE checksum = ?').pluck();
  for (const checksum of checksumsIn(session)) {
    const picture = Buffer.from(content.get(checksum) as Uint8Array);
    yield { begins: `picture-${checksum}.jpg`, text: '', picture, lines: 1 };
  }
}

/** A name to save it under, with the day in it. */
function nameOf(what: Outgoing, nowMs: number): string {
  const now = new Date(nowMs);
  const two = (n: number): string => String(n).padStart(2, '0');
  const day = `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  switch (what.kind) {
    case 'table':
      return `${what.table} ${day}.csv`;
    case 'tables':
      return `cellar tables ${day}`;
    case 'book':
      return `cellar book ${day}.json`;
    case 'bookSchema':
      return 'cellar-book.schema.json';
  }
}
