import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import { availableParallelism } from 'node:os';
import { resolve } from 'node:path';
import { defineConfig } from 'vitest/config';

const root = resolve(import.meta.dirname, '..');

const everywhere = {
  env: { TZ: 'UTC' },
  setupFiles: ['tests/seed.ts'],
  // How long a test takes proves nothing: on a busy machine a thousand random cases may need their minute.
  testTimeout: 120_000,
  hookTimeout: 120_000,
  expect: { poll: { timeout: 15_000 } },
};

/** Core, main, contract, migrations and tidy run in plain Node; components of the page run in jsdom. */
export default defineConfig({
  test: {
    // All processors: by itself the runner leaves one of them idle, which on two is half.
    maxWorkers: availableParallelism(),
    projects: [
      {
        root,
        test: {
          name: 'node',
          environment: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/renderer/**', 'tests/journeys/**'],
          ...everywhere,
        },
      },
      {
        root,
        plugins: [svelte({ configFile: false }), svelteTesting()],
        test: {
          name: 'renderer',
          environment: 'jsdom',
          include: ['tests/renderer/**/*.test.ts'],
          ...everywhere,
          setupFiles: [...everywhere.setupFiles, 'tests/renderer/patience.ts'],
        },
      },
    ],
  },
});
