import { createRouterClient } from '@orpc/server';
import { randomUUID } from 'node:crypto';
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ReadingValues } from '#core/ledger/act.ts';
import { compose } from '../../src-main/compose.ts';
import { SAMPLE_NOW_MS } from '../sample-cellar.ts';
import { openBareRow, openSameRows, rowsOfNewestEntry } from './bare-transactions.ts';
import { loadFile } from './load-files.ts';
import { ms, times, type BenchLine } from './report.ts';
import { sideBySide } from './side-by-side.ts';

const GOAL = 1.25;

/**
 * A reading written through the whole service, as a window's own call goes, beside two bare transactions on the same
 * disk with the same settings: one row of as many bytes, and the very rows that the service wrote.
 */
export async function durableEntry(rounds: number): Promise<BenchLine[]> {
  const folder = mkdtempSync(join(tmpdir(), 'undercroft-bench-entry-'));
  const closing: (() => void)[] = [];
  try {
    const cellar = join(folder, 'cellar.undercroft');
    const twin = join(folder, 'twin.undercroft');
    copyFileSync(loadFile(200, 10_000), cellar);
    const once = await openReadings(cellar, folder);
    await once.record();
    once.close();
    copyFileSync(cellar, twin);
    const rows = rowsOfNewestEntry(twin);

    const service = await openReadings(cellar, folder);
    closing.push(service.close);
    const bare = openBareRow(join(folder, 'bare.sqlite'), rows.bytes);
    closing.push(bare.close);
    const same = openSameRows(twin, rows);
    closing.push(same.close);
    const [serviceMs = NaN, bareMs = NaN, sameMs = NaN] = await sideBySide(
      [service.record, bare.write, same.write],
      { rounds, warmUp: Math.ceil(rounds / 4) },
    );
    return [
      {
        what: 'a durable entry through the whole service',
        ...{ measured: ms(serviceMs), beside: `${ms(bareMs)} bare, one row of ${rows.bytes} bytes` },
        ...{ ratio: times(serviceMs / bareMs), goal: `<= ${GOAL}x`, met: serviceMs / bareMs <= GOAL },
      },
      {
        what: '  the same, beside the very rows it writes',
        ...{ measured: ms(serviceMs), beside: `${ms(sameMs)} bare, ${rows.count} rows, same tables` },
        ...{ ratio: times(serviceMs / sameMs), goal: '', met: null },
      },
      {
        what: '  what the service adds to the bare transaction',
        measured: ms(serviceMs - bareMs),
        beside: `${GOAL}x where a bare one takes ${ms((serviceMs - bareMs) / (GOAL - 1))}`,
        ...{ ratio: '', goal: '', met: null },
      },
    ];
  } finally {
    for (const close of closing.reverse()) close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** An open cellar into whose vessels, each in turn, one reading at a time is recorded by the router's own client. */
async function openReadings(
  cellar: string,
  dataFolder: string,
): Promise<{ record: () => Promise<void>; close: () => void }> {
  const undercroft = compose({ cellar, dataFolder, clock: () => SAMPLE_NOW_MS });
  const client = createRouterClient(undercroft.router);
  const filled = await client.shelves.choose({ wanted: 'filled', text: '', limit: 100 });
  let recorded = 0;
  return {
    async record() {
      const vessel = filled[recorded % filled.length];
      if (vessel === undefined) throw new Error('the load cellar has no filled vessel');
      recorded += 1;
      await client.ledger.post({
        ...{ requestId: randomUUID(), happenedAtMs: null, typed: { quick: '1.012 19C' } },
        act: { kind: 'recordReading', vesselId: vessel.vesselId, values: READING },
      });
    },
    close: () => {
      undercroft.close();
    },
  };
}

const READING: ReadingValues = {
  ...{ gravitySg: 1.012, gravityInstrument: 'hydrometer', gravityCalibrationCelsius: 20 },
  ...{ temperatureCelsius: 19, ph: null, phMethod: null, acidityGramsPer100Ml: null, acidityAs: null },
  ...{ acidityMethod: null, acidityUncertainty: null, volumeUl: null, freeSulfiteMgPerL: null },
  ...{ alcoholPercentVolume: null, taste: '' },
};
