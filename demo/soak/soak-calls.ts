import { join } from 'node:path';
import { attackByCalls, type HostileReport } from './hostile-calls.ts';
import type { SoakLine } from './soak-report.ts';

/** A cellar grows while it is attacked; after so many calls a new one is begun, so that all of them stay quick. */
const CALLS_A_CELLAR = 5000;

/** Hostile calls through both hosts, on new cellars and on the sample, in turns. */
export async function soakCalls(given: {
  readonly calls: number;
  readonly seed: number;
  readonly folder: string;
}): Promise<SoakLine[]> {
  const lines: SoakLine[] = [];
  for (const through of ['http', 'pipe'] as const) {
    const all = given.calls / 2;
    const reports: HostileReport[] = [];
    for (let done = 0; done < all; done += CALLS_A_CELLAR) {
      const turn = reports.length;
      const report = await attackByCalls({
        ...{ through, sample: turn % 2 === 1, seed: given.seed + turn * 2 + (through === 'http' ? 0 : 1) },
        ...{
          calls: Math.ceil(Math.min(CALLS_A_CELLAR, all - done)),
          folder: join(given.folder, `${through}-${turn}`),
        },
      });
      reports.push(report);
      process.stdout.write(`\r${through}: ${Math.min(all, done + CALLS_A_CELLAR)} calls  `);
    }
    lines.push(lineOf(through, reports));
  }
  process.stdout.write('\n');
  return lines;
}

function lineOf(through: string, reports: readonly HostileReport[]): SoakLine {
  const sum = (of: (report: HostileReport) => number): number =>
    reports.reduce((all, report) => all + of(report), 0);
  const untyped = reports.flatMap((report) => report.untyped);
  const hung = reports.flatMap((report) => report.hung);
  const changed = reports.flatMap((report) => report.changedThoughRefused);
  const notSound = reports.flatMap((report) => report.notSound);
  const counts = [
    `${sum((r) => r.answered)} answered, ${sum((r) => r.refused)} refused, ${sum((r) => r.garbage)} no calls at all`,
    `${untyped.length} crashes or untyped, ${hung.length} hung`,
    `${changed.length} refused yet written, ${notSound.length} unsound at the end`,
  ];
  return {
    what: `hostile calls through ${through === 'http' ? 'the loopback host' : "the desktop's pipe"}`,
    times: sum((report) => report.calls),
    became: counts.join('; '),
    bad: untyped.length + hung.length + changed.length + notSound.length,
    badOnes: [...untyped, ...hung, ...changed, ...notSound],
  };
}
