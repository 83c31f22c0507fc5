import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The version in the nearest package.json above this file: the source tree's, or that of the packaged program. */
export const programVersion: string = findVersion(import.meta.dirname);

function findVersion(from: string): string {
  for (let folder = from, up = 0; up < 6; folder = dirname(folder), up += 1) {
    try {
      const found = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as {
        name?: string;
        version?: string;
      };
      if (found.name === 'undercroft' && found.version !== undefined) return found.version;
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'ENOENT')) throw error;
    }
  }
  return 'unknown';
}
