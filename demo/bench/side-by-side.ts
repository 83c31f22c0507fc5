/** One of several things measured beside each other: does its work once and may take a promise to do it. */
export type Work = () => unknown;

/**
 * The median milliseconds of each work, done in turns so that whatever else the machine is doing falls on all of them
 * alike. Every second round goes the other way round. The first rounds warm up and are not counted.
 */
export async function sideBySide(
  works: readonly Work[],
  { rounds, warmUp }: { readonly rounds: number; readonly warmUp: number },
): Promise<number[]> {
  const timesMs: number[][] = works.map(() => []);
  const order = works.map((work, index) => ({ work, index }));
  for (let round = -warmUp; round < rounds; round += 1) {
    for (const { work, index } of round % 2 === 0 ? order : [...order].reverse()) {
      const startedAt = performance.now();
      await work();
      const tookMs = performance.now() - startedAt;
      if (round >= 0) timesMs[index]?.push(tookMs);
    }
  }
  return timesMs.map(median);
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? NaN) + upper) / 2;
}
