import bidiFactory from 'bidi-js';
import type { LabelFont } from '#core/labels/drawing.ts';
import { graphemes } from '#core/labels/fit-text.ts';
import { keptLately, type KeptLately } from './kept-lately.ts';
import { fontFiles, type FontFile } from './label-fonts.ts';

/** A glyph of one font file and how far it moves on, in thousandths of an em. */
export interface ShapedGlyph {
  readonly id: number;
  readonly codePoints: readonly number[];
  readonly ownWidth: number;
  readonly advance: number;
  readonly rightBy: number;
  readonly upBy: number;
}

/** Glyphs of one file that stand beside each other, from left to right. */
export interface ShapedPiece {
  readonly file: FontFile;
  readonly text: string;
  readonly glyphs: readonly ShapedGlyph[];
  /** Thousandths of an em. */
  readonly width: number;
}

const bidi = bidiFactory();
const PIECES_KEPT_MOST = 500;
const kept = keptLately<ShapedPiece>(PIECES_KEPT_MOST);

/** How wide the text is from one file, thousandths of an em: far more is measured than is ever drawn. */
export function pieceWidth(file: FontFile, text: string, direction: 'ltr' | 'rtl'): number {
  const key = `${file.key}\n${direction}\n${text}`;
  const known = widths.get(key);
  if (known !== undefined) return known;
  const { width } = shapePiece(file, text, direction);
  widths.set(key, width);
  return width;
}

const WIDTHS_KEPT_MOST = 8000;
const widths = keptLately<number>(WIDTHS_KEPT_MOST);

/** The text set from one file in one direction; letters that join are joined and marks stand where they belong. */
export function shapePiece(file: FontFile, text: string, direction: 'ltr' | 'rtl'): ShapedPiece {
  const key = `${file.key}\n${direction}\n${text}`;
  const known = kept.get(key);
  if (known !== undefined) return known;
  const { glyphs, positions } = file.font.layout(
    direction === 'rtl' ? mirrored(text) : text,
    undefined,
    undefined,
    undefined,
    direction,
  );
  const scale = 1000 / file.font.unitsPerEm;
  const shaped = glyphs.map((glyph, at) => {
    const position = positions[at];
    return {
      ...{ id: glyph.id, codePoints: [...glyph.codePoints], ownWidth: glyph.advanceWidth * scale },
      advance: (position?.xAdvance ?? glyph.advanceWidth) * scale,
      ...{ rightBy: (position?.xOffset ?? 0) * scale, upBy: (position?.yOffset ?? 0) * scale },
    };
  });
  const width = shaped.reduce((sum, { advance }) => sum + advance, 0);
  const piece = { file, text, glyphs: shaped, width };
  kept.set(key, piece);
  return piece;
}

/** Brackets face the other way in text that reads from right to left. */
function mirrored(text: string): string {
  return [...text].map((letter) => bidi.getMirroredCharacter(letter) ?? letter).join('');
}

/** Text that no family of its style has stands here as itself, to be told and boxed. */
export interface Covered {
  readonly text: string;
  readonly family: LabelFont | null;
}

/** Splits text of one direction into stretches by the family that sets them. */
export function coverByFamily(
  text: string,
  style: { readonly narrow: boolean; readonly bold: boolean },
): Covered[] {
  if (PLAIN.test(text)) return text === '' ? [] : [{ text, family: style.narrow ? 'narrow' : 'archivo' }];
  const stretches: { text: string; family: LabelFont | null }[] = [];
  for (const cluster of graphemes(text)) {
    const shown = visible(cluster);
    if (shown === '') continue;
    const last = stretches.at(-1);
    const family = familyOf(shown, style, last?.family ?? null);
    // What no font has is told one by one; the rest goes on in one stretch.
    if (last !== undefined && family !== null && last.family === family) last.text += shown;
    else stretches.push({ text: shown, family });
  }
  return stretches;
}

/** Splits a stretch of one family into pieces by the file that has the letters. */
export function piecesOf(
  text: string,
  family: LabelFont,
  bold: boolean,
  direction: 'ltr' | 'rtl',
): ShapedPiece[] {
  const shaped = splitByFile(text, family, bold).map((piece) =>
    shapePiece(piece.file, piece.text, direction),
  );
  return direction === 'rtl' ? shaped.reverse() : shaped;
}

/** How wide a stretch of one family is, thousandths of an em. */
export function stretchWidth(
  text: string,
  family: LabelFont,
  bold: boolean,
  direction: 'ltr' | 'rtl',
): number {
  return splitByFile(text, family, bold).reduce(
    (sum, piece) => sum + pieceWidth(piece.file, piece.text, direction),
    0,
  );
}

function splitByFile(text: string, family: LabelFont, bold: boolean): { file: FontFile; text: string }[] {
  if (PLAIN.test(text) && (family === 'archivo' || family === 'narrow')) {
    for (const file of fontFiles(family, bold)) return [{ file, text }];
  }
  const split: { file: FontFile; text: string }[] = [];
  for (const cluster of graphemes(text)) {
    const last = split.at(-1);
    if (last !== undefined && has(last.file, cluster)) {
      last.text += cluster;
      continue;
    }
    const file = fileWith(cluster, family, bold);
    if (file === null) throw new Error('a stretch was covered by a family that has no such letter');
    split.push({ file, text: cluster });
  }
  return split;
}

/** What the first file of both Latin families has whole (a test says so): most of what is ever set. */
export const PLAIN = /^[\u0020-\u007E\u00A0-\u00AC\u00AE-\u00FF]*$/u;

/** Letters that steer without showing: joiners stay with what they join, all else is gone before fonts are asked. */
function visible(cluster: string): string {
  const shown = [...cluster].filter((letter) => !STEERS.test(letter));
  return shown.every(joins) ? '' : shown.join('');
}

const STEERS = /\u00AD|\u061C|\u180E|\u200B|[\u200E\u200F]|[\u202A-\u202E]|[\u2060-\u206F]|\uFEFF/u;

/** Joiners and marks that choose a form: they need no glyph of their own. */
function joins(letter: string): boolean {
  const code = letter.codePointAt(0) ?? 0;
  return code === 0x200c || code === 0x200d || (code >= 0xfe00 && code <= 0xfe0f);
}

const EMOJI = /\p{Emoji_Presentation}|\p{Emoji}\uFE0F|\p{Regional_Indicator}/u;

function familyOf(
  cluster: string,
  { narrow, bold }: { readonly narrow: boolean; readonly bold: boolean },
  before: LabelFont | null,
): LabelFont | null {
  const latin: LabelFont = narrow ? 'narrow' : 'archivo';
  const others = (['arabic', 'hebrew', 'emoji'] as const).filter((family) => family !== before);
  // A space goes on in the font it stands in, so that a phrase stays one stretch.
  const order: readonly LabelFont[] = EMOJI.test(cluster)
    ? ['emoji', latin, ...others]
    : before === 'arabic' || before === 'hebrew'
      ? [...(cluster.trim() === '' ? [before] : []), latin, before, ...others]
      : [latin, ...others];
  return order.find((family) => fileWith(cluster, family, bold) !== null) ?? null;
}

function fileWith(cluster: string, family: LabelFont, bold: boolean): FontFile | null {
  for (const file of fontFiles(family, bold)) if (has(file, cluster)) return file;
  return null;
}

const CLUSTERS_KEPT_MOST = 4000;
const known = new Map<FontFile, KeptLately<boolean>>();

/** True when the file has every letter of the cluster; what only steers need not be there. */
function has(file: FontFile, cluster: string): boolean {
  const answers = known.get(file) ?? keptLately<boolean>(CLUSTERS_KEPT_MOST);
  known.set(file, answers);
  const answer = answers.get(cluster);
  if (answer !== undefined) return answer;
  const letters = [...cluster].filter((letter) => !joins(letter));
  const found =
    letters.every((letter) => file.font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0)) &&
    !(letters.length > 1 && file.family === 'emoji' && isBroken(file, cluster));
  answers.set(cluster, found);
  return found;
}

/** A sequence whose parts are there but whose joined form is not in this file: another file may have it whole. */
function isBroken(file: FontFile, cluster: string): boolean {
  return file.font.layout(cluster).glyphs.some(({ id }) => id === 0);
}
