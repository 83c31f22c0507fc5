import { readFileSync, readdirSync } from 'node:fs';
import { extname, join } from 'node:path';

/** One file of the built page. */
export interface PageFile {
  readonly contentType: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Finds a file of the page by the path in its address, which begins with a slash; undefined when there is none. */
export type PageFiles = (path: string) => PageFile | undefined;

const contentTypes = new Map([
  ['.html', 'text/html; charset=utf-8'],
  ['.js', 'text/javascript; charset=utf-8'],
  ['.css', 'text/css; charset=utf-8'],
  ['.json', 'application/json'],
  ['.svg', 'image/svg+xml'],
  ['.png', 'image/png'],
  ['.ico', 'image/x-icon'],
  ['.woff2', 'font/woff2'],
  ['.woff', 'font/woff'],
  ['.wasm', 'application/wasm'],
]);

/**
 * The files of the built page. The folder is listed once and an address is only ever looked up in that list, so no
 * address, however written, can name a file outside it.
 *
 * @param folder of the built page, with `index.html` in it
 */
export function pageFilesIn(folder: string): PageFiles {
  const files = new Map<string, string>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const full = join(entry.parentPath, entry.name);
    files.set(full.slice(folder.length).replaceAll('\\', '/'), full);
  }
  return (path) => {
    const file = files.get(path === '/' ? '/index.html' : path);
    if (file === undefined) return undefined;
    return {
      contentType: contentTypes.get(extname(file)) ?? 'application/octet-stream',
      bytes: new Uint8Array(readFileSync(file)),
    };
  };
}
