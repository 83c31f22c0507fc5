import { readdirSync, utimesSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { passingName } from '#main/cellar/write-aside.ts';
import { sweepPassing } from '#main/strongbox/sweep-passing.ts';
import { DAY, NOW, scratchFolder } from '../desk-for-tests.ts';

const scratch = scratchFolder();
afterAll(() => {
  scratch.remove();
});

it('throws away what a cut-off backup left days ago, and nothing that is a backup or being written', () => {
  const put = (name: string, ageMs: number): string => {
    const file = join(scratch.folder, name);
    writeFileSync(file, 'x');
    utimesSync(file, new Date(NOW - ageMs), new Date(NOW - ageMs));
    return name;
  };
  const passing = () => basename(passingName(join(scratch.folder, 'Cellar.undercroft-backup')));
  const old = passing();
  put(old, 2 * DAY);
  put(`${old}-journal`, 2 * DAY);
  const kept = [put(passing(), 60_000), put('Cellar.undercroft-backup', 9 * DAY), put('my.partial', 9 * DAY)];
  sweepPassing(scratch.folder, NOW);
  sweepPassing(join(scratch.folder, 'not there'), NOW);
  expect(readdirSync(scratch.folder).sort()).toEqual(kept.sort());
});
