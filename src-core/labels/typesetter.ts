import type { LabelFont } from './drawing.ts';

/** A stretch of a set line in one font and one direction. Lengths in em: multiplied by the size they are lengths. */
export interface SetRun {
  readonly text: string;
  readonly font: LabelFont;
  readonly bold: boolean;
  readonly xEm: number;
  readonly widthEm: number;
  readonly direction: 'ltr' | 'rtl';
}

/** One line of text as it would be set, from left to right. */
export interface SetLine {
  readonly widthEm: number;
  readonly runs: readonly SetRun[];
  /** Where a character stands that no font has: an empty box is drawn there. */
  readonly boxes: readonly { readonly xEm: number; readonly widthEm: number }[];
  /** Those characters, each as often as it occurs. */
  readonly missing: readonly string[];
  /** Reads from right to left as a whole, by its first strong letter. */
  readonly rightToLeft: boolean;
}

export interface TextStyle {
  readonly narrow: boolean;
  readonly bold: boolean;
}

/** Knows the fonts: handed in, because the core reads no files. The same text always gives the same line. */
export interface Typesetter {
  line(text: string, style: TextStyle): SetLine;
}

/** The point of typesetting programs, 1/72 inch, in millimetres. */
export const POINT_MM = 25.4 / 72;

/** Characters that only steer: controls, and marks that turn or override direction. They would turn the rest of a label round. */
const STEERING = /[\p{Cc}\u061C\u200B\u200E\u200F\u2028-\u202E\u2060-\u2069\uFEFF\uFFF9-\uFFFB]/gu;

/** A keeper's text as it is set: composed, in one line, and without characters that steer instead of showing. */
export function printable(text: string): string {
  return text
    .normalize('NFC')
    .replace(/[\s\p{Zl}\p{Zp}]+/gu, ' ')
    .replace(STEERING, '')
    .trim();
}

/** A keeper's words within a sentence of ours: its direction stays its own (FSI and PDI of Unicode Annex 9). */
export function isolated(text: string): string {
  return `\u2068${text}\u2069`;
}
