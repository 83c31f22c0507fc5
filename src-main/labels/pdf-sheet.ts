import PdfDocument from 'pdfkit';
import type { CodeSquare, Figure, LabelDrawing, Rule, TextRun } from '#core/labels/drawing.ts';
import { NO_CORRECTION, type Correction } from '#core/labels/calibration.ts';
import { codeOnDots } from '#core/labels/printer-dots.ts';
import { openedFile } from './label-fonts.ts';
import { piecesOf, type ShapedPiece } from './shape-text.ts';

/** Points of PDF in a millimetre. */
const MM = 72 / 25.4;

/** What pdfkit keeps of an embedded font. Its text methods break right-to-left phrases at spaces, so glyphs are written here. */
interface EmbeddedFont {
  readonly id: string;
  readonly subset: { includeGlyph(id: number): number };
  readonly widths: (number | undefined)[];
  readonly unicode: (readonly number[] | undefined)[];
  ref(): unknown;
}
type Writing = PDFKit.PDFDocument & {
  readonly _font: EmbeddedFont;
  readonly _root: {
    readonly data: { readonly ViewerPreferences: { readonly data: Record<string, unknown> } };
  };
  addContent(operators: string): Writing;
};

/** A PDF that is written page by page; what is done is handed on and not kept. */
export interface PdfSheet {
  /** Begins a page, mm. */
  page(size: { readonly widthMm: number; readonly heightMm: number }, correction?: Correction): void;
  /** Draws with the upper left corner at a place of the page. */
  draw(drawing: LabelDrawing, at: { readonly xMm: number; readonly yMm: number }): void;
  /** Writes what is left, the fonts among it; done when the last piece has been handed on. */
  end(): Promise<void>;
}

export function openPdf(title: string, madeAtMs: number, onPiece: (piece: Buffer) => void): PdfSheet {
  const doc = new PdfDocument({
    ...{ autoFirstPage: false, margin: 0, compress: true, lang: 'en', displayTitle: true, pdfVersion: '1.7' },
    info: {
      Title: title,
      Creator: 'Undercroft',
      CreationDate: new Date(madeAtMs),
      ModDate: new Date(madeAtMs),
    },
  }) as Writing;
  // A reader that knows it prints at actual size and does not shrink the page to its own margins.
  doc._root.data.ViewerPreferences.data['PrintScaling'] = 'None';
  doc.on('data', onPiece);
  let correction = NO_CORRECTION;
  const fonts = new Map<string, EmbeddedFont>();
  const fontOf = (key: string): EmbeddedFont => {
    const known = fonts.get(key);
    if (known !== undefined) return known;
    doc.registerFont(key, openedFile(key).bytes);
    doc.font(key);
    fonts.set(key, doc._font);
    return doc._font;
  };
  const write = (piece: ShapedPiece, sizePt: number, xMm: number, yMm: number): void => {
    const font = fontOf(piece.file.key);
    const { fonts: onPage } = doc.page as unknown as { readonly fonts: Record<string, unknown> };
    onPage[font.id] ??= font.ref();
    const operators = glyphOperators(piece, font, sizePt / MM);
    doc.addContent(
      `BT /${font.id} ${num(sizePt / MM)} Tf 1 0 0 -1 ${num(xMm)} ${num(yMm)} Tm ${operators} ET`,
    );
  };
  const text = ({ text: said, font, bold, sizePt, xMm, yMm, direction }: TextRun): void => {
    const em = sizePt / MM;
    let x = xMm;
    for (const piece of piecesOf(said, font, bold, direction)) {
      write(piece, sizePt, x, yMm);
      x += (piece.width / 1000) * em;
    }
  };
  return {
    page({ widthMm, heightMm }, corrects = NO_CORRECTION) {
      doc.addPage({ size: [widthMm * MM, heightMm * MM], margin: 0 });
      correction = corrects;
    },
    draw({ texts, rules, figures, code }, { xMm, yMm }) {
      const { scaleAcross, scaleDown, shiftAcrossMm, shiftDownMm } = correction;
      doc.save();
      // From here on every length is a millimetre of the label.
      const shift = [xMm * scaleAcross + shiftAcrossMm, yMm * scaleDown + shiftDownMm] as const;
      doc.transform(scaleAcross * MM, 0, 0, scaleDown * MM, shift[0] * MM, shift[1] * MM);
      for (const figure of figures) drawFigure(doc, figure);
      for (const rule of rules) drawRule(doc, rule);
      if (code !== null) doc.addContent(`${codeRectangles(codeOnDots(code, { xMm, yMm }, correction))} f`);
      for (const run of texts) text(run);
      doc.restore();
    },
    end: () =>
      new Promise((resolve, reject) => {
        doc.once('end', resolve);
        doc.once('error', reject);
        doc.end();
      }),
  };
}

/** The show operators of one piece: glyphs with the space between them as it was shaped, in thousandths of an em. */
function glyphOperators({ glyphs }: ShapedPiece, font: EmbeddedFont, em: number): string {
  const parts: string[] = [];
  let open = '';
  let owed = 0;
  const flush = (): void => {
    if (open !== '') parts.push(`<${open}>`);
    open = '';
  };
  const shown: string[] = [];
  const show = (): void => {
    flush();
    if (parts.length > 0) shown.push(`[${parts.join(' ')}] TJ`);
    parts.length = 0;
  };
  for (const { id, codePoints, ownWidth, advance, rightBy, upBy } of glyphs) {
    const glyph = font.subset.includeGlyph(id);
    font.widths[glyph] ??= ownWidth;
    font.unicode[glyph] ??= codePoints;
    if (upBy !== 0) {
      show();
      shown.push(`${num((upBy / 1000) * em)} Ts`);
    }
    const before = owed + rightBy;
    if (Math.abs(before) > 0.01) {
      flush();
      parts.push(num(-before));
    }
    open += glyph.toString(16).padStart(4, '0');
    owed = advance - ownWidth - rightBy;
    if (upBy !== 0) {
      show();
      shown.push('0 Ts');
    }
  }
  show();
  return shown.join(' ');
}

/** Dark modules as rectangles, those beside each other as one, so that no hairline of paper shows between them. */
function codeRectangles({ rows, xMm, yMm, moduleMm }: CodeSquare): string {
  const rectangles: string[] = [];
  rows.forEach((row, line) => {
    for (const { index, 0: dark } of row.matchAll(/1+/gu)) {
      const at = [xMm + index * moduleMm, yMm + line * moduleMm, dark.length * moduleMm, moduleMm];
      rectangles.push(`${at.map(num).join(' ')} re`);
    }
  });
  return rectangles.join(' ');
}

function drawRule(doc: Writing, { x1Mm, y1Mm, x2Mm, y2Mm, weightMm }: Rule): void {
  doc.lineWidth(weightMm).moveTo(x1Mm, y1Mm).lineTo(x2Mm, y2Mm).stroke();
}

function drawFigure(doc: Writing, { d, weightMm, within }: Figure): void {
  if (within !== null) doc.save().rect(within.xMm, within.yMm, within.widthMm, within.heightMm).clip();
  doc.path(d);
  if (weightMm === 0) doc.fill();
  else doc.lineWidth(weightMm).stroke();
  if (within !== null) doc.restore();
}

function num(value: number): string {
  return String(Math.round(value * 10_000) / 10_000);
}
