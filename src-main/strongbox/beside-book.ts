import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';

/**
 * Checksum of what a cellar keeps beside its book: its name, its House Rules, what the Label Desk remembers. Pictures need none,
 * since each is kept with a line of the book.
 */
export function besideBook(sqlite: Database): string {
  const kept = sqlite.prepare('SELECT name, house_rules FROM cellar WHERE id = 1').raw().get();
  return createHash('sha256').update(JSON.stringify(kept)).digest('hex');
}
