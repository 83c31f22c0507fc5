/** Positions in runs, at most eight of them: `1, 3 to 6, 8`. */
export function sayPositions(positions: readonly number[]): string {
  const runs: [first: number, last: number][] = [];
  for (const position of positions) {
    const run = runs.at(-1);
    if (run !== undefined && run[1] === position - 1) run[1] = position;
    else runs.push([position, position]);
  }
  const words = runs
    .slice(0, 8)
    .map(([first, last]) => (first === last ? String(first) : `${first} to ${last}`));
  return words.join(', ') + (runs.length > 8 ? ' and more' : '');
}
