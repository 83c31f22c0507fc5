import type { LookedOver } from '#core/contract/looked-over.ts';
import { BYTE_ORDER_MARK, csvLine } from '#core/exchange/csv-text.ts';
import type { RowProblem } from '#core/exchange/row-problem.ts';

/** The rows that did not come in as a table of their own: line, reason, and the cells as they stood. */
export function refusedTable(
  { headings, troubled }: Pick<LookedOver, 'headings' | 'troubled'>,
  say: (problem: RowProblem) => string,
): string {
  const left = troubled.filter(({ outcome }) => outcome === 'refused' || outcome === 'doubtful');
  const lines = left.map(({ line, problems, cells }) =>
    csvLine([line, problems.map(say).join(' '), ...cells]),
  );
  return `${BYTE_ORDER_MARK}${csvLine(['line', 'reason', ...headings])}${lines.join('')}`;
}
