import { eventIterator, oc } from '@orpc/contract';
import { z } from 'zod';
import { LabelDrawing } from '../labels/drawing.ts';
import { LabelNote, LabelPart } from '../labels/label-part.ts';
import { LabelLayout, LayoutMeasures, LAYOUT_KEY, OwnLayout, PAPERS } from '../labels/layout.ts';
import { BatchId, EntryId, VesselId } from '../ledger/ids.ts';
import { FermentKind, FilledStage } from '../ledger/stage.ts';
import { FileRefusal, Progress } from './cellar.ts';

/** What a label is stuck on: a vessel as it stands, a batch wherever it stands, or the bottles of one filling. */
export const Labelled = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('vessel'), vesselId: VesselId }),
  z.strictObject({ kind: z.literal('batch'), batchId: BatchId }),
  z.strictObject({ kind: z.literal('lot'), lotId: EntryId }),
]);
export type Labelled = z.infer<typeof Labelled>;

/** Something a label can be made for, as it is chosen from. */
export const LabelJar = z.object({
  of: Labelled,
  /** What prints under the code and finds it when it is typed or scanned: `V-7`, `AV-26-003` or `AV-26-003/57`. */
  id: z.string(),
  name: z.string(),
  ferment: FermentKind.nullable(),
  stage: FilledStage.nullable(),
  /** When the batch began; null for an empty vessel. */
  startedAtMs: z.number().nullable(),
  /** When the bottles were filled; null for what is no bottling. */
  bottledAtMs: z.number().nullable(),
  volumeUl: z.int().nullable(),
  /** For a vessel its number and where it stands; for a batch that stands in one vessel, that one's. */
  vesselNumber: z.int().nullable(),
  spot: z.string().nullable(),
  /** How many labels one would want: the bottles left of a filling, the vessels a batch stands in, else 1. */
  copiesWanted: z.int(),
  batchId: BatchId.nullable(),
});
export type LabelJar = z.infer<typeof LabelJar>;

const Line = z
  .string()
  .trim()
  .max(120)
  .refine((text) => text.isWellFormed() && !text.includes('\0'), { error: 'whole characters' });

/** A place of a sheet by its row and column, from 1. */
export const SheetCell = z.strictObject({ row: z.int().min(1).max(80), column: z.int().min(1).max(40) });
export type SheetCell = z.infer<typeof SheetCell>;

const LayoutKey = z.string().regex(LAYOUT_KEY);
const PrinterName = Line.pipe(z.string().min(1).max(60));

/** What is to be printed, on what, and from which place on. */
export const LabelOrder = z.strictObject({
  layoutKey: LayoutKey,
  jars: z
    .array(z.strictObject({ of: Labelled, copies: z.int().min(1).max(1000) }))
    .max(1000)
    .refine((jars) => jars.reduce((sum, { copies }) => sum + copies, 0) <= 5000, {
      error: 'at most 5000 labels',
    }),
  /** The first free place of the first sheet, from 1; places are counted in the order they are filled. */
  startAt: z.int().min(1).max(3200),
  /** Places of the first sheet that have no label any more: they are passed over. */
  taken: z.array(SheetCell).max(3200),
  filled: z.enum(['across', 'down']),
  /** Whose calibration counts; null prints as measured. */
  printer: PrinterName.nullable(),
  /** Parts the keeper does not want. Name, caution, started and id print all the same. */
  without: z.array(LabelPart).max(40),
  /** `cellar` tells what the keeper needs, `gift` what somebody needs who gets it as a present. */
  content: z.enum(['cellar', 'gift']),
  /** A line of the keeper's own; '' for none. */
  freeLine: Line,
  /** On a gift: who it is from, and how it is best kept; '' leaves the line away. */
  from: Line,
  bestKept: Line,
  /** Ruled lines for the pen. */
  blankLines: z.int().min(0).max(12),
  /** "1 of 9" behind what it is, counted through the copies of each. */
  numbered: z.boolean(),
});
export type LabelOrder = z.infer<typeof LabelOrder>;

/** A label on its place. Millimetres from the upper left corner of the paper as drawn, before any calibration. */
export const PlacedLabel = z.object({
  page: z.int(),
  /** Its number on the sheet, from 1, counted in the order the places are filled. */
  place: z.int(),
  xMm: z.number(),
  yMm: z.number(),
  /** Which of all labels it is, from 0. */
  nth: z.int(),
  /** Which of the jars asked for, and which of its copies, both from 0. */
  jar: z.int(),
  copy: z.int(),
  /** Which of the drawings. */
  drawing: z.int(),
});
export type PlacedLabel = z.infer<typeof PlacedLabel>;

/** Corner of the place on the paper, for places with and without a label alike. */
export const SheetPlace = z.object({
  ...{ place: z.int(), row: z.int(), column: z.int(), xMm: z.number(), yMm: z.number() },
});

/** What was measured on the test sheet of one printer with one paper. */
export const Calibration = z.strictObject({
  printer: PrinterName,
  paper: z.enum(PAPERS),
  /** How far the print is to be moved: to the right and downwards is more than 0. */
  shiftAcrossMm: z.number().min(-10).max(10),
  shiftDownMm: z.number().min(-10).max(10),
  /** How long the ruler of 100 mm came out, in each direction. */
  rulerAcrossMm: z.number().min(97).max(103),
  rulerDownMm: z.number().min(97).max(103),
});
export type Calibration = z.infer<typeof Calibration>;

export const LabelPreview = z.object({
  layout: LabelLayout,
  pages: z.int(),
  labels: z.int(),
  /** All places of one sheet, in the order they are filled. */
  places: z.array(SheetPlace),
  /** The labels of the pages asked for. */
  placed: z.array(PlacedLabel),
  /** The drawings that `placed` speaks of. Labels that are alike share one. */
  drawings: z.array(LabelDrawing),
  /** What is to be said of each jar's label, for all jars asked for and not for these pages alone. */
  told: z.array(
    z.object({
      jar: z.int(),
      id: z.string(),
      name: z.string(),
      notes: z.array(LabelNote),
      /** The cautions as they print; they cannot be switched off. */
      cautions: z.array(z.string()),
      smallestPt: z.number(),
      /** The side of the code in modules and the size of one; null when it has no code. */
      code: z.object({ modules: z.int(), moduleMm: z.number() }).nullable(),
    }),
  ),
  /** Jars that are no longer there, by their place in what was asked. */
  gone: z.array(z.int()),
  /** The last place that is used on the last sheet; 0 when nothing prints. */
  usedUpTo: z.int(),
  /** The calibration that will count, null for none. */
  calibration: Calibration.nullable(),
});
export type LabelPreview = z.infer<typeof LabelPreview>;

/** The places that are used on a sheet that was begun, what kind of sheet it is, and when it was used last. */
export const UsedSheet = z.object({
  layoutKey: z.string(),
  taken: z.array(SheetCell),
  sheet: LayoutMeasures.pick({
    ...{ shape: true, paper: true, pageWidthMm: true, pageHeightMm: true, columns: true, rows: true },
  }),
  atMs: z.number(),
});
export type UsedSheet = z.infer<typeof UsedSheet>;

/** All that the desk remembers, kept in the cellar file beside the House Rules. */
export const LabelDesk = z.object({
  /** Built-in layouts first, then the keeper's own by name. */
  layouts: z.array(LabelLayout),
  calibrations: z.array(Calibration),
  /** At most one a layout: the one begun of just that kind of sheet. */
  used: z.array(UsedSheet),
});
export type LabelDesk = z.infer<typeof LabelDesk>;

/** A step of the making of a PDF. To the window each step brings a piece of the file, in base64. */
export const PdfStep = Progress.extend({ piece: z.string() });
export type PdfStep = z.infer<typeof PdfStep>;

export const MadePdf = z.object({
  /** Where it lies; null when it was handed to the window piece by piece. */
  file: z.string().nullable(),
  /** A name to save it under. */
  name: z.string(),
  bytes: z.int(),
  pages: z.int(),
  labels: z.int(),
  usedUpTo: z.int(),
});
export type MadePdf = z.infer<typeof MadePdf>;

const LayoutProblems = z.array(
  z.object({
    type: z.enum(['WiderThanPaper', 'HigherThanPaper', 'RoundNotAsHighAsWide', 'RollHoldsOne']),
    field: z.string(),
    overMm: z.number().optional(),
  }),
);
const NOT_FOUND = { status: 404, data: z.object({ what: z.string(), id: z.string() }) } as const;

const TestSheetAsked = z.strictObject({
  ...{ layoutKey: LayoutKey, printer: PrinterName.nullable(), corrected: z.boolean() },
});

export const labelsContract = {
  /** What can be labelled: by words, or exactly those that are given. Newest first, at most `limit`. */
  jars: oc
    .input(
      z.strictObject({
        text: z.string().max(200),
        of: z.array(Labelled).max(1000).nullable(),
        kinds: z
          .array(z.enum(['vessel', 'batch', 'lot']))
          .min(1)
          .max(3),
        limit: z.int().min(1).max(1000),
      }),
    )
    .output(z.array(LabelJar)),
  /** What the desk remembers. */
  desk: oc.output(LabelDesk),
  /** Keeps a layout of the keeper's own; a key of '' makes a new one. */
  saveLayout: oc
    .input(OwnLayout)
    .output(z.object({ key: z.string(), desk: LabelDesk }))
    .errors({
      NOT_FOUND,
      LAYOUT_REFUSED: { status: 422, data: z.object({ problems: LayoutProblems }) },
      TOO_MANY: { status: 409, data: z.object({ most: z.int() }) },
    }),
  dropLayout: oc
    .input(z.strictObject({ key: LayoutKey }))
    .output(LabelDesk)
    .errors({ NOT_FOUND }),
  saveCalibration: oc
    .input(Calibration)
    .output(LabelDesk)
    .errors({ TOO_MANY: { status: 409, data: z.object({ most: z.int() }) } }),
  dropCalibration: oc
    .input(z.strictObject({ printer: PrinterName, paper: z.enum(PAPERS) }))
    .output(LabelDesk)
    .errors({ NOT_FOUND }),
  /** Marks which places of a layout's sheet are used; none forgets it, as with a new sheet. Setting it back takes the mark back. */
  markUsed: oc
    .input(z.strictObject({ layoutKey: LayoutKey, taken: z.array(SheetCell).max(3200) }))
    .output(LabelDesk)
    .errors({ NOT_FOUND }),
  /** The pages as they would print, as drawings. At most six pages at a time. */
  preview: oc
    .input(
      z.strictObject({ order: LabelOrder, fromPage: z.int().min(1).max(5000), pages: z.int().min(1).max(6) }),
    )
    .output(LabelPreview)
    .errors({ NOT_FOUND }),
  /**
   * The same pages as a PDF: to a path, or piece by piece to the window when there is none. Nothing is written over; stopped,
   * nothing half-written is left. A label on which something that always prints has no room stops it before it begins.
   */
  pdf: oc
    .input(z.strictObject({ order: LabelOrder, path: z.string().trim().min(1).max(1000).nullable() }))
    .output(eventIterator(PdfStep, MadePdf))
    .errors({
      NOT_FOUND,
      FILE_REFUSED: { status: 422, data: FileRefusal },
      NOTHING_TO_PRINT: { status: 422 },
      DOES_NOT_FIT: {
        status: 422,
        data: z.object({
          jars: z.array(z.object({ jar: z.int(), id: z.string(), parts: z.array(LabelPart) })),
        }),
      },
    }),
  /**
   * The test sheet of a layout, to be printed on plain paper and held against the labels: outlines, a ruler of 100 mm each
   * way and crosses at the corners. `corrected` draws it with what is kept of the printer.
   */
  testSheet: oc
    .input(TestSheetAsked)
    .output(z.object({ pdf: z.file(), name: z.string() }))
    .errors({ NOT_FOUND }),
  /** The same sheet as drawings, for the page to hand to the printer as it hands over labels. */
  testSheetDrawn: oc
    .input(TestSheetAsked)
    .output(
      z.object({
        layout: LabelLayout,
        calibration: Calibration.nullable(),
        /** Each drawn from its own corner, which lies there on the paper. */
        marks: z.array(z.object({ drawing: LabelDrawing, xMm: z.number(), yMm: z.number() })),
      }),
    )
    .errors({ NOT_FOUND }),
};
