import { z } from 'zod';
import { ACIDS, GRAVITY_INSTRUMENTS } from '../ledger/act.ts';
import { VesselId } from '../ledger/ids.ts';
import { READING_FIELDS } from './reading-fields.ts';

/** The longest text that is read at once: with its quotes and line ends it still fits one call. */
export const TEXT_LENGTH_MAX = 1_800_000;
export const ROWS_MAX = 20_000;

export const SEPARATORS = [',', ';', '\t', '|'] as const;
export const Separator = z.enum(SEPARATORS);
export type Separator = z.infer<typeof Separator>;

export const DecimalMark = z.enum(['.', ',']);
export type DecimalMark = z.infer<typeof DecimalMark>;

export const DateOrder = z.enum(['dayFirst', 'monthFirst']);
export type DateOrder = z.infer<typeof DateOrder>;

/** What the keeper settled about a table that comes in. Null: as the table itself shows, where it does. */
export const Settled = z.strictObject({
  separator: Separator.nullable(),
  decimalMark: DecimalMark.nullable(),
  dateOrder: DateOrder.nullable(),
  headings: z.boolean(),
  /** What each column is; null for all: as their headings say. */
  columns: z
    .array(z.strictObject({ field: z.enum(READING_FIELDS).nullable(), unit: z.string().max(20).nullable() }))
    .max(200)
    .nullable(),
  /** The vessel of rows that do not name one. */
  vesselId: VesselId.nullable(),
  /** What an acidity is counted as where a row does not say. */
  acidityAs: z.enum(ACIDS).nullable(),
  /** What a gravity was read with where a row does not say. */
  gravityInstrument: z.enum(GRAVITY_INSTRUMENTS).nullable(),
  /** Lines in doubt that the keeper wants in all the same. */
  accepted: z.array(z.int().min(1)).max(ROWS_MAX),
  /** What the table is called, to be kept beside each reading. */
  source: z.string().trim().min(1).max(120),
});
export type Settled = z.infer<typeof Settled>;
