import { createRouterClient } from '@orpc/server';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Grouping } from '#core/contract/shelves.ts';
import { compose, type Undercroft } from '../../src-main/compose.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import { loadFile } from './load-files.ts';
import { ms, times, type BenchLine } from './report.ts';
import { sideBySide } from './side-by-side.ts';

const VESSELS = [100, 1000, 10_000] as const;
const ENTRIES_A_VESSEL = 7;
const FIRST_PAGE = 60;
const PAGE_GOAL = 1.2;
const today = { startMs: SAMPLE_NOW_MS, endMs: SAMPLE_NOW_MS + 86_400_000 };

/** The shelf's overview and its first screenful with a hundred, a thousand and ten thousand vessels. */
export async function shelfSize(rounds: number): Promise<BenchLine[]> {
  const folder = mkdtempSync(join(tmpdir(), 'undercroft-bench-shelf-'));
  const opened: Undercroft[] = [];
  try {
    const clients = VESSELS.map((vessels) => {
      const cellar = join(folder, `${vessels}.undercroft`);
      copyFileSync(loadFile(vessels, vessels * ENTRIES_A_VESSEL), cellar);
      const undercroft = compose({ cellar, dataFolder: folder, clock: () => SAMPLE_NOW_MS });
      opened.push(undercroft);
      return createRouterClient(undercroft.router);
    });
    const settings = { rounds, warmUp: Math.ceil(rounds / 4) };
    const overviews = await sideBySide(
      clients.map((client) => () => client.shelves.overview({ grouping: 'place', today })),
      settings,
    );
    const lines = growth('the shelf in overview, by place', overviews);
    for (const grouping of ['place', 'stage', 'due'] as const) {
      const pages = await sideBySide(
        await Promise.all(clients.map((client) => firstPage(client, grouping))),
        settings,
      );
      lines.push(independence(`its first page of ${FIRST_PAGE}, by ${grouping}`, pages));
    }
    return lines;
  } finally {
    for (const undercroft of opened) undercroft.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

type Client = ReturnType<typeof createRouterClient<Undercroft['router'], Record<never, never>>>;

/**
 * The first page of a full shelf, or of the largest stage or due group: the one that would cost most if a page cost
 * more than it shows.
 */
async function firstPage(client: Client, grouping: Grouping): Promise<() => Promise<unknown>> {
  const { groups } = await client.shelves.overview({ grouping, today });
  const [largest] = [...groups].sort((a, b) => b.vesselCount - a.vesselCount);
  const key = (grouping === 'place' ? groups[0] : largest)?.key ?? '';
  return () => client.shelves.page({ grouping, key, today, offset: 0, limit: FIRST_PAGE });
}

/** Linear growth is ten times the time for ten times the vessels. */
function growth(what: string, mediansMs: readonly number[]): BenchLine[] {
  return VESSELS.slice(1).map((vessels, index) => {
    const earlier = VESSELS[index] ?? 1;
    const [before = NaN, now = NaN] = mediansMs.slice(index, index + 2);
    const linear = vessels / earlier;
    return {
      what: `${what}: ${vessels} vessels`,
      ...{ measured: ms(now), beside: `${ms(before)} with ${earlier}`, ratio: times(now / before) },
      ...{ goal: `<= ${linear}x (linear)`, met: now / before <= linear },
    };
  });
}

function independence(what: string, mediansMs: readonly number[]): BenchLine {
  const [, some = NaN, many = NaN] = mediansMs;
  return {
    what: `${what}: ${VESSELS[2]} vessels`,
    ...{ measured: ms(many), beside: `${ms(some)} with ${VESSELS[1]}`, ratio: times(many / some) },
    ...{ goal: `<= ${PAGE_GOAL}x (same)`, met: many / some <= PAGE_GOAL },
  };
}
