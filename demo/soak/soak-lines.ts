import { killAtRandom, KILL_MOMENTS } from './kills.ts';
import { mutateBackups } from './mutations.ts';
import { fillDisk, smallDisk } from './full-disk.ts';
import { openEarlier, raceForOneFile } from './openings.ts';
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

/** Everything that writes, with ever so much more room on a disk of its own. */
export async function soakDisk({ times, seed, folder }: SoakGiven): Promise<SoakLine[]> {
  const what = 'done on a full disk';
  const disk = smallDisk(folder);
  if (disk === null)
    return [{ what, times: 0, became: 'not tried: this account may mount no small disk', bad: 0 }];
  try {
    const { tries, refused, done, ...rest } = await fillDisk(disk, seed, times);
    const bad = [...rest.untyped, ...rest.halfDone, ...rest.notAgain, ...rest.notSound];
    const counts = [
      `${refused} refused as a full disk, ${done} done`,
      `${rest.untyped.length} untyped, ${rest.halfDone.length} half done`,
      `${rest.notAgain.length} not done once there was room, ${rest.notSound.length} unsound`,
    ];
    return [{ what, times: tries, became: counts.join('; '), bad: bad.length, badOnes: bad }];
  } finally {
    disk.remove();
  }
}

/** Cellars of every earlier version, and two programs that want one file. */
export async function soakOpenings({ times, folder }: SoakGiven): Promise<SoakLine[]> {
  const earlier = await openEarlier(`${folder}-earlier`);
  const races = await raceForOneFile(`${folder}-races`, times);
  return [
    {
      what: 'cellars of earlier versions opened',
      times: earlier.files,
      became: `${earlier.lines} lines kept, ${earlier.bad.length} unsound`,
      ...{ bad: earlier.bad.length, badOnes: earlier.bad },
    },
    {
      what: 'two programs at once on one file',
      times,
      became: `${times - races.length} times one had it and the other said so`,
      ...{ bad: races.length, badOnes: races },
    },
  ];
}
