import type { Database } from 'better-sqlite3';
import type { NewId } from '#core/base/ports.ts';
import { withMasses } from '#core/ferments/assay.ts';
import type { Act, ActDraft } from '#core/ledger/act.ts';
import type { BatchId, CultureId, FilterId, PlaceId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import type { FermentKind } from '#core/ledger/stage.ts';
import { foldForSearch } from '../find/fold-for-search.ts';

/** Gives a draft the ids, numbers, letters and codes of what it creates: the next free ones at this moment. */
export interface DraftCompleter {
  /** Codes that were given out since the book was last written are told in `given`, and a new one is noted there. */
  complete(draft: ActDraft, happenedAtMs: number, given?: string[]): Act;
}

export function openDraftCompleter(sqlite: Database, newId: NewId): DraftCompleter {
  const highestNumber = sqlite.prepare('SELECT MAX(number) FROM vessel').pluck();
  const letters = sqlite.prepare('SELECT letter FROM shelf').pluck();
  const codes = sqlite
    .prepare(
      `SELECT MAX(CAST(substr(code, length(@start) + 1) AS INTEGER)) FROM batch
              WHERE code >= @start AND code < @start || 'a'`,
    )
    .pluck();
  const nextCode = (name: string, happenedAtMs: number, given: string[]): string => {
    const start = `${initials(name)}-${String(new Date(happenedAtMs).getFullYear() % 100).padStart(2, '0')}-`;
    let number = (codes.get({ start }) as number | null) ?? 0;
    for (;;) {
      number += 1;
      const code = `${start}${String(number).padStart(3, '0')}`;
      if (given.includes(code)) continue;
      given.push(code);
      return code;
    }
  };
  const begun = (
    draft: { readonly name: string; readonly ferment: FermentKind } | null,
    happenedAtMs: number,
    given: string[],
  ) =>
    draft === null
      ? null
      : { ...draft, batchId: newId() as BatchId, code: nextCode(draft.name, happenedAtMs, given) };
  return {
    complete(draft, happenedAtMs, given = []) {
      switch (draft.kind) {
        case 'addPlace':
          return { ...draft, placeId: newId() as PlaceId };
        case 'addShelf':
          return { ...draft, shelfId: newId() as ShelfId, letter: nextLetter(letters.all() as string[]) };
        case 'addVessel': {
          const number = ((highestNumber.get() as number | null) ?? 0) + 1;
          return { ...draft, vesselId: newId() as VesselId, number };
        }
        case 'addCulture': {
          const { standing } = draft;
          const cultureId = newId() as CultureId;
          if (standing === null) return { ...draft, cultureId, standing };
          const code = nextCode(draft.name, happenedAtMs, given);
          return { ...draft, cultureId, standing: { ...standing, batchId: newId() as BatchId, code } };
        }
        case 'keepBatchFilter':
          return { ...draft, filterId: newId() as FilterId };
        case 'startBatch':
          return withMasses({
            ...{ ...draft, batchId: newId() as BatchId },
            code: nextCode(draft.name, happenedAtMs, given),
          });
        case 'addTo':
          return withMasses(draft);
        case 'transfer':
          return { ...draft, newBatch: begun(draft.newBatch, happenedAtMs, given) };
        case 'blend':
          return { ...draft, newBatch: begun(draft.newBatch, happenedAtMs, given) };
        case 'drawAndRefill':
          return { ...draft, newBatch: begun(draft.newBatch, happenedAtMs, given) };
        case 'split': {
          const parts = draft.parts.map((part) => ({
            ...part,
            newBatch: begun(part.newBatch, happenedAtMs, given),
          }));
          return { ...draft, parts };
        }
        default:
          return draft;
      }
    },
  };
}

/** Two letters from a name's first words: "Apple vinegar" gives AV, "Perry" gives PE, a name without Latin letters UC. */
export function initials(name: string): string {
  const words = foldForSearch(name)
    .toUpperCase()
    .split(/[^A-Z]+/)
    .filter((word) => word !== '');
  const [first, second] = words;
  if (first === undefined) return 'UC';
  if (second !== undefined) return `${first.charAt(0)}${second.charAt(0)}`;
  return first.length > 1 ? first.slice(0, 2) : `${first}X`;
}

/** A, B, … Z, AA, AB, …: the first letter no shelf has. */
export function nextLetter(taken: readonly string[]): string {
  const used = new Set(taken);
  for (let index = 0; ; index += 1) {
    const letter = letterAt(index);
    if (!used.has(letter)) return letter;
  }
}

function letterAt(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : `${String.fromCharCode(64 + Math.floor(index / 26))}${last}`;
}
