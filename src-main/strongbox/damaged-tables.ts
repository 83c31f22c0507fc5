import type { DamagedPages } from './damaged-pages.ts';
import { childPages, rowsOfPage, type Value } from './damaged-rows.ts';

/** First pages of tables by their names, as the schema says, which begins on the first page. */
export function tableRoots(pages: DamagedPages): ReadonlyMap<string, number> {
  const roots = new Map<string, number>();
  for (const [type, name, , root] of rowsUnder(pages, 1)) {
    if (type === 'table' && typeof name === 'string' && typeof root === 'number') roots.set(name, root);
  }
  return roots;
}

/** Texts of a table that has a number and a text in each row. */
export function* numberedTexts(
  pages: DamagedPages,
  root: number | undefined,
): Generator<[number, string], void, void> {
  for (const { rowid, values } of leafRows(pages, root)) {
    const [, text] = values;
    if (typeof text === 'string') yield [rowid, text];
  }
}

/** Rows of the table whose tree begins on that page, as far as the tree can be followed. */
export function* rowsUnder(
  pages: DamagedPages,
  root: number | undefined,
): Generator<readonly Value[], void, void> {
  for (const { values } of leafRows(pages, root)) yield values;
}

function* leafRows(pages: DamagedPages, root: number | undefined) {
  const waiting = root === undefined ? [] : [root];
  const seen = new Set<number>();
  for (let page = waiting.pop(); page !== undefined; page = waiting.pop()) {
    const bytes = seen.has(page) ? undefined : pages.newest(page);
    seen.add(page);
    if (bytes === undefined) continue;
    waiting.push(...childPages(pages, { page, bytes }));
    yield* rowsOfPage(pages, { page, bytes }).rows;
  }
}
