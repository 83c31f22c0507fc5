import type { Act } from '#core/ledger/act.ts';
import { withContractions } from '#core/ledger/contraction.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import { openMemoryCellar, type MemoryCellar } from '#core/ledger/memory-cellar.ts';
import { postEntry } from '#core/ledger/post-entry.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import type { Outcome } from '#core/ledger/entry.ts';
import { err, ok, type Result } from '#core/base/result.ts';

/** Ids that read well in a failing test: the n-th of a kind. Version and variant nibbles make them valid UUIDs. */
export function idOf<T extends string>(kind: string, n: number): T {
  const kinds = ['place', 'shelf', 'vessel', 'batch', 'culture', 'entry'];
  const first = String(kinds.indexOf(kind) + 1).padStart(8, '0');
  return `${first}-0000-7000-8000-${String(n).padStart(12, '0')}` as T;
}

export const DAY = 86_400_000;
export const START = Date.UTC(2026, 8, 1);

/** A cellar in memory that acts are posted to, one day apart, with entry ids in order. */
export interface TestCellar {
  readonly cellar: MemoryCellar;
  post(act: Act, atMs?: number): Result<Outcome, LedgerError>;
  /** Posts acts that must be taken; returns the id of the last entry. */
  given(...acts: readonly Act[]): EntryId;
  refusal(act: Act, atMs?: number): LedgerError | null;
}

export function testCellar(): TestCellar {
  const cellar = openMemoryCellar();
  const nowMs = START + 10_000 * DAY;
  const post = (act: Act, atMs?: number): Result<Outcome, LedgerError> => {
    const count = cellar.entries.length;
    const happenedAtMs = atMs ?? START + count * DAY;
    const entryId = idOf<EntryId>('entry', count + 1);
    const outcome = postEntry(cellar, act, { entryId, happenedAtMs, nowMs });
    if (!outcome.ok) return err(outcome.error);
    const { postings } = outcome.value;
    const entry = { id: entryId, happenedAtMs, writtenAtMs: nowMs, postings, typed: {} };
    cellar.append({ ...entry, act: withContractions(act, outcome.value) }, outcome.value);
    return ok(outcome.value);
  };
  return {
    cellar,
    post,
    given(...acts) {
      for (const act of acts) {
        const posted = post(act);
        if (!posted.ok) throw new Error(`${act.kind} was refused: ${JSON.stringify(posted.error)}`);
      }
      return idOf<EntryId>('entry', cellar.entries.length);
    },
    refusal(act, atMs) {
      const posted = post(act, atMs);
      return posted.ok ? null : posted.error;
    },
  };
}

/** What the last entry posted, volumes only. */
export function volumesPosted(cellar: MemoryCellar): readonly { account: string; deltaUl: number }[] {
  return (cellar.entries.at(-1)?.postings ?? []).map(({ account, deltaUl }) => ({ account, deltaUl }));
}

export const LITRE = 1_000_000;

export function place(n = 1): Act {
  return { kind: 'addPlace', placeId: idOf('place', n), name: `Place ${n}`, note: '' };
}

export function shelf(n = 1, positions = 8): Act {
  const letter = String.fromCharCode(64 + n);
  return {
    kind: 'addShelf',
    shelfId: idOf('shelf', n),
    placeId: idOf('place', 1),
    name: `Shelf ${n}`,
    letter,
    positions,
  };
}

export function vessel(
  n: number,
  litres = 5,
  overrides: Partial<Extract<Act, { kind: 'addVessel' }>> = {},
): Act {
  return {
    ...{ kind: 'addVessel', vesselId: idOf('vessel', n), number: n, name: '', silhouette: 'demijohn' },
    ...{ capacityUl: litres * LITRE, mouth: 'narrow', material: 'glass', closure: 'airlock', note: '' },
    ...{ shelfId: null, position: null },
    ...overrides,
  };
}

export function batch(n: number, inVessel: number, litres: number): Act {
  return {
    ...{ kind: 'startBatch', batchId: idOf('batch', n), code: `AM-26-${String(n).padStart(3, '0')}` },
    ...{ name: `Apple must ${n}`, ferment: 'fruitVinegar', vesselId: idOf('vessel', inVessel) },
    ...{ volumeUl: litres * LITRE, stage: 'waiting', ingredients: [], measured: null, note: '' },
  };
}

export function mother(n: number, inVessel: number | null = null, litres = 1): Act {
  const standing =
    inVessel === null
      ? null
      : {
          ...{ vesselId: idOf('vessel', inVessel), volumeUl: litres * LITRE },
          ...{ batchId: idOf('batch', 100 + n), code: `OB-26-${String(n).padStart(3, '0')}` },
        };
  return {
    ...{
      kind: 'addCulture',
      cultureId: idOf('culture', n),
      name: `Mother ${n}`,
      sort: 'mother',
      source: '',
      note: '',
    },
    ...{ parentCultureId: null, standing },
  } as Act;
}

export function pour(from: number, to: number, litres: number, overrides: object = {}): Act {
  return {
    ...{ kind: 'transfer', fromVesselId: idOf('vessel', from), toVesselId: idOf('vessel', to) },
    ...{ volumeUl: litres * LITRE, leesUl: 0, newBatch: null, toStage: null },
    ...overrides,
  };
}
