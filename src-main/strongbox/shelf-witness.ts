import type { Database } from 'better-sqlite3';
import { getTableName } from 'drizzle-orm';
import { canonical } from '../cellar/check-cellar.ts';
import { RECORD_TABLES } from '../ledger/ledger.tables.ts';
import type { DamagedPages } from './damaged-pages.ts';
import type { Value } from './damaged-rows.ts';
import { numberedTexts, rowsUnder, tableRoots } from './damaged-tables.ts';

// What stood on the shelf follows from the book, so the old file tells most things twice. What the old shelf says of a line
// that came back must be what the new one says of it: otherwise one of the two was hit.

export interface Doubt {
  readonly sequence: number;
  readonly text: string;
}

const DOUBTS_TOLD = 200;

/** What stands in vessels and bottles follows from all that was poured before: it says nothing once a line is missing. */
const OF_ALL_BEFORE = new Set(['fill', 'flow', 'lot', 'stage_span', 'pull', 'strike', 'restatement']);

/** New numbers of lines by their old ones, and up to where no line is missing. */
export interface KeptNumbers {
  readonly newByOld: ReadonlyMap<number, number>;
  readonly unbrokenUpTo: number;
}

/** Holds the old file's records against the new ones. Says nothing when the old tables cannot be told apart. */
export function doubtsOf(
  pages: DamagedPages,
  into: Database,
  { newByOld, unbrokenUpTo }: KeptNumbers,
): Doubt[] {
  const doubts: Doubt[] = [];
  const add = (doubt: Doubt): void => {
    if (doubts.length < DOUBTS_TOLD) doubts.push(doubt);
  };
  const roots = tableRoots(pages);
  const oldByNew = new Map([...newByOld].map(([old, anew]) => [anew, old]));
  const sequenceOf = into.prepare('SELECT sequence FROM entry WHERE entry_id = ?').pluck();
  for (const table of Object.values(RECORD_TABLES).map(getTableName)) {
    const columns = columnsOf(into, table);
    const writer = columns.indexOf('written_by');
    const select = into.prepare(`SELECT * FROM "${table}" WHERE id = ?`).raw();
    for (const values of rowsUnder(pages, roots.get(table))) {
      const now = select.get(values[0]) as Value[] | undefined;
      if (values.length !== columns.length || now === undefined || now[writer] !== values[writer]) continue;
      const sequence = oldByNew.get(sequenceOf.get(values[writer]) as number);
      if (sequence === undefined || (OF_ALL_BEFORE.has(table) && sequence > unbrokenUpTo)) continue;
      for (const [index, column] of columns.entries()) {
        const [old, anew] = [sameForm(values[index]), sameForm(now[index])];
        if (old !== anew)
          add({ sequence, text: `${table} ${column}: ${old} on the old shelf, ${anew} by the book` });
      }
    }
  }
  const words = into.prepare('SELECT text FROM line_words WHERE rowid = ?').pluck();
  for (const [number, text] of numberedTexts(pages, roots.get('line_words_content'))) {
    const anew = newByOld.get(number);
    if (anew === undefined || words.get(anew) === text) continue;
    add({ sequence: number, text: `words: ${JSON.stringify(text)} in the old index` });
  }
  return doubts.sort((a, b) => a.sequence - b.sequence);
}

function columnsOf(into: Database, table: string): string[] {
  return (into.pragma(`table_info("${table}")`) as { name: string }[]).map(({ name }) => name);
}

/** Whole numbers and those with a point, and JSON in any order of its fields, are the same where they mean the same. */
function sameForm(value: Value | undefined): string {
  if (typeof value !== 'string' || !/^[[{]/u.test(value)) return JSON.stringify(value ?? null);
  try {
    return canonical(JSON.parse(value));
  } catch {
    return JSON.stringify(value);
  }
}
