import { z } from 'zod';

/**
 * A label as it is drawn, in millimetres from its own upper left corner, and in black alone. The page shows these very
 * marks and the PDF prints them, so what is seen is what prints.
 */

/** Families of type: `archivo` as it is, `narrow` when a line is too long for that, the others for what neither has. */
export const LABEL_FONTS = ['archivo', 'narrow', 'arabic', 'hebrew', 'emoji'] as const;
export const LabelFont = z.enum(LABEL_FONTS);
export type LabelFont = z.infer<typeof LabelFont>;

/** One stretch of text in one font and one direction. A line of mixed scripts is several, in the order they stand from left to right. */
export const TextRun = z.object({
  /** In reading order, also where it is read from right to left. */
  text: z.string(),
  font: LabelFont,
  bold: z.boolean(),
  sizePt: z.number(),
  /** Where it begins at the left, and its baseline. */
  xMm: z.number(),
  yMm: z.number(),
  /** How wide it prints: what shows it stretches or squeezes it to exactly this. */
  widthMm: z.number(),
  direction: z.enum(['ltr', 'rtl']),
});
export type TextRun = z.infer<typeof TextRun>;

/** A straight line of some thickness. */
export const Rule = z.object({
  x1Mm: z.number(),
  y1Mm: z.number(),
  x2Mm: z.number(),
  y2Mm: z.number(),
  weightMm: z.number(),
});
export type Rule = z.infer<typeof Rule>;

/** An outline or a filled form, as SVG path data whose lengths are millimetres. `weightMm` 0 means filled. */
export const Figure = z.object({
  d: z.string(),
  weightMm: z.number(),
  /** Only what lies inside this rectangle is drawn; null draws it whole. */
  within: z
    .object({ xMm: z.number(), yMm: z.number(), widthMm: z.number(), heightMm: z.number() })
    .nullable(),
});
export type Figure = z.infer<typeof Figure>;

/** The code of ISO/IEC 18004: rows of `0` and `1` (dark) without the quiet zone, which is kept free around it. */
export const CodeSquare = z.object({
  text: z.string(),
  xMm: z.number(),
  yMm: z.number(),
  moduleMm: z.number(),
  rows: z.array(z.string()),
});
export type CodeSquare = z.infer<typeof CodeSquare>;

export const LabelDrawing = z.object({
  texts: z.array(TextRun),
  rules: z.array(Rule),
  figures: z.array(Figure),
  code: CodeSquare.nullable(),
});
export type LabelDrawing = z.infer<typeof LabelDrawing>;
