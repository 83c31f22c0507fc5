import type { CellarReader, EarlierEntry, Resting } from './cellar-reader.ts';
import type { Entry, Outcome } from './entry.ts';
import { entrySubjects, type Subjects } from './entry-subjects.ts';
import type { EntryId, ShelfId, VesselId } from './ids.ts';
import { applyAct } from './post-entry.ts';
import type { Change, RecordKind, RecordsByKind } from './records.ts';
import { POINTERS, priorImage, RECORD_KINDS } from './records.ts';

/**
 * A whole cellar held in memory: the book and what stands on the shelf. The same decisions run over it as over
 * the file, so a year can be told in a moment, and a rebuild can be compared with what the file holds.
 */
export interface MemoryCellar extends CellarReader {
  readonly entries: readonly Entry[];
  records<K extends RecordKind>(kind: K): ReadonlyMap<string, RecordsByKind[K]>;
  /** Appends an entry with its outcome. */
  append(entry: Entry, outcome: Outcome): void;
}

export function openMemoryCellar(): MemoryCellar {
  const entries: Entry[] = [];
  const entryById = new Map<string, EarlierEntry>();
  const written = new Map<string, { sequence: number; before: RecordsByKind[RecordKind] | null }[]>();
  const restatings: EarlierEntry[] = [];
  const reversals = new Map<string, readonly EarlierEntry[]>();
  const settled = new Map<string, readonly EarlierEntry[]>();
  const about = new Map<string, EarlierEntry[]>();
  const tables = new Map<RecordKind, Map<string, RecordsByKind[RecordKind]>>(
    RECORD_KINDS.map((kind) => [kind, new Map<string, RecordsByKind[RecordKind]>()]),
  );
  const records = <K extends RecordKind>(kind: K): Map<string, RecordsByKind[K]> =>
    tables.get(kind) as unknown as Map<string, RecordsByKind[K]>;
  const values = <K extends RecordKind>(kind: K): RecordsByKind[K][] => [...records(kind).values()];

  const write = (change: Change): void => {
    const table = tables.get(change.kind);
    if (table === undefined) throw new Error(`unknown record kind ${change.kind}`);
    if (change.after === null) table.delete(change.id);
    else table.set(change.id, asKept(change.kind, change.after));
  };

  return {
    entries,
    records,
    append(entry, outcome) {
      entries.push(entry);
      const { id, happenedAtMs, act, postings } = entry;
      const images = outcome.changes.map(priorImage);
      const earlier = { id, sequence: entries.length, happenedAtMs, act, postings, images };
      entryById.set(id, earlier);
      for (const { kind, id: recordId, before } of images) {
        const key = `${kind}:${recordId}`;
        const step = { sequence: entries.length, before };
        const known = written.get(key);
        if (known === undefined) written.set(key, [step]);
        else known.push(step);
      }
      if (act.kind === 'restate') restatings.push(earlier);
      if (act.kind === 'reconcile' && act.readingId !== null) {
        settled.set(act.readingId, [...(settled.get(act.readingId) ?? []), earlier]);
      }
      if (act.kind === 'reverse') {
        reversals.set(act.entryId, [...(reversals.get(act.entryId) ?? []), earlier]);
      }
      for (const key of subjectKeys(entrySubjects(act, outcome.changes))) {
        const known = about.get(key);
        if (known === undefined) about.set(key, [earlier]);
        else known.push(earlier);
      }
      outcome.changes.forEach(write);
    },
    get: (kind, id) => records(kind).get(id) ?? null,
    vesselAt: (shelfId: ShelfId, position: number): VesselId | null =>
      values('vessel').find((v) => v.shelfId === shelfId && v.position === position)?.id ?? null,
    shelfLetterTaken: (letter) => values('shelf').some((s) => s.letter === letter),
    vesselNumberTaken: (number) => values('vessel').some((v) => v.number === number),
    batchCodeTaken: (code) => values('batch').some((b) => b.code === code),
    lastPullNumber: (culture) =>
      values('pull').reduce((top, p) => (p.cultureId === culture ? Math.max(top, p.number) : top), 0),
    highestPosition: (shelfId) =>
      values('vessel').reduce((top, v) => (v.shelfId === shelfId ? Math.max(top, v.position ?? 0) : top), 0),
    restingOn: (kind, id): Resting[] =>
      RECORD_KINDS.flatMap((from) =>
        values(from)
          .filter((record) => pointsAt(from, record, kind, id))
          .map((record) => ({ kind: from, id: record.id, writtenBy: record.writtenBy })),
      ),
    takenAwayBy(kind, id): EntryId | null {
      const taking = entries.findLast((entry) =>
        (entryById.get(entry.id)?.images ?? []).some(
          (image) => image.kind === kind && image.id === id && image.afterWriter === null,
        ),
      );
      return taking?.id ?? null;
    },
    entry: (entryId): EarlierEntry | null => entryById.get(entryId) ?? null,
    foundLater: (kind, id, after) =>
      written.get(`${kind}:${id}`)?.find(({ sequence }) => sequence > after)?.before,
    nextWriting(kind, id, after): EarlierEntry | null {
      const sequence = written.get(`${kind}:${id}`)?.find((step) => step.sequence > after)?.sequence;
      const entry = sequence === undefined ? undefined : entries[sequence - 1];
      return entry === undefined ? null : (entryById.get(entry.id) ?? null);
    },
    restatings: () => restatings.filter(({ id }) => !records('strike').has(id)),
    reversalsOf: (entryId) => reversals.get(entryId) ?? [],
    settledBy: (readingId) => settled.get(readingId) ?? [],
    nextAbout: ({ kind, id }, after): EarlierEntry | null =>
      about.get(`${kind}:${id}`)?.find(({ sequence }) => sequence > after) ?? null,
  };
}

function subjectKeys({ vesselIds, batchIds, cultureIds }: Subjects): string[] {
  return [
    ...vesselIds.map((id) => `vessel:${id}`),
    ...batchIds.map((id) => `batch:${id}`),
    ...cultureIds.map((id) => `culture:${id}`),
  ];
}

/** A reading whose details were all left empty is kept without them, as the file keeps it. */
function asKept(kind: RecordKind, record: RecordsByKind[RecordKind]): RecordsByKind[RecordKind] {
  if (kind !== 'reading') return record;
  const reading = record as RecordsByKind['reading'];
  const { detail, ...values } = reading.values;
  return detail === undefined || detail === null ? { ...reading, values } : reading;
}

function pointsAt(
  kind: RecordKind,
  record: RecordsByKind[RecordKind],
  target: RecordKind,
  id: string,
): boolean {
  return (POINTERS[target] ?? []).some(
    ([from, field]) => from === kind && (record as unknown as Record<string, unknown>)[field] === id,
  );
}

/** Reads the whole book again from its first line. Throws when an entry that was written is now refused: the book is broken. */
export function replay(entries: readonly Entry[]): MemoryCellar {
  const cellar = openMemoryCellar();
  for (const entry of entries) {
    const context = { entryId: entry.id, happenedAtMs: entry.happenedAtMs };
    const outcome = applyAct(cellar, entry.act, context);
    if (!outcome.ok) throw new Error(`entry ${entry.id} cannot be replayed: ${outcome.error.type}`);
    cellar.append(entry, outcome.value);
  }
  return cellar;
}
