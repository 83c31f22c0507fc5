import { chromium, type Browser, type Page } from '@playwright/test';
import { spawn, type ChildProcess } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { browserProgram, entranceOf } from '../built-host.ts';
import { join, resolve } from 'node:path';
import { percentile, scrollFrames, type FrameTimes } from './frame-times.ts';
import { loadFile } from './load-files.ts';
import { ms, times, type BenchLine } from './report.ts';

const built = resolve(import.meta.dirname, '../../out/main/serve.js');
const FEW = 200;
const MANY = 10_000;
const ENTRIES_A_VESSEL = 7;
/** Milliseconds of a frame that its script, and that its painting, may take: the budget of the design. */
const BUDGET_MS = 6;
const SHARE = 0.95;
const FRAMES_A_TURN = 120;
const STEP_PX = 90;
/** The two ways of drawing in which also two hundred vessels fill more than a window. */
const DENSITIES = [
  ['roomy', '1'],
  ['close', '2'],
] as const;

/** What a frame costs while the shelves are scrolled in a real window, with ten thousand vessels and with two hundred. */
export async function frames(turns: number): Promise<BenchLine[]> {
  const what = 'a frame of scrolling';
  const executablePath = await browserProgram();
  if (!existsSync(built) || executablePath === undefined) {
    const why = existsSync(built) ? 'no browser' : 'not built';
    return [{ what, measured: why, beside: '', ratio: '', goal: `<= ${BUDGET_MS} ms`, met: false }];
  }
  const folder = mkdtempSync(join(tmpdir(), 'undercroft-bench-frames-'));
  const hosts: ChildProcess[] = [];
  let browser: Browser | undefined;
  try {
    const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
    browser = await chromium.launch({ executablePath, args });
    const pages: Page[] = [];
    for (const vessels of [MANY, FEW]) {
      const cellar = join(folder, `${vessels}.undercroft`);
      copyFileSync(loadFile(vessels, vessels * ENTRIES_A_VESSEL), cellar);
      const host = spawn(process.execPath, [built, '--ready-line', '--no-window', '--cellar', cellar], {
        stdio: ['ignore', 'pipe', 'inherit'],
        env: { ...process.env, XDG_DATA_HOME: folder },
      });
      hosts.push(host);
      const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
      const page = await context.newPage();
      await page.goto(await entranceOf(host));
      await page.locator('[role="gridcell"]:focus').waitFor();
      pages.push(page);
    }
    const lines: BenchLine[] = [];
    for (const [density, key] of DENSITIES) {
      const [many = [], few = []] = await inTurns(pages, key, turns);
      for (const kind of ['script', 'paint'] as const) {
        lines.push(
          line(`${what}, ${density}: ${kind}`, percentile(many, kind, SHARE), percentile(few, kind, SHARE)),
        );
      }
    }
    return lines;
  } finally {
    await browser?.close();
    for (const host of hosts) host.kill('SIGTERM');
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Scrolls the windows in turns, so that whatever else the machine does falls on both; the first turn warms up. */
async function inTurns(pages: readonly Page[], key: string, turns: number): Promise<FrameTimes[][]> {
  const measured: FrameTimes[][] = pages.map(() => []);
  for (const page of pages) {
    await page.locator('[role="gridcell"]:focus').press(key);
  }
  for (let turn = -1; turn < turns; turn += 1) {
    for (const [index, page] of pages.entries()) {
      await page.bringToFront();
      const taken = await scrollFrames(page, FRAMES_A_TURN, STEP_PX);
      if (turn >= 0) measured[index]?.push(...taken);
    }
  }
  return measured;
}

function line(what: string, manyMs: number, fewMs: number): BenchLine {
  return {
    what: `${what} at the 95th percentile, ${MANY} vessels`,
    ...{ measured: ms(manyMs), beside: `${ms(fewMs)} with ${FEW}`, ratio: times(manyMs / fewMs) },
    ...{ goal: `<= ${BUDGET_MS} ms`, met: manyMs <= BUDGET_MS },
  };
}
