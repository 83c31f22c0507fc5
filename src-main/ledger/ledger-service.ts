import type { EntryRow, Plan, Posted, RestatePlan, UndoState } from '#core/contract/ledger.ts';
import { err, ok, type Result } from '#core/base/result.ts';
import { Act, type ActDraft } from '#core/ledger/act.ts';
import { withContractions } from '#core/ledger/contraction.ts';
import type { Entry } from '#core/ledger/entry.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import { postEntry } from '#core/ledger/post-entry.ts';
import type { CellarSession } from '../cellar/session.ts';
import { openShelvesProjection } from '../shelves/shelves-projection.ts';
import { ACT_FORMAT, type StoredEntry } from './book-store.ts';
import { completeCorrection } from './complete-correction.ts';
import { openDraftCompleter } from './complete-draft.ts';
import { openEntryGroups } from './entry-groups.ts';
import { openEntryRows } from './entry-rows.ts';
import { openKeptPictures } from './kept-pictures.ts';
import { planOf } from './plan-of.ts';
import { openProjector } from './projector.ts';
import { openUndoStack } from './undo-state.ts';

export interface PostRequest {
  readonly requestId: string;
  readonly act: ActDraft;
  readonly happenedAtMs: number | null;
  readonly typed: Readonly<Record<string, string>>;
}

/** Earlier lines as they should have been; null takes one back. A time of null leaves it as it was. */
export interface RestateRequest {
  readonly corrections: readonly {
    readonly entryId: EntryId;
    readonly act: ActDraft | null;
    readonly happenedAtMs: number | null;
  }[];
  readonly reason: string;
}

/** One of several acts that are written as one step. */
export type Together = Omit<PostRequest, 'requestId' | 'happenedAtMs'> & { readonly happenedAtMs: number };

/** The only writer of the book. Each act is one transaction: the entry, every projection, or nothing. */
export interface LedgerService {
  post(request: PostRequest): Result<Posted, LedgerError>;
  /** Writes several acts as one step: all of them, or none when one is refused. Undo and Redo take them together. */
  postTogether(requestId: string, acts: readonly Together[]): Result<Posted, LedgerError>;
  plan(draft: ActDraft, happenedAtMs: number | null): Result<Plan, LedgerError>;
  /** Tells earlier lines anew and plays again what follows from them, as one line that is undone as one. */
  restate(requestId: string, asked: RestateRequest): Result<Posted, LedgerError>;
  /** What telling them so would change, without writing. */
  planRestate(asked: RestateRequest): Result<RestatePlan, LedgerError>;
  undo(requestId: string): Result<Posted, LedgerError>;
  redo(requestId: string): Result<Posted, LedgerError>;
  strike(requestId: string, entryId: EntryId): Result<Posted, LedgerError>;
  /** Strikes all lines that one request wrote and that still stand; null when there are none. */
  strikeTogether(requestId: string, written: string): Result<Posted, LedgerError> | null;
  undoState(): UndoState;
}

export function openLedgerService(session: CellarSession): LedgerService {
  const { cellar, book, records, reader, clock, newId } = session;
  const { sqlite } = cellar;
  const shelves = openShelvesProjection(sqlite, records);
  const projector = openProjector(sqlite, records, book, shelves);
  const drafts = openDraftCompleter(sqlite, newId);
  const rows = openEntryRows(sqlite, records, book);
  const undoStack = openUndoStack(sqlite, book);
  const pictures = openKeptPictures(sqlite);

  const groups = openEntryGroups(sqlite, book);

  /** The line as it is shown, with how many lines of its step still stand, itself among them. */
  const rowOf = (entry: StoredEntry): EntryRow => {
    const together = groups.standing(groups.requestOf(entry.sequence) ?? '');
    return together > 1 ? { ...rows.of(entry), together } : rows.of(entry);
  };

  const undoState = (): UndoState => {
    const undo = undoStack.undoNext();
    const redo = undoStack.redoNext();
    return { undo: undo === null ? null : rowOf(undo), redo: redo === null ? null : rowOf(redo) };
  };

  /**
   * A request that was answered before is answered again with its entry, and nothing is written. Refused when it asked for
   * something else then: answered with that, the caller would take for written what never was.
   */
  const answeredBefore = (requestId: string, { lines, ...asked }: Asked): Posted | null => {
    const entry = book.byRequest(requestId);
    if (entry === null) return null;
    if (!says(entry, asked) || (lines !== undefined && lines !== groups.written(requestId))) {
      const what = 'request number';
      throw new StepRefused({ type: 'AlreadyTaken', field: 'requestId', what, value: requestId });
    }
    const touched = groups.vesselsOf(requestId);
    const row = rowOf(groups.lastOf(requestId) ?? entry);
    return { entry: row, ...projector.refresh(touched), undoState: undoState() };
  };

  /** Writes one line and what follows from it; the tickets it concerns are left to whoever ends the step. */
  const write = (
    requestId: string,
    happenedAtMs: number,
    nowMs: number,
    given: Act,
    typed: Readonly<Record<string, string>>,
  ): Result<Written, LedgerError> => {
    // What is decided on is what the book will say when it is read again: nothing undefined, fields in their set order.
    const asked = Act.parse(JSON.parse(JSON.stringify(given)));
    const entryId = newId() as EntryId;
    const outcome = postEntry(reader, asked, { entryId, happenedAtMs, nowMs });
    if (!outcome.ok) return outcome;
    const act = withContractions(asked, outcome.value);
    const { postings, changes } = outcome.value;
    const entry: Entry = { id: entryId, happenedAtMs, writtenAtMs: nowMs, act, postings, typed };
    // A correction may cut what tied vessels to a batch, so for it they are asked for before the change as well as after.
    const affectedBefore =
      act.kind === 'reverse' || act.kind === 'restate' ? projector.affectedVessels(changes) : [];
    const sequence = book.append(entry, requestId);
    projector.apply(entry, sequence, outcome.value);
    return ok({
      entry: { ...entry, sequence, actFormat: ACT_FORMAT },
      affected: [...affectedBefore, ...projector.affectedVessels(changes)],
    });
  };

  /**
   * Writes lines one after the other as one step, the tickets at its end. Throws `StepRefused` when one is refused, so that
   * the transaction around it takes back those before.
   */
  const writeStep = (lines: readonly (() => Result<Written, LedgerError>)[]): Posted => {
    const affected = new Set<VesselId>();
    let last: StoredEntry | null = null;
    for (const line of lines) {
      const written = line();
      if (!written.ok) throw new StepRefused(written.error);
      last = written.value.entry;
      for (const vesselId of written.value.affected) affected.add(vesselId);
    }
    if (last === null) throw new Error('a step of no lines');
    const projected = projector.refresh([...affected]);
    const row = lines.length > 1 ? { ...rows.of(last), together: lines.length } : rows.of(last);
    // An act is itself what Undo takes back next, and leaves nothing to redo; only after an undo must the book be asked.
    const isNewest = last.act.kind !== 'reverse' || last.act.how === 'strike';
    return { entry: row, ...projected, undoState: isNewest ? { undo: row, redo: null } : undoState() };
  };

  const inOneTransaction = (
    requestId: string,
    asked: Asked,
    act: (nowMs: number) => Result<Posted, LedgerError>,
  ): Result<Posted, LedgerError> => {
    try {
      cellar.refuseWriting();
      return sqlite
        .transaction(() => {
          const before = answeredBefore(requestId, asked);
          return before === null ? act(clock()) : ok(before);
        })
        .immediate();
    } catch (error) {
      if (error instanceof StepRefused) return err(error.refusal);
      throw error;
    }
  };

  /** Reverses lines in the order given, as one step. */
  const reverse = (
    requestId: string,
    targets: readonly StoredEntry[],
    how: 'undo' | 'redo' | 'strike',
    nowMs: number,
  ): Result<Posted, LedgerError> =>
    ok(
      writeStep(
        targets.map(({ id }, index) => () => {
          const act: Act = { kind: 'reverse', entryId: id, how };
          return write(groups.memberId(requestId, index), nowMs, nowMs, act, {});
        }),
      ),
    );

  /** The lines that were written in one step with this one and still stand, the newest first. */
  const stepOf = (entry: StoredEntry): readonly StoredEntry[] => {
    const requestId = groups.requestOf(entry.sequence);
    return requestId === null ? [entry] : groups.unstruck(requestId);
  };

  /** The act that tells earlier lines anew; one that is not in the book is left for the core to refuse. */
  const restating = ({ corrections, reason }: RestateRequest): Act => {
    const given: string[] = [];
    const told = corrections.map(({ entryId, act, happenedAtMs }) => {
      const original = records.get('restatement', entryId) ?? book.byId(entryId);
      const atMs = happenedAtMs ?? original?.happenedAtMs ?? 0;
      if (act === null) return { entryId, happenedAtMs: atMs, act };
      const anew =
        original === null
          ? drafts.complete(act, atMs, given)
          : completeCorrection(drafts, act, original, given);
      return { entryId, happenedAtMs: atMs, act: anew as Told };
    });
    return { kind: 'restate', reason, corrections: told };
  };

  /** Why acts cannot be written for want of a picture; null when each has its own. */
  const pictureMissing = (acts: readonly (ActDraft | null)[]): LedgerError | null =>
    acts.reduce<LedgerError | null>(
      (found, act) => found ?? (act === null ? null : pictures.missingFor(act)),
      null,
    );

  return {
    undoState,
    restate: (requestId, asked) =>
      inOneTransaction(requestId, { act: restatingAsked(asked) }, (nowMs) => {
        const missing = pictureMissing(asked.corrections.map(({ act }) => act));
        if (missing !== null) return err(missing);
        return ok(writeStep([() => write(requestId, nowMs, nowMs, restating(asked), {})]));
      }),
    planRestate(asked) {
      const missing = pictureMissing(asked.corrections.map(({ act }) => act));
      if (missing !== null) return err(missing);
      const nowMs = clock();
      const context = { entryId: newId() as EntryId, happenedAtMs: nowMs, nowMs };
      const outcome = postEntry(reader, restating(asked), context);
      if (!outcome.ok) return outcome;
      const { retold = [] } = outcome.value;
      return ok({ ...planOf(records, outcome.value), retoldCount: retold.length });
    },
    post({ requestId, act, happenedAtMs, typed }) {
      const asked = { act, lines: 1, ...(happenedAtMs === null ? {} : { happenedAtMs }) };
      return inOneTransaction(requestId, asked, (nowMs) => {
        const missing = pictureMissing([act]);
        if (missing !== null) return err(missing);
        const at = happenedAtMs ?? nowMs;
        return ok(writeStep([() => write(requestId, at, nowMs, drafts.complete(act, at), typed)]));
      });
    },
    postTogether(requestId, acts) {
      const asked = { act: acts[0]?.act ?? {} };
      return inOneTransaction(requestId, asked, (nowMs) => {
        const missing = pictureMissing(acts.map(({ act }) => act));
        if (missing !== null) return err(missing);
        const lines = acts.map(({ act, happenedAtMs: at, typed }, index) => () => {
          const memberId = groups.memberId(requestId, index);
          return write(memberId, at, nowMs, drafts.complete(act, at), typed);
        });
        return ok(writeStep(lines));
      });
    },
    plan(draft, happenedAtMs) {
      const nowMs = clock();
      const at = happenedAtMs ?? nowMs;
      const context = { entryId: newId() as EntryId, happenedAtMs: at, nowMs };
      const outcome = postEntry(reader, drafts.complete(draft, at), context);
      if (!outcome.ok) return outcome;
      return ok(planOf(records, outcome.value));
    },
    undo(requestId) {
      return inOneTransaction(requestId, { act: { kind: 'reverse', how: 'undo' } }, (nowMs) => {
        const next = undoStack.undoNext();
        return next === null
          ? err({ type: 'NothingToUndo', field: '' })
          : reverse(requestId, stepOf(next), 'undo', nowMs);
      });
    },
    redo(requestId) {
      return inOneTransaction(requestId, { act: { kind: 'reverse', how: 'redo' } }, (nowMs) => {
        const next = undoStack.redoNext();
        return next === null
          ? err({ type: 'NothingToRedo', field: '' })
          : reverse(requestId, stepOf(next), 'redo', nowMs);
      });
    },
    strike: (requestId, entryId) =>
      inOneTransaction(requestId, { act: { kind: 'reverse', how: 'strike', entryId } }, (nowMs) =>
        ok(
          writeStep([() => write(requestId, nowMs, nowMs, { kind: 'reverse', entryId, how: 'strike' }, {})]),
        ),
      ),
    strikeTogether(requestId, written) {
      if (book.byRequest(requestId) === null && groups.standing(written) === 0) return null;
      return inOneTransaction(requestId, { act: { kind: 'reverse', how: 'strike' } }, (nowMs) =>
        reverse(requestId, groups.unstruck(written), 'strike', nowMs),
      );
    },
  };
}

/** A request to tell lines anew as its line will say it: which lines, as what, and when where that was said. */
function restatingAsked({ corrections, reason }: RestateRequest): object {
  const told = corrections.map(({ entryId, act, happenedAtMs }) => ({
    ...{ entryId, act },
    ...(happenedAtMs === null ? {} : { happenedAtMs }),
  }));
  return { kind: 'restate', reason, corrections: told };
}

/** What a line may be told anew as: anything but another correction. */
type Told = NonNullable<Extract<Act, { kind: 'restate' }>['corrections'][number]['act']>;

/** What a request asks for, as its first line will say it, and of how many lines, where that is known. */
interface Asked {
  readonly act: object;
  readonly happenedAtMs?: number;
  readonly lines?: number;
}

/** A line as it now stands in the book, and the vessels whose tickets it may have changed. */
interface Written {
  readonly entry: StoredEntry;
  readonly affected: readonly VesselId[];
}

/** Thrown inside a transaction, so that what was written in it before is taken back with it. */
class StepRefused extends Error {
  readonly refusal: LedgerError;
  constructor(refusal: LedgerError) {
    super(refusal.type);
    this.refusal = refusal;
  }
}

/** True when what is written says all that is asked; ids, numbers and codes that were given out may stand beside it. */
function says(written: unknown, asked: unknown): boolean {
  if (typeof asked !== 'object' || asked === null) return written === asked;
  if (typeof written !== 'object' || written === null) return false;
  if (Array.isArray(asked) && (!Array.isArray(written) || written.length !== asked.length)) return false;
  return Object.entries(asked).every(
    ([field, value]) => value === undefined || says((written as Record<string, unknown>)[field], value),
  );
}
