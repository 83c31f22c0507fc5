import type { ContractRouterClient } from '@orpc/contract';
import { createRouterClient } from '@orpc/server';
import { tmpdir } from 'node:os';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import type { Contract } from '#core/contract/index.ts';
import type { LabelOrder } from '#core/contract/labels.ts';
import { compose } from '../../src-main/compose.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import { loadFile } from './load-files.ts';
import { times, type BenchLine } from './report.ts';
import { median } from './side-by-side.ts';

const VESSELS = 1000;
const ENTRIES = 12_000;
const MANY = 1000;
const FEW = 100;
const GOAL_S = 5;
/** Beyond a few hundred labels what was set in the first look is no longer remembered in the second. */
const GROWTH_GOAL = 1.5;
/** Ten times the labels may hold so much more, MB: what the PDF still has to say of each page, and what was set before. */
const MEMORY_GOAL_MB = 8;
const MB = 1024 * 1024;

type Client = ContractRouterClient<Contract>;

/** A PDF of 1,000 different labels with their codes: how long it takes beside ten of 100, and what it holds in memory. */
export async function labels(rounds: number): Promise<BenchLine[]> {
  const cellar = loadFile(VESSELS, ENTRIES);
  const undercroft = compose({ cellar, dataFolder: tmpdir(), clock: () => SAMPLE_NOW_MS });
  try {
    const client: Client = createRouterClient(undercroft.router);
    const vessels = await client.labels.jars({ text: '', of: null, kinds: ['vessel'], limit: 1000 });
    const filled = vessels.filter(({ batchId }) => batchId !== null);
    const jars = filled.map(({ of }) => ({ of, copies: 1 }));
    const asked = Array.from({ length: MANY }, (_, n) => jars[n % jars.length]).flatMap((jar) => jar ?? []);
    await print(client, asked.slice(0, FEW));
    const took = { many: [] as number[], few: [] as number[], manyBytes: 0, fewBytes: 0 };
    for (let round = 0; round < rounds; round += 1) {
      const many = await print(client, asked);
      const few = await tenOf(client, asked);
      took.many.push(many.seconds);
      took.few.push(few.seconds);
      took.manyBytes = Math.max(took.manyBytes, many.heldBytes);
      took.fewBytes = Math.max(took.fewBytes, few.heldBytes);
    }
    const [many, few] = [median(took.many), median(took.few)];
    return [
      {
        what: `a PDF of ${MANY.toLocaleString('en-GB')} labels with codes, of ${jars.length} vessels`,
        measured: `${many.toFixed(2)} s`,
        beside: `${few.toFixed(2)} s for ten PDFs of ${FEW}`,
        ratio: times(many / few),
        goal: `under ${GOAL_S} s, ratio at most ${GROWTH_GOAL}`,
        met: many <= GOAL_S && many / few <= GROWTH_GOAL,
      },
      {
        what: 'memory held while it is written',
        measured: `${(took.manyBytes / MB).toFixed(1)} MB more than before`,
        beside: `${(took.fewBytes / MB).toFixed(1)} MB for ${FEW} labels`,
        ratio: `${((took.manyBytes - took.fewBytes) / MB).toFixed(1)} MB`,
        goal: `at most ${MEMORY_GOAL_MB} MB between them`,
        met: took.manyBytes - took.fewBytes <= MEMORY_GOAL_MB * MB,
      },
    ];
  } finally {
    undercroft.close();
  }
}

interface Printed {
  readonly seconds: number;
  /** The most that was in use above what was before, after the collector had been round; looked at now and then. */
  readonly heldBytes: number;
}

async function tenOf(client: Client, asked: LabelOrder['jars']): Promise<Printed> {
  let [seconds, heldBytes] = [0, 0];
  for (let from = 0; from < asked.length; from += FEW) {
    const one = await print(client, asked.slice(from, from + FEW));
    seconds += one.seconds;
    heldBytes = Math.max(heldBytes, one.heldBytes);
  }
  return { seconds, heldBytes };
}

/** Prints and throws away what comes; the time in which memory is looked at is not counted. */
async function print(client: Client, jars: LabelOrder['jars']): Promise<Printed> {
  const order: LabelOrder = {
    ...{
      layoutKey: 'a4-2x4',
      jars,
      startAt: 1,
      taken: [],
      filled: 'across',
      printer: null,
      without: [],
      content: 'cellar',
    },
    ...{ freeLine: '', from: '', bestKept: '', blankLines: 0, numbered: false },
  };
  const before = liveHeap();
  let [seconds, heldBytes, steps] = [0, 0, 0];
  const run = await client.labels.pdf({ order, path: null });
  for (;;) {
    const begunAt = performance.now();
    const step = await run.next();
    seconds += (performance.now() - begunAt) / 1000;
    if (step.done === true) return { seconds, heldBytes };
    steps += 1;
    if (steps % 12 === 0) heldBytes = Math.max(heldBytes, liveHeap() - before);
  }
}

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

function liveHeap(): number {
  collect();
  const { heapUsed, external } = process.memoryUsage();
  return heapUsed + external;
}
