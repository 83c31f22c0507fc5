import { afterAll, describe, expect, test } from 'vitest';
import { attackByCalls, type HostileOptions } from '../../demo/soak/hostile-calls.ts';
import { scratchFolder } from '../main/desk-for-tests.ts';

// A small fixed share of what `npm run soak` sends by the hundred thousand.

const scratch = scratchFolder();
afterAll(() => {
  scratch.remove();
});

const attacks: readonly Omit<HostileOptions, 'folder'>[] = [
  { through: 'http', sample: false, calls: 600, seed: 20_261_128 },
  { through: 'http', sample: true, calls: 400, seed: 20_261_129 },
  { through: 'pipe', sample: false, calls: 600, seed: 20_261_130 },
  { through: 'pipe', sample: true, calls: 600, seed: 20_261_131 },
];

describe('every method, called with input that fits, input that was broken, and no input at all', () => {
  test.each(attacks)(
    'through $through, a sample cellar: $sample',
    async (attack) => {
      const folder = `${scratch.folder}/${attack.seed}`;
      const report = await attackByCalls({ ...attack, folder });
      expect(report).toMatchObject({ untyped: [], hung: [], changedThoughRefused: [], notSound: [] });
      expect(report.answered + report.refused + report.garbage).toBe(attack.calls);
      expect(report.answered).toBeGreaterThan(attack.calls / 10);
      expect(report.refused).toBeGreaterThan(attack.calls / 4);
    },
    120_000,
  );
});
