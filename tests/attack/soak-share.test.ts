import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { killAtRandom } from '../../demo/soak/kills.ts';
import { mutateBackups } from '../../demo/soak/mutations.ts';
import { raceForOneFile } from '../../demo/soak/openings.ts';
import { scratchFolder } from '../main/desk-for-tests.ts';

// A small fixed share of what `npm run soak` does a thousand times.

const scratch = scratchFolder();
afterAll(() => {
  scratch.remove();
});

test('the built program, killed in the middle of its work, has every line it acknowledged', async () => {
  const shares = { acts: 40, opening: 15, migration: 15, backup: 15, restore: 15 };
  const report = await killAtRandom({ kills: 4, seed: 7, folder: join(scratch.folder, 'kills'), shares });
  expect(report).toMatchObject({ lost: [], unreadable: [], notSound: [], halfDone: [] });
  expect(report.acknowledged).toBeGreaterThan(0);
}, 120_000);

test('a backup that was changed is refused, or gives the very same cellar', async () => {
  const report = await mutateBackups({
    ...{ mutations: 40, seed: 20_261_128, folder: join(scratch.folder, 'mutations') },
  });
  expect(report).toMatchObject({ restoredOther: [], untyped: [], leftBehind: [] });
  expect(Object.keys(report.refused).length).toBeGreaterThan(2);
}, 120_000);

test('two programs that open one file at once: one has it, the other says so and ends', async () => {
  expect(await raceForOneFile(join(scratch.folder, 'two'), 1)).toEqual([]);
}, 120_000);
