import type { CellarReader } from './cellar-reader.ts';
import type { ActContext, Outcome } from './entry.ts';
import type { Account, Posting } from './postings.ts';
import { assertBalanced } from './postings.ts';
import type { Change, RecordKind, RecordsByKind } from './records.ts';

/** A record as an act writes it: who wrote it is filled in by the change set. */
export type Unwritten<K extends RecordKind> = Omit<RecordsByKind[K], 'writtenBy'>;

/**
 * Collects what one act changes. Reads see the act's own earlier writes; nothing outside is touched until the
 * outcome is applied, so an act that is refused half-way has done nothing.
 */
export interface ChangeSet {
  readonly reader: CellarReader;
  readonly context: ActContext;
  get<K extends RecordKind>(kind: K, id: string): RecordsByKind[K] | null;
  put<K extends RecordKind>(kind: K, record: Unwritten<K>): void;
  /** Puts a record back as it was, its writer included. */
  restore(kind: RecordKind, record: RecordsByKind[RecordKind]): void;
  remove(kind: RecordKind, id: string): void;
  post(from: Account, to: Account, volumeUl: number): void;
  outcome(): Outcome;
}

export function openChangeSet(reader: CellarReader, context: ActContext): ChangeSet {
  const changes = new Map<string, Change>();
  const deltas = new Map<Account, number>();
  const key = (kind: RecordKind, id: string): string => `${kind}:${id}`;
  const write = (kind: RecordKind, id: string, after: RecordsByKind[RecordKind] | null): void => {
    const earlier = changes.get(key(kind, id));
    const before = earlier === undefined ? reader.get(kind, id) : earlier.before;
    changes.set(key(kind, id), { kind, id, before, after } as Change);
  };
  return {
    reader,
    context,
    get<K extends RecordKind>(kind: K, id: string): RecordsByKind[K] | null {
      const change = changes.get(key(kind, id));
      return change === undefined ? reader.get(kind, id) : (change.after as RecordsByKind[K] | null);
    },
    put(kind, record) {
      write(kind, record.id, { ...record, writtenBy: context.entryId } as RecordsByKind[typeof kind]);
    },
    restore(kind, record) {
      write(kind, record.id, record);
    },
    remove(kind, id) {
      write(kind, id, null);
    },
    post(from, to, volumeUl) {
      if (volumeUl === 0) return;
      deltas.set(from, (deltas.get(from) ?? 0) - volumeUl);
      deltas.set(to, (deltas.get(to) ?? 0) + volumeUl);
    },
    outcome() {
      const postings: Posting[] = [...deltas]
        .filter(([, deltaUl]) => deltaUl !== 0)
        .map(([account, deltaUl]) => ({ account, deltaUl }));
      assertBalanced(postings, `in entry ${context.entryId}`);
      return {
        postings,
        changes: [...changes.values()].filter((c) => c.before !== null || c.after !== null),
      };
    },
  };
}
