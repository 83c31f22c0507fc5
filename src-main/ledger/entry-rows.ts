import type { Database } from 'better-sqlite3';
import type { EntryRow } from '#core/contract/ledger.ts';
import type { Act } from '#core/ledger/act.ts';
import type { RecordStore } from './record-store.ts';
import type { BookStore, StoredEntry } from './book-store.ts';

/** Dresses a line of the book for the screens: names of what it speaks of, whether it is struck, what it reversed. */
export interface EntryRows {
  of(entry: StoredEntry): EntryRow;
}

type Names = Record<string, string>;

export function openEntryRows(sqlite: Database, records: RecordStore, book: BookStore): EntryRows {
  const subjectBatches = sqlite
    .prepare(`SELECT subject_id FROM entry_subject WHERE sequence = ? AND kind = 'batch'`)
    .pluck();

  const correcting = sqlite
    .prepare(
      `SELECT entry_id FROM entry WHERE kind = 'restate' AND act LIKE '%' || ? || '%'
         AND NOT EXISTS (SELECT 1 FROM strike WHERE strike.id = entry.entry_id) ORDER BY sequence DESC LIMIT 1`,
    )
    .pluck();

  const vesselLabel = (id: string): string | null => {
    const vessel = records.get('vessel', id);
    if (vessel === null) return null;
    if (vessel.name !== '') return vessel.name;
    const shelf = vessel.shelfId === null ? null : records.get('shelf', vessel.shelfId);
    return shelf === null || vessel.position === null
      ? `#${vessel.number}`
      : `${shelf.letter}${vessel.position}`;
  };

  /** The batch an entry was about: that of the record it wrote, or the only one it touched. */
  const batchOf = (entry: StoredEntry): string | null => {
    const written =
      records.get('reading', entry.id) ?? records.get('lot', entry.id) ?? records.get('pull', entry.id);
    if (written !== null) return written.batchId;
    const touched = subjectBatches.all(entry.sequence) as string[];
    return touched.length === 1 ? (touched[0] ?? null) : null;
  };

  const namesOf = (entry: StoredEntry): Names => {
    const names: Names = {};
    const { act } = entry;
    const batchId = batchOf(entry);
    const batchName = batchId === null ? null : (records.get('batch', batchId)?.name ?? null);
    for (const id of idsIn(act)) {
      const label = vesselLabel(id);
      if (label !== null) {
        const speaksOfLiquid = batchName !== null && id === liquidVesselId(act);
        names[id] = speaksOfLiquid ? `${batchName} (${label})` : label;
        continue;
      }
      const named = records.get('batch', id) ?? records.get('culture', id) ?? records.get('place', id);
      const lot = records.get('lot', id);
      if (named !== null) names[id] = named.name;
      else if (lot !== null) names[id] = records.get('batch', lot.batchId)?.name ?? '';
      else {
        const shelf = records.get('shelf', id);
        if (shelf !== null)
          names[id] = shelfName(shelf.name, records.get('place', shelf.placeId)?.name ?? null);
      }
    }
    return names;
  };

  const restated = (entry: StoredEntry): EntryRow['restated'] => {
    const record = records.get('restatement', entry.id);
    if (record === null) return null;
    const { act, happenedAtMs, writtenBy } = record;
    const by = correctionOf(entry.id, writtenBy);
    const when = { correctedAtMs: by?.atMs ?? entry.writtenAtMs, reason: by?.reason ?? '' };
    return { act, happenedAtMs, names: namesOf({ ...entry, act }), ...when };
  };

  /** The correction that names a line: the one that wrote its record, or an earlier one that was taken along by it. */
  const correctionOf = (entryId: string, writtenBy: string): EntryRow['takenBack'] => {
    const names = (line: StoredEntry | null): boolean =>
      line?.act.kind === 'restate' && line.act.corrections.some((each) => each.entryId === entryId);
    let line = book.byId(writtenBy);
    if (!names(line)) line = book.byId((correcting.get(entryId) as string | undefined) ?? '');
    return line?.act.kind === 'restate' && names(line)
      ? { atMs: line.writtenAtMs, reason: line.act.reason }
      : undefined;
  };

  return {
    of(entry) {
      const strike = records.get('strike', entry.id);
      const takenBack = strike === null ? undefined : correctionOf(entry.id, strike.writtenBy);
      const original = entry.act.kind === 'reverse' ? originalOf(book, entry.act.entryId) : null;
      return {
        ...{ entryId: entry.id, sequence: entry.sequence, happenedAtMs: entry.happenedAtMs },
        ...{
          writtenAtMs: entry.writtenAtMs,
          act: entry.act,
          postings: [...entry.postings],
          typed: { ...entry.typed },
        },
        struck: strike !== null,
        ...(takenBack === undefined ? {} : { takenBack }),
        names: namesOf(entry),
        restated: restated(entry),
        reversed:
          original === null
            ? null
            : { act: original.act, happenedAtMs: original.happenedAtMs, names: namesOf(original) },
      };
    },
  };
}

/** The act at the bottom of a chain of reversals. */
function originalOf(book: BookStore, entryId: string): StoredEntry | null {
  const entry = book.byId(entryId);
  return entry !== null && entry.act.kind === 'reverse' ? originalOf(book, entry.act.entryId) : entry;
}

function shelfName(name: string, placeName: string | null): string {
  return placeName === null ? name : `${placeName}, ${name}`;
}

/** The vessel whose liquid an act is about, when it is about a liquid. */
function liquidVesselId(act: Act): string | null {
  switch (act.kind) {
    case 'recordReading':
    case 'addTo':
    case 'pitchYeast':
    case 'seed':
    case 'changeStage':
    case 'drawOff':
    case 'bottle':
    case 'discard':
    case 'settleVolume':
    case 'sample':
    case 'filter':
    case 'drawAndRefill':
    case 'reconcile':
      return act.vesselId;
    case 'transfer':
    case 'split':
      return act.fromVesselId;
    case 'blend':
      return act.toVesselId;
    case 'tasteNote':
      return act.about.kind === 'vessel' ? act.about.vesselId : null;
    default:
      return null;
  }
}

/** A UUID: a list of ids has numbers for names of its fields. */
const ID = /^[0-9a-f]{8}-[0-9a-f-]{27}$/u;

/** Every id an act mentions, found by its field's name. */
function idsIn(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([field, inner]) =>
    typeof inner === 'string' ? (/Ids?$|^\d+$/u.test(field) && ID.test(inner) ? [inner] : []) : idsIn(inner),
  );
}
