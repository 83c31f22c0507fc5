import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { soakCalls } from './soak/soak-calls.ts';
import { soakDisk, soakKills, soakMutations, soakOpenings, type SoakGiven } from './soak/soak-lines.ts';
import { soakTable, type SoakLine } from './soak/soak-report.ts';

// `npm run soak`: what the program promises to survive, done to it many times over, with the counts.

const HELP = `Does to Undercroft what it must survive, many times over, and prints what became of it.

  npm run soak
  npm run soak -- --calls 100000       hostile calls, through both hosts
  npm run soak -- --kills 1000         the program killed in the middle of its work
  npm run soak -- --mutations 10000    backups changed, and restored
  npm run soak -- --disk 60            steps of room on a full disk, for each thing that writes
  npm run soak -- --openings 20        two programs at once on one file
  npm run soak -- --seed 20261128      where chance begins; the same seed does the same
  npm run soak -- --only calls,kills,mutations,disk,openings
  npm run soak -- --help
`;

const PARTS: Readonly<Record<string, (given: SoakGiven) => Promise<SoakLine[]>>> = {
  calls: ({ times, seed, folder }) => soakCalls({ calls: times, seed, folder }),
  kills: soakKills,
  mutations: soakMutations,
  disk: soakDisk,
  openings: soakOpenings,
};

process.exitCode = await run();

async function run(): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'undercroft-soak-'));
  try {
    const { values } = parseArgs({
      options: {
        calls: { type: 'string', default: '100000' },
        kills: { type: 'string', default: '1000' },
        mutations: { type: 'string', default: '10000' },
        disk: { type: 'string', default: '60' },
        openings: { type: 'string', default: '20' },
        seed: { type: 'string', default: '20261128' },
        only: { type: 'string', default: Object.keys(PARTS).join(',') },
        help: { type: 'boolean', default: false },
      },
    });
    if (values.help) {
      console.log(HELP);
      return 0;
    }
    const times: Readonly<Record<string, number>> = {
      calls: count('calls', values.calls),
      kills: count('kills', values.kills),
      mutations: count('mutations', values.mutations),
      disk: count('disk', values.disk),
      openings: count('openings', values.openings),
    };
    const seed = count('seed', values.seed);
    const lines: SoakLine[] = [];
    for (const name of values.only.split(',')) {
      const part = PARTS[name];
      if (part === undefined) throw new Error(`--only takes ${Object.keys(PARTS).join(', ')}, with commas.`);
      lines.push(...(await part({ times: times[name] ?? 1, seed, folder: join(folder, name) })));
    }
    const machine = `Node ${process.versions.node} on ${process.platform}, ${cpus().length} processors`;
    console.log(`\n${machine}, seed ${seed}\n\n${soakTable(lines)}`);
    return lines.every(({ bad }) => bad === 0) ? 0 : 1;
  } catch (error) {
    console.error(error instanceof Error ? (error.stack ?? error.message) : String(error));
    return 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function count(name: string, typed: string): number {
  const number = Number(typed);
  if (!Number.isInteger(number) || number < 1 || number > 1_000_000_000) {
    throw new Error(`--${name} takes a whole number from 1 up.`);
  }
  return number;
}
