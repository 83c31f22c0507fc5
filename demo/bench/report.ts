/** One line of the table. A line without a goal only explains one that has. */
export interface BenchLine {
  readonly what: string;
  readonly measured: string;
  readonly beside: string;
  readonly ratio: string;
  readonly goal: string;
  readonly met: boolean | null;
}

/** Milliseconds with the digits that mean something. */
export function ms(value: number): string {
  return `${value < 10 ? value.toFixed(3) : value.toFixed(1)} ms`;
}

export function times(ratio: number): string {
  return `${ratio.toFixed(2)}x`;
}

export function table(lines: readonly BenchLine[]): string {
  const head = ['what', 'measured', 'beside', 'ratio', 'goal', ''];
  const rows = lines.map(({ what, measured, beside, ratio, goal, met }) => [
    ...[what, measured, beside, ratio, goal],
    met === null ? '' : met ? 'met' : 'NOT MET',
  ]);
  const widths = head.map((_, column) =>
    Math.max(...[head, ...rows].map((row) => (row[column] ?? '').length)),
  );
  const written = (row: readonly string[]) =>
    row
      .map((cell, column) => cell.padEnd(widths[column] ?? 0))
      .join('  ')
      .trimEnd();
  return [written(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(written)].join(
    '\n',
  );
}
