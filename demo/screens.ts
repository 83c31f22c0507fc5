import { chromium, type Browser, type Page } from '@playwright/test';
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { browserProgram, entranceOf } from './built-host.ts';

// `npm run screens`: the pictures of the README, taken in a real window of the sample cellar.

const root = resolve(import.meta.dirname, '..');
const pictures = join(import.meta.dirname, 'pictures');
const built = join(root, 'out/main/serve.js');
const SIZE = { width: 1280, height: 800 };
const SHOWN = 'Apple vinegar 3';

process.exitCode = await run();

async function run(): Promise<number> {
  if (!existsSync(built)) {
    console.error('Undercroft is not built yet. "npm run build" builds it.');
    return 1;
  }
  const executablePath = await browserProgram();
  if (executablePath === undefined) {
    console.error('No Chromium-family browser was found. Install one, or name it in UNDERCROFT_BROWSER.');
    return 1;
  }
  const host = spawn(process.execPath, [built, '--demo', '--no-window', '--ready-line'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let browser: Browser | undefined;
  try {
    const entrance = await entranceOf(host);
    const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
    browser = await chromium.launch({ executablePath, args });
    const page = await browser.newPage({
      ...{
        viewport: SIZE,
        reducedMotion: 'reduce',
        colorScheme: 'light',
        locale: 'en-GB',
        timezoneId: 'UTC',
      },
    });
    await page.goto(entrance);
    mkdirSync(pictures, { recursive: true });
    await takeShelf(page);
    await takeLeaf(page);
    return 0;
  } finally {
    await browser?.close();
    host.kill('SIGTERM');
  }
}

async function takeShelf(page: Page): Promise<void> {
  const vessel = page.getByRole('gridcell', { name: new RegExp(SHOWN) }).first();
  await vessel.waitFor();
  await vessel.click();
  await take(page, 'shelf-light');
  await page.emulateMedia({ colorScheme: 'dark' });
  await take(page, 'shelf-dark');
  await page.emulateMedia({ colorScheme: 'light' });
}

async function takeLeaf(page: Page): Promise<void> {
  await page.getByRole('complementary').getByText('Open leaf').click();
  await page.getByRole('heading', { level: 1, name: SHOWN }).waitFor();
  await take(page, 'leaf');
}

/** Waits until fonts are there and nothing more is drawn. */
async function take(page: Page, name: string): Promise<void> {
  await page.evaluate('document.fonts.ready.then(() => undefined)');
  await page.waitForTimeout(400);
  const path = join(pictures, `${name}.png`);
  await page.screenshot({ path });
  console.log(path);
}
