import type { Clock, NewId } from '#core/base/ports.ts';
import type { CellarReader } from '#core/ledger/cellar-reader.ts';
import { openBookStore, type BookStore } from '../ledger/book-store.ts';
import { openFileReader } from '../ledger/file-reader.ts';
import { openRecordStore, type RecordStore } from '../ledger/record-store.ts';
import type { OpenCellar } from './open-cellar.ts';

/** An open cellar with its stores: what every service is handed. */
export interface CellarSession {
  readonly cellar: OpenCellar;
  readonly book: BookStore;
  readonly records: RecordStore;
  readonly reader: CellarReader;
  readonly clock: Clock;
  readonly newId: NewId;
}

export function openSession(cellar: OpenCellar, clock: Clock, newId: NewId): CellarSession {
  const book = openBookStore(cellar.sqlite);
  const records = openRecordStore(cellar.db);
  const reader = openFileReader(cellar.sqlite, records, book);
  return { cellar, book, records, reader, clock, newId };
}
