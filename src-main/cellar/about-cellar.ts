import { randomUUID } from 'node:crypto';
import type { z } from 'zod';
import type { AboutCellar, FileRefusal, FirstShelves } from '#core/contract/cellar.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import { programVersion } from '../platform/program-version.ts';
import type { CellarServices } from './cellar-services.ts';

interface CellarRow {
  readonly name: string;
  readonly begun: number;
  readonly is_sample: number;
}

/** @param unopened why this is not the cellar that was asked for, but stands in for it */
export function aboutCellar(
  { session, houseRules }: CellarServices,
  unopened: FileRefusal | null = null,
): AboutCellar {
  const { sqlite, file, fileVersion } = session.cellar;
  const row = sqlite.prepare('SELECT name, begun, is_sample FROM cellar WHERE id = 1').get() as CellarRow;
  // A bare count is read off the tree's own pages; with any WHERE every row would be walked.
  const count = (table: string, where = ''): number =>
    sqlite.prepare(`SELECT COUNT(*) FROM ${table} ${where}`).pluck().get() as number;
  return {
    ...{ name: row.name, begun: row.begun === 1, isSample: row.is_sample === 1, file, readOnly: false },
    unopened,
    ...{ houseRules: houseRules.read(), entryCount: session.book.count() },
    ...{
      vesselCount: count('vessel', 'WHERE retired = 0'),
      batchCount: count('batch'),
      cultureCount: count('culture'),
    },
    ...{ lastWrittenAtMs: session.book.lastWrittenAtMs(), nowMs: session.clock() },
    ...{ programVersion, fileVersion },
  };
}

export interface Beginning {
  readonly name: string;
  readonly houseRules: HouseRules;
  readonly shelves: z.infer<typeof FirstShelves> | null;
}

/** Fills in the first page of a new cellar, first shelves included, in one transaction. False when it was begun before. */
export function beginCellar(services: CellarServices, beginning: Beginning): boolean {
  const { sqlite, refuseWriting } = services.session.cellar;
  refuseWriting();
  return sqlite
    .transaction((): boolean => {
      const begun = sqlite.prepare('SELECT begun FROM cellar WHERE id = 1').pluck().get() === 1;
      if (begun) return false;
      sqlite
        .prepare('UPDATE cellar SET name = ?, begun = 1, created_at_ms = ? WHERE id = 1')
        .run(beginning.name, services.session.clock());
      services.houseRules.settle(beginning.houseRules);
      if (beginning.shelves !== null) putUpShelves(services, beginning.shelves);
      return true;
    })
    .immediate();
}

function putUpShelves({ ledger }: CellarServices, first: z.infer<typeof FirstShelves>): void {
  const { placeName, shelfCount, positions } = first;
  const post = (act: Parameters<typeof ledger.post>[0]['act']) => {
    const posted = ledger.post({ requestId: randomUUID(), act, happenedAtMs: null, typed: {} });
    if (!posted.ok) throw new Error(`a first shelf was refused: ${posted.error.type}`);
    return posted.value.entry.act;
  };
  const place = post({ kind: 'addPlace', name: placeName, note: '' });
  if (place.kind !== 'addPlace') throw new Error('a place was asked for');
  for (let number = 1; number <= shelfCount; number += 1) {
    const name = shelfCount === 1 ? 'shelf' : (SHELF_NAMES[shelfCount]?.[number - 1] ?? `shelf ${number}`);
    post({ kind: 'addShelf', placeId: place.placeId, name, positions });
  }
}

/** What people call two, three or four shelves above one another. */
const SHELF_NAMES: Readonly<Record<number, readonly string[]>> = {
  2: ['top shelf', 'bottom shelf'],
  3: ['top shelf', 'middle shelf', 'floor shelf'],
  4: ['top shelf', 'upper shelf', 'lower shelf', 'floor shelf'],
};

export function renameCellar({ session }: CellarServices, name: string): void {
  session.cellar.refuseWriting();
  session.cellar.sqlite.prepare('UPDATE cellar SET name = ? WHERE id = 1').run(name);
}
