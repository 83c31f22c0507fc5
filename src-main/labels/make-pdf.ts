import { setImmediate } from 'node:timers/promises';
import type { LabelOrder, MadePdf, PdfStep } from '#core/contract/labels.ts';
import type { LabelPart } from '#core/labels/label-part.ts';
import { correctionFor } from '#core/labels/calibration.ts';
import { labelOutline } from '#core/labels/label-room.ts';
import type { LabelDrawing } from '#core/labels/drawing.ts';
import type { LabelLayout } from '#core/labels/layout.ts';
import { placesOf, runOfSheets } from '#core/labels/placing.ts';
import type { CellarSession } from '../cellar/session.ts';
import { openOutFile, type OutFile } from '../exchange/out-file.ts';
import { FileRefused } from '../cellar/file-refused.ts';
import type { Calibration } from '#core/contract/labels.ts';
import { runOrder, type JarLabels, type RunDeps } from './label-run.ts';
import { openPdf } from './pdf-sheet.ts';

/** Why nothing was printed. */
export class NotPrinted extends Error {
  readonly why: NotPrintedWhy;
  constructor(why: NotPrintedWhy) {
    super(why.type);
    this.why = why;
  }
}
export type NotPrintedWhy =
  | { readonly type: 'NothingToPrint' }
  | {
      readonly type: 'DoesNotFit';
      readonly jars: readonly TooSmall[];
    };

/**
 * Writes the labels of an order as a PDF, piece by piece, and lets other calls through between the pages. Every label is composed
 * before the first page is written, so that one that does not fit stops it while there is nothing to throw away.
 *
 * @throws FileRefused · NotPrinted
 */
export async function* makePdf(
  session: CellarSession,
  order: LabelOrder,
  layout: LabelLayout,
  calibration: Calibration | null,
  deps: RunDeps,
  path: string | null,
  signal: AbortSignal | undefined,
): AsyncGenerator<PdfStep, MadePdf, void> {
  const { cellar } = session;
  const stop = signal === undefined ? cellar.closing : AbortSignal.any([cellar.closing, signal]);
  const name = `labels ${dayOf(deps.nowMs)}.pdf`;
  const wanted = order.jars.reduce((sum, { copies }) => sum + copies, 0);
  // Composing and writing take about as long as each other.
  const total = Math.max(1, 2 * wanted);
  let out: OutFile | null = null;
  try {
    // Composed twice: once to see that all fit, once to be written. To keep them between would hold every label in memory.
    const looked = { labels: 0, jars: 0, tooSmall: [] as TooSmall[] };
    for (const jar of runOrder(order, layout, deps)) {
      looked.jars += 1;
      looked.labels += jar?.copies ?? 0;
      if (jar !== null) looked.tooSmall.push(...tooSmall(jar));
      if (looked.jars % COMPOSED_AT_ONCE !== 0) continue;
      stop.throwIfAborted();
      yield { what: 'labels', done: looked.labels, total, piece: '' };
      await setImmediate();
    }
    if (looked.tooSmall.length > 0) throw new NotPrinted({ type: 'DoesNotFit', jars: looked.tooSmall });
    if (looked.labels === 0) throw new NotPrinted({ type: 'NothingToPrint' });
    out = path === null ? null : openOutFile(path, cellar.file, false);
    out?.begin(name);

    let bytes = 0;
    let pieces: Buffer[] = [];
    const pdf = openPdf(`Labels, ${dayOf(deps.nowMs)}`, deps.nowMs, (piece) => pieces.push(piece));
    const take = (): string => {
      const piece = Buffer.concat(pieces);
      pieces = [];
      bytes += piece.length;
      if (out === null) return piece.toString('base64');
      out.writeBytes(piece);
      return '';
    };
    const places = placesOf(layout, order.filled);
    const sheets = runOfSheets(layout, order);
    const cut = layout.cutLines ? cutLines(layout) : null;
    let page = 0;
    let nth = 0;
    for (const jar of runOrder(order, layout, deps)) {
      if (jar === null) continue;
      // Something may have been written in the book since it was looked at.
      const now = tooSmall(jar);
      if (now.length > 0) throw new NotPrinted({ type: 'DoesNotFit', jars: now });
      const { composed: drawings, copies } = jar;
      for (let copy = 0; copy < copies; copy += 1) {
        const at = sheets.at(nth);
        if (at.page !== page) {
          stop.throwIfAborted();
          if (page > 0) yield { what: 'labels', done: wanted + nth, total, piece: take() };
          await setImmediate();
          pdf.page(
            { widthMm: layout.pageWidthMm, heightMm: layout.pageHeightMm },
            correctionFor(calibration),
          );
          page = at.page;
        }
        const place = places[at.place - 1];
        const drawing = (drawings[copy] ?? drawings[0])?.drawing;
        if (place === undefined || drawing === undefined) throw new Error('a label has no place');
        if (cut !== null) pdf.draw(cut, place);
        pdf.draw(drawing, place);
        nth += 1;
      }
    }
    // The fonts are cut down to the letters that were used, and follow the pages.
    await pdf.end();
    yield { what: 'labels', done: total, total, piece: take() };
    const { file } = out?.finish() ?? { file: null };
    return { file, name, bytes, ...sheets.sheetsFor(nth), labels: nth };
  } catch (error) {
    const closed = cellar.closing.aborted && signal?.aborted !== true;
    if (!closed || error instanceof FileRefused) throw error;
    throw new FileRefused({ type: 'OtherFault', file: path ?? name, detail: 'CELLAR_CLOSED' });
  } finally {
    out?.abandon();
  }
}

const COMPOSED_AT_ONCE = 20;
const CUT_MM = 0.2;

function cutLines(layout: LabelLayout): LabelDrawing {
  const figures = [{ d: labelOutline(layout), weightMm: CUT_MM, within: null }];
  return { texts: [], rules: [], code: null, figures };
}

interface TooSmall {
  readonly jar: number;
  readonly id: string;
  readonly parts: LabelPart[];
}

/** What of a jar's labels always prints and has no room; empty when all has. */
function tooSmall({ jar, id, composed }: JarLabels): TooSmall[] {
  const parts = composed.flatMap(({ notes }) =>
    notes.flatMap((note) => (note.type === 'doesNotFit' ? note.parts : [])),
  );
  return parts.length === 0 ? [] : [{ jar, id, parts: [...new Set(parts)] }];
}

function dayOf(nowMs: number): string {
  const now = new Date(nowMs);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
