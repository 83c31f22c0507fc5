/** One line of what was done to the program and what became of it. */
export interface SoakLine {
  readonly what: string;
  readonly times: number;
  /** What became of them, counted: `812 kept, 0 lost`. */
  readonly became: string;
  /** How many of them must not have been. */
  readonly bad: number;
  /** The first few of those, to find them again. */
  readonly badOnes?: readonly string[];
}

const BAD_SHOWN = 5;

export function soakTable(lines: readonly SoakLine[]): string {
  const head = ['what was done', 'times', 'what became of it', ''];
  const rows = lines.map(({ what, times, became, bad }) => [
    ...[what, times.toLocaleString('en'), became],
    bad === 0 ? 'good' : `${bad} BAD`,
  ]);
  const widths = head.map((_, column) =>
    Math.max(...[head, ...rows].map((row) => (row[column] ?? '').length)),
  );
  const written = (row: readonly string[]) =>
    row
      .map((cell, column) =>
        column === 1 ? cell.padStart(widths[column] ?? 0) : cell.padEnd(widths[column] ?? 0),
      )
      .join('  ')
      .trimEnd();
  const shown = lines.flatMap(({ what, badOnes = [] }) =>
    badOnes.slice(0, BAD_SHOWN).map((one) => `\n${what}: ${one}`),
  );
  const rule = widths.map((width) => '-'.repeat(width)).join('  ');
  return [written(head), rule, ...rows.map(written), ...shown].join('\n');
}
