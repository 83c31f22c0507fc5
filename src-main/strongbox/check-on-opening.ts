import { setImmediate } from 'node:timers/promises';
import type { StrongboxEvent } from '#core/contract/strongbox.ts';
import type { CellarServices } from '../cellar/cellar-services.ts';
import { errorCode } from '../cellar/file-refused.ts';

type Fault = Extract<StrongboxEvent, { kind: 'check' }>['faults'][number];

export interface QuickCheck {
  readonly sound: boolean;
  readonly entries: number;
  readonly faults: readonly Fault[];
}

/** Lines at the end of the book that are read and added up: what was being written when a program was cut off. */
const LAST_LINES = 200;

/**
 * The quick check after a cellar was opened: every table's pages by SQLite's own quick check, one at a time with other calls
 * let through between, and the last lines of the book. Pictures, which are most of a large file, are left to the full check.
 *
 * @returns null when the cellar was closed meanwhile
 */
export async function checkOnOpening({ session }: CellarServices): Promise<QuickCheck | null> {
  const { cellar, book } = session;
  const { sqlite } = cellar;
  const faults: Fault[] = [];
  const tables = sqlite
    .prepare(`SELECT name FROM sqlite_schema WHERE type = 'table' AND sql NOT LIKE 'CREATE VIRTUAL%'`)
    .pluck()
    .all() as string[];
  for (const table of tables) {
    if (table === 'picture') continue;
    await setImmediate();
    if (cellar.closing.aborted) return null;
    try {
      const lines = sqlite.pragma(`quick_check("${table}")`) as { quick_check: string }[];
      for (const { quick_check: line } of lines) {
        if (line !== 'ok' && faults.length < 20) faults.push({ type: 'FileDamaged', detail: line });
      }
    } catch (error) {
      faults.push({ type: 'FileDamaged', detail: `${table}: ${errorCode(error)}` });
    }
  }
  if (cellar.closing.aborted) return null;
  let entries = 0;
  try {
    entries = book.count();
    const after = Math.max(0, entries - LAST_LINES);
    const read = book.page(after, LAST_LINES).length;
    if (read !== entries - after)
      faults.push({ type: 'CannotReplay', detail: `${entries - after - read} lines missing` });
  } catch (error) {
    faults.push({ type: 'CannotReplay', detail: `the last ${LAST_LINES} lines: ${errorCode(error)}` });
  }
  return { sound: faults.length === 0, entries, faults };
}
