import { createRouterClient } from '@orpc/server';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test, vi } from 'vitest';
import { compose } from '#main/compose.ts';
import { SAMPLE_NOW_MS } from '../../demo/sample-cellar.ts';
import { buildLoadCellar, type LoadSize } from '../../demo/ten-thousand-vessels.ts';

// Building some thousand lines takes its time on a machine with other work.
vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(join(tmpdir(), 'undercroft-load-test-'));
const today = { startMs: SAMPLE_NOW_MS, endMs: SAMPLE_NOW_MS + 86_400_000 };

afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

async function built(name: string, size: LoadSize) {
  const cellar = join(folder, `${name}.undercroft`);
  buildLoadCellar(cellar, size);
  const undercroft = compose({ cellar, dataFolder: folder, clock: () => SAMPLE_NOW_MS });
  try {
    const client = createRouterClient(undercroft.router);
    const overview = await client.shelves.overview({ grouping: 'place', today });
    const pages = await Promise.all(
      overview.groups.map(({ key }) =>
        client.shelves.page({ grouping: 'place', key, today, offset: 0, limit: 60 }),
      ),
    );
    const check = await client.cellar.check();
    let step = await check.next();
    while (step.done !== true) step = await check.next();
    return { overview, rows: pages.flatMap((page) => page.rows), report: step.value };
  } finally {
    undercroft.close();
  }
}

test('a made-up cellar has the size asked for, and its shelf follows from its book', async () => {
  const { overview, report } = await built('first', { vessels: 130, entries: 3000 });
  expect(report).toEqual({ sound: true, entries: 3000, faults: [] });
  expect(overview.vesselCount).toBe(130);
  expect(overview.groups.map((group) => group.letter)).toEqual(['A', 'B', 'C', 'D', null]);
  expect(overview.countsByStage.empty).toBeGreaterThan(5);
  expect(Object.values(overview.countsByStage).filter((count) => count > 0).length).toBeGreaterThanOrEqual(7);
});

test('the same size and seed give the same cellar, ids included; another seed another', async () => {
  const size = { vessels: 40, entries: 400 };
  const [one, same, other] = [
    await built('one', size),
    await built('same', size),
    await built('other', { ...size, seed: 7 }),
  ];
  expect(same.rows).toEqual(one.rows);
  expect(other.rows).not.toEqual(one.rows);
});

test('a file that is there is never written over', () => {
  const cellar = join(folder, 'kept.undercroft');
  buildLoadCellar(cellar, { vessels: 1, entries: 4 });
  expect(() => {
    buildLoadCellar(cellar, { vessels: 1, entries: 4 });
  }).toThrow('is there already');
});
