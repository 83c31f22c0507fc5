import { createRouterClient } from '@orpc/server';
import { tmpdir } from 'node:os';
import { compose } from '../../src-main/compose.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import { loadFile } from './load-files.ts';
import { ms, times, type BenchLine } from './report.ts';
import { sideBySide } from './side-by-side.ts';

const GOAL = 1.2;
const VESSELS = 200;
const FEW = 10_000;
export const MANY = 1_000_000;
const today = { startMs: SAMPLE_NOW_MS, endMs: SAMPLE_NOW_MS + 86_400_000 };

/** From a closed file to the first shelf: opening, what the frame of the window asks, and the overview. */
export async function opening(rounds: number): Promise<BenchLine[]> {
  const open = (cellar: string) => async () => {
    const undercroft = compose({ cellar, dataFolder: tmpdir(), clock: () => SAMPLE_NOW_MS });
    try {
      const client = createRouterClient(undercroft.router);
      await client.cellar.about();
      await client.shelves.overview({ grouping: 'place', today });
    } finally {
      undercroft.close();
    }
  };
  const [few = NaN, many = NaN] = await sideBySide(
    [open(loadFile(VESSELS, FEW)), open(loadFile(VESSELS, MANY))],
    { rounds, warmUp: 3 },
  );
  return [
    {
      what: `opening a cellar of ${MANY} lines`,
      ...{ measured: ms(many), beside: `${ms(few)} with ${FEW} lines`, ratio: times(many / few) },
      ...{ goal: `<= ${GOAL}x`, met: many / few <= GOAL },
    },
  ];
}
