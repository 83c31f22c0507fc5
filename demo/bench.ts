import { cpus, loadavg } from 'node:os';
import { parseArgs } from 'node:util';
import { bookWork } from './bench/book-work.ts';
import { durableEntry } from './bench/durable-entry.ts';
import { frames } from './bench/frames.ts';
import { LOAD_FOLDER } from './bench/load-files.ts';
import { labels } from './bench/labels.ts';
import { MANY, opening } from './bench/opening.ts';
import { pageWeight } from './bench/page-weight.ts';
import { table, type BenchLine } from './bench/report.ts';
import { science } from './bench/science.ts';
import { searching } from './bench/search.ts';
import { shelfSize } from './bench/shelf-size.ts';
import { strongboxWork } from './bench/strongbox.ts';

// `npm run bench`: what the program promises of speed and size, measured beside what it is compared with in one run.

const HELP = `Measures Undercroft beside what it is compared with, in one run, and says for each goal whether it is met.

  npm run bench
  npm run bench -- --rounds N    how often each thing is measured (200)
  npm run bench -- --only entry,book,search,shelf,frames,opening,page,science,labels,strongbox
  npm run bench -- --only strongbox --megabytes 1000    how large a cellar is backed up (64)
  npm run bench -- --help

The first run builds the cellars it measures, one of them with ${MANY} lines; that takes some minutes and about
2 GB in ${LOAD_FOLDER}, where they are kept for the next run.
`;

const PARTS: Readonly<
  Record<string, (rounds: number, megabytes: number) => Promise<BenchLine[]> | BenchLine[]>
> = {
  entry: durableEntry,
  book: bookWork,
  search: (rounds) => searching(Math.max(5, Math.round(rounds / 8))),
  shelf: shelfSize,
  frames: (rounds) => frames(Math.max(2, Math.round(rounds / 50))),
  opening: (rounds) => opening(Math.max(5, Math.round(rounds / 8))),
  page: pageWeight,
  science,
  labels: (rounds) => labels(Math.max(2, Math.round(rounds / 60))),
  strongbox: (rounds, megabytes) => strongboxWork(Math.max(3, Math.round(rounds / 40)), megabytes),
};

process.exitCode = await run();

async function run(): Promise<number> {
  try {
    const { values } = parseArgs({
      options: {
        rounds: { type: 'string', default: '200' },
        only: { type: 'string', default: Object.keys(PARTS).join(',') },
        megabytes: { type: 'string', default: '64' },
        help: { type: 'boolean', default: false },
      },
    });
    if (values.help) {
      console.log(HELP);
      return 0;
    }
    const rounds = Number(values.rounds);
    if (!Number.isInteger(rounds) || rounds < 4 || rounds > 100_000) {
      throw new Error('--rounds takes a whole number from 4 to 100000.');
    }
    const megabytes = Number(values.megabytes);
    if (!Number.isInteger(megabytes) || megabytes < 20 || megabytes > 10_000) {
      throw new Error('--megabytes takes a whole number from 20 to 10000.');
    }
    const lines: BenchLine[] = [];
    for (const name of values.only.split(',')) {
      const measure = PARTS[name];
      if (measure === undefined)
        throw new Error(`--only takes ${Object.keys(PARTS).join(', ')}, with commas.`);
      lines.push(...(await measure(rounds, megabytes)));
    }
    const machine = `Node ${process.versions.node} on ${process.platform}, ${cpus().length} processors`;
    const busy = loadavg()[0] ?? 0;
    console.log(`\n${machine}, load ${busy.toFixed(1)}; medians of ${rounds} rounds taken in turns.\n`);
    console.log(table(lines));
    if (busy > cpus().length) {
      console.log(
        '\nThe machine is busy with other work; run this again when it is quiet before believing it.',
      );
    }
    return 0;
  } catch (error) {
    console.error(error instanceof Error ? error.message : String(error));
    return 1;
  }
}
