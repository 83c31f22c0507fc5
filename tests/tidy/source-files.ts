import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join, posix, resolve } from 'node:path';

const root = resolve(import.meta.dirname, '../..');
const notOurs = new Set(['node_modules', 'out', '.git', 'test-results', 'playwright-report']);

/** One file of the project, by its path from the root with forward slashes. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

/** Every file of the project whose name ends as one of these; all text files when none are named. */
export function projectFiles(endings: readonly string[]): SourceFile[] {
  return pathsUnder('')
    .filter((path) => endings.some((ending) => path.endsWith(ending)))
    .map((path) => ({ path, text: readFileSync(join(root, path), 'utf8') }));
}

/** Every folder and file of the project. */
export function projectPaths(): string[] {
  return pathsUnder('');
}

function pathsUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true })
    .filter((entry) => !notOurs.has(entry.name))
    .flatMap((entry) => {
      const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
      if (entry.isDirectory()) return pathsUnder(path);
      return entry.isFile() ? [path] : [];
    })
    .sort();
}

export interface Import {
  readonly from: string;
  /** The file's path from the root, or the package's name as it was written. */
  readonly to: string;
  readonly isPackage: boolean;
}

const specifier =
  /(?:^|[\n;}>])\s*(?:import|export)\s(?:[^'";]*?\sfrom\s)?\s*['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)/g;

/** What a file imports, types included, resolved by the project's own rules. */
export function importsOf({ path, text }: SourceFile): Import[] {
  return [...text.matchAll(specifier)].flatMap((match): Import[] => {
    const said = match[1] ?? match[2];
    if (said === undefined) return [];
    const [plain = said] = said.split('?');
    if (plain.startsWith('.')) {
      return [{ from: path, to: posix.join(dirname(path), plain), isPackage: false }];
    }
    const layer = /^#(core|main|renderer)\/(.*)$/.exec(plain);
    return layer === null
      ? [{ from: path, to: plain, isPackage: true }]
      : [{ from: path, to: `src-${layer[1] ?? ''}/${layer[2] ?? ''}`, isPackage: false }];
  });
}
