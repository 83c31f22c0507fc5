import { defineConfig } from '@playwright/test';
import { findBrowser } from '../../src-main/bootstrap/find-browser.mjs';

const browser = findBrowser({ platform: process.platform, env: process.env });
const isRoot = process.getuid?.() === 0;

/** Journeys go through the loopback host as a person would, each with a program and a cellar of its own. */
export default defineConfig({
  testDir: '.',
  testMatch: '**/*.journey.ts',
  globalSetup: './tell-sample-once.ts',
  outputDir: '../../test-results/journeys',
  fullyParallel: true,
  workers: 2,
  // A second look, since a busy machine may keep a window waiting; `npm test` names each journey that needed it.
  retries: 1,
  forbidOnly: Boolean(process.env['CI']),
  timeout: 180_000,
  expect: { timeout: 10_000 },
  use: {
    browserName: 'chromium',
    viewport: { width: 1280, height: 800 },
    actionTimeout: 15_000,
    locale: 'en-GB',
    timezoneId: 'UTC',
    screenshot: 'only-on-failure',
    // Recording every step makes each journey half as long again; `UNDERCROFT_TRACE=1` records those that fail.
    trace: process.env['UNDERCROFT_TRACE'] === undefined ? 'off' : 'retain-on-failure',
    launchOptions: {
      ...(browser === undefined ? {} : { executablePath: browser }),
      args: isRoot ? ['--no-sandbox'] : [],
    },
  },
});
