import { z } from 'zod';
import { READING_FIELDS } from '../exchange/reading-fields.ts';
import { RowProblem } from '../exchange/row-problem.ts';
import { DateOrder, DecimalMark, Separator } from '../exchange/settled.ts';
import { ReadingValues } from '../ledger/act.ts';

/** A row of the table with what becomes of it. */
export const LookedRow = z.object({
  /** The line of the text it begins on, counted from 1. */
  line: z.int(),
  /** `accepted` was in doubt and comes in because the keeper says so. */
  outcome: z.enum(['ready', 'accepted', 'alreadyThere', 'doubtful', 'refused']),
  vessel: z.string().nullable(),
  atMs: z.number().nullable(),
  values: ReadingValues.nullable(),
  problems: z.array(RowProblem),
  cells: z.array(z.string()),
});
export type LookedRow = z.infer<typeof LookedRow>;

const evidence = <Way extends z.ZodType>(way: Way) =>
  z.object({ way: way.nullable(), how: z.enum(['none', 'certain', 'unclear', 'mixed', 'settled']) });

/** What must be settled before anything can come in. */
export const QUESTIONS = [
  ...(['empty', 'tooManyRows', 'when', 'vessel', 'values'] as const),
  ...(['decimalMark', 'dateOrder', 'unit', 'acid'] as const),
] as const;
export type Question = (typeof QUESTIONS)[number];

/** A table of readings as it would be brought in. */
export const LookedOver = z.object({
  separator: Separator,
  decimalMark: evidence(DecimalMark),
  dateOrder: evidence(DateOrder),
  headings: z.array(z.string()),
  /** The first cells of each column that hold something. */
  samples: z.array(z.array(z.string())),
  columns: z.array(z.object({ field: z.enum(READING_FIELDS).nullable(), unit: z.string().nullable() })),
  questions: z.array(z.enum(QUESTIONS)),
  counts: z.object({
    rows: z.int(),
    ready: z.int(),
    alreadyThere: z.int(),
    doubtful: z.int(),
    refused: z.int(),
  }),
  /** The first rows, whatever becomes of them. */
  preview: z.array(LookedRow),
  /** Every row that was in doubt or is refused. */
  troubled: z.array(LookedRow),
});
export type LookedOver = z.infer<typeof LookedOver>;
