import type { CellarReader } from './cellar-reader.ts';
import { contractionOf, type Contraction, type ContractionAnew } from './contraction.ts';
import type { ActContext, Outcome } from './entry.ts';
import type { EntryId, VesselId } from './ids.ts';
import { joinLiquids, NOTHING, type Liquid } from './liquid.ts';
import { addMasses, negateMasses, type MassDeltas } from './masses.ts';
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
  /** True when a batch already has the code, one begun by this act included. */
  codeTaken(code: string): boolean;
  /** Another record of that kind which this act writes, and of which that holds. */
  alsoWritten<K extends RecordKind>(
    kind: K,
    id: string,
    holds: (record: RecordsByKind[K]) => boolean,
  ): RecordsByKind[K] | null;
  /** Puts a record back as it was, its writer included. */
  restore(kind: RecordKind, record: RecordsByKind[RecordKind]): void;
  remove(kind: RecordKind, id: string): void;
  /** Posts a volume and masses from one account to another; either may be negative, which is the way back. */
  post(from: Account, to: Account, volumeUl: number, massesUg: MassDeltas): void;
  /** Posts a liquid as it is. */
  pour(from: Account, to: Account, liquid: Liquid): void;
  /** Liquids joined in a vessel, what they shrink by posted to its account. */
  join(vesselId: VesselId, parts: readonly Liquid[]): Liquid;
  /** Notes what shrank at a line that is told anew. */
  noteContractions(contractions: readonly ContractionAnew[]): void;
  /** Notes that a later entry was told anew along with those a correction names. */
  noteRetold(entryId: EntryId): void;
  outcome(): Outcome;
}

interface Delta {
  readonly volumeUl: number;
  readonly massesUg: MassDeltas;
}

export function openChangeSet(reader: CellarReader, context: ActContext): ChangeSet {
  const changes = new Map<string, Change>();
  const deltas = new Map<Account, Delta>();
  const retold: EntryId[] = [];
  const contractions: Contraction[] = [];
  const contractionsAnew: ContractionAnew[] = [];
  const asAdded: VesselId[] = [];
  const deltaOf = (account: Account): Delta => deltas.get(account) ?? { volumeUl: 0, massesUg: {} };
  const post = (from: Account, to: Account, volumeUl: number, massesUg: MassDeltas): void => {
    if (from === to) return;
    const [giver, taker] = [deltaOf(from), deltaOf(to)];
    deltas.set(from, {
      volumeUl: giver.volumeUl - volumeUl,
      massesUg: addMasses(giver.massesUg, negateMasses(massesUg)),
    });
    deltas.set(to, {
      volumeUl: taker.volumeUl + volumeUl,
      massesUg: addMasses(taker.massesUg, massesUg),
    });
  };
  const shrinksBy = (vesselId: VesselId, parts: readonly Liquid[]): number => {
    const { contractions: told } = context;
    if (told !== 'reckoned') return told?.get(vesselId) ?? 0;
    const { contractionUl, isAsAdded } = contractionOf(parts);
    if (isAsAdded) asAdded.push(vesselId);
    return contractionUl;
  };
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
      write(kind, record.id, {
        ...record,
        writtenBy: context.writerId ?? context.entryId,
      } as RecordsByKind[typeof kind]);
    },
    codeTaken(code) {
      const begun = [...changes.values()].some(
        (change) => change.kind === 'batch' && change.after?.code === code,
      );
      return begun || reader.batchCodeTaken(code);
    },
    alsoWritten<K extends RecordKind>(
      kind: K,
      id: string,
      holds: (record: RecordsByKind[K]) => boolean,
    ): RecordsByKind[K] | null {
      for (const change of changes.values()) {
        const record = change.kind === kind && change.id !== id ? change.after : null;
        if (record !== null && holds(record as RecordsByKind[K])) return record as RecordsByKind[K];
      }
      return null;
    },
    restore(kind, record) {
      write(kind, record.id, record);
    },
    remove(kind, id) {
      write(kind, id, null);
    },
    post,
    pour(from, to, { volumeUl, massesUg }) {
      post(from, to, volumeUl, massesUg);
    },
    join(vesselId, parts) {
      const joined = parts.reduce(joinLiquids, NOTHING);
      const contractionUl = shrinksBy(vesselId, parts);
      if (contractionUl === 0) return joined;
      contractions.push({ vesselId, contractionUl });
      post(vesselId, 'contraction', contractionUl, {});
      return { ...joined, volumeUl: joined.volumeUl - contractionUl };
    },
    noteContractions(anew) {
      contractionsAnew.push(...anew);
    },
    noteRetold(entryId) {
      retold.push(entryId);
    },
    outcome() {
      const postings: Posting[] = [...deltas]
        .filter(([, { volumeUl, massesUg }]) => volumeUl !== 0 || Object.keys(massesUg).length > 0)
        .map(([account, { volumeUl, massesUg }]) => ({ account, deltaUl: volumeUl, massesUg }));
      assertBalanced(postings, `in entry ${context.entryId}`);
      return {
        postings,
        changes: [...changes.values()].filter((c) => c.before !== null || c.after !== null),
        ...(retold.length === 0 ? {} : { retold }),
        ...(contractions.length === 0 ? {} : { contractions }),
        ...(contractionsAnew.length === 0 ? {} : { contractionsAnew }),
        ...(asAdded.length === 0 ? {} : { asAdded }),
      };
    },
  };
}
