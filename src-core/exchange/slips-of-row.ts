import type { QuantityKind } from '../quantities/understood.ts';
import { slipsAgainst } from '../quantities/slips.ts';
import type { ReadRow } from './read-row.ts';
import { FIELD_FORMS, READING_FIELDS } from './reading-fields.ts';
import { rowProblem, type RowProblem } from './row-problem.ts';

/** The last value of each quantity read in a vessel before a moment. */
export type Before = ReadonlyMap<QuantityKind, number>;

/** What in a row looks like a slip beside the reading before it in the same vessel (rule MEAS-09): asked about, never mended. */
export function slipsOfRow(row: ReadRow, before: Before): RowProblem[] {
  return row.quantities.flatMap(({ kind, value, text }) => {
    const previous = before.get(kind) ?? null;
    const [slip] = slipsAgainst({ kind, value, previous });
    if (slip === undefined) return [];
    const field = READING_FIELDS.find((known) => {
      const form = FIELD_FORMS[known];
      return form.as === 'quantity' && form.kind === kind;
    });
    return [rowProblem('Slip', field ?? null, text, { known: [slip.why], number: previous })];
  });
}
