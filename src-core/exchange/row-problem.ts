import { z } from 'zod';
import { LedgerError } from '../ledger/ledger-error.ts';
import { READING_FIELDS } from './reading-fields.ts';

/** Why a row does not come in. Facts only; the sentences are the page's. */
export const RowProblem = z.object({
  type: z.enum([
    // The table itself.
    ...(['QuotesLeftOpen', 'TooManyCells'] as const),
    // When.
    ...(['NoWhen', 'NotAWhen', 'NoSuchDay', 'NoSuchTime', 'DateOrderUnsettled', 'InTheFuture'] as const),
    // Where.
    ...(['NoVessel', 'NoSuchVessel', 'SeveralVessels', 'NoSuchBatch', 'SeveralBatches'] as const),
    ...(['BatchStandsNowhere', 'BatchStandsTwice', 'HoldsAnother', 'VesselEmpty', 'VesselRetired'] as const),
    'BeforeItBegan',
    // What.
    ...([
      'NotANumber',
      'UnknownUnit',
      'UnitUnsettled',
      'MarkUnsettled',
      'AmbiguousNumber',
      'TooLong',
    ] as const),
    ...(['OutOfRange', 'NotAChoice', 'AcidUnsettled', 'NotText', 'NothingRead', 'SameAsLine'] as const),
    // In doubt: the keeper may have it all the same.
    ...(['Implausible', 'Slip'] as const),
    'RefusedByTheBook',
  ]),
  field: z.enum(READING_FIELDS).nullable(),
  /** What stood in the cell. */
  text: z.string(),
  /** What would have been read, or the amounts it may mean, in the table's own way of writing. */
  known: z.array(z.string()),
  /** A line, a moment or a number the sentence needs. */
  number: z.number().nullable(),
  refusal: LedgerError.nullable(),
});
export type RowProblem = z.infer<typeof RowProblem>;
export type RowProblemType = RowProblem['type'];

export function rowProblem(
  type: RowProblemType,
  field: RowProblem['field'],
  text: string,
  more: Partial<Pick<RowProblem, 'known' | 'number' | 'refusal'>> = {},
): RowProblem {
  return { type, field, text, known: [], number: null, refusal: null, ...more };
}

/** Problems that leave the choice to the keeper: the number was understood, and looks like a slip (rule MEAS-09). */
const DOUBTS: ReadonlySet<RowProblemType> = new Set(['Implausible', 'Slip']);

export function isDoubt({ type }: RowProblem): boolean {
  return DOUBTS.has(type);
}
