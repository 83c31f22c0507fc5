import { ESLint } from 'eslint';
import { resolve } from 'node:path';
import { describe, expect, test } from 'vitest';

const root = resolve(import.meta.dirname, '../..');
const eslint = new ESLint({
  cwd: root,
  overrideConfigFile: 'tests/tidy/eslint.config.js',
  ruleFilter: ({ ruleId }) => ruleId === 'no-restricted-syntax',
});

/** What the linter says of one line, as if it stood in a file of the core. */
async function faults(line: string, filePath: string): Promise<number> {
  const [result] = await eslint.lintText(`${line}\n`, { filePath: resolve(root, filePath) });
  return result?.messages.filter(({ ruleId }) => ruleId === 'no-restricted-syntax').length ?? 0;
}

// The first look reads the types of the whole core, which takes long on a busy machine.
describe('the core is pure', { timeout: 120_000 }, () => {
  test.each([
    'export const a = Date.now();',
    'export const a = new Date();',
    'export const a = Date();',
    'export const a = Math.random();',
    'export const a = (1).toLocaleString();',
    'export const a = new Intl.NumberFormat();',
  ])('%s is refused', async (line) => {
    expect(await faults(line, 'src-core/base/result.ts')).toBe(1);
  });

  test.each(['export const a = new Date(0);', "export const a = new Intl.NumberFormat('en');"])(
    '%s is allowed',
    async (line) => {
      expect(await faults(line, 'src-core/base/result.ts')).toBe(0);
    },
  );

  test('the platform may look at the clock', async () => {
    expect(await faults('export const a = Date.now();', 'src-main/platform/system-clock.ts')).toBe(0);
  });
});
