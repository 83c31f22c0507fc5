import { killAtRandom, KILL_MOMENTS } from './kills.ts';
import { mutateBackups } from './mutations.ts';
import type { SoakLine } from './soak-report.ts';

export interface SoakGiven {
  readonly times: number;
  readonly seed: number;
  readonly folder: string;
}

function tell(what: string): (done: number) => void {
  return (done) => process.stdout.write(`\r${what}: ${done}  `);
}

/** The program killed at moments of chance. */
export async function soakKills({ times, seed, folder }: SoakGiven): Promise<SoakLine[]> {
  const report = await killAtRandom({
    kills: times,
    seed,
    folder,
    told: tell('kills'),
  });
  process.stdout.write('\n');
  const { lost, unreadable, notSound, halfDone } = report;
  const during = KILL_MOMENTS.map((moment) => `${report.kills[moment]} in ${moment}`).join(', ');
  const bad = [...lost, ...unreadable, ...notSound, ...halfDone];
  const counts = [
    `${report.acknowledged} lines acknowledged, ${lost.length} lost`,
    `${unreadable.length} files unreadable, ${notSound.length} unsound`,
    `${report.backups} backups whole, ${halfDone.length} half done`,
  ];
  return [{ what: `killed: ${during}`, times, became: counts.join('; '), bad: bad.length, badOnes: bad }];
}

/** Backups changed in every way, and restored. */
export async function soakMutations({ times, seed, folder }: SoakGiven): Promise<SoakLine[]> {
  const report = await mutateBackups({
    ...{ mutations: times, seed, folder, told: tell('mutations') },
  });
  process.stdout.write('\n');
  const { restoredOther, untyped, leftBehind } = report;
  const refused = Object.entries(report.refused).sort(([, a], [, b]) => b - a);
  const total = refused.reduce((sum, [, count]) => sum + count, 0);
  const bad = [...restoredOther, ...untyped, ...leftBehind];
  const counts = [
    `${total} refused (${refused.map(([type, count]) => `${count} ${type}`).join(', ')})`,
    `${report.restoredSame} restored the same, ${restoredOther.length} restored wrong`,
    `${untyped.length} untyped, ${leftBehind.length} left something behind`,
  ];
  return [{ what: 'backups changed', times, became: counts.join('; '), bad: bad.length, badOnes: bad }];
}
