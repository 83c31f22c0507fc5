import type { Plan, Posted, UndoState } from '#core/contract/ledger.ts';
import { err, ok, type Result } from '#core/base/result.ts';
import type { Act, ActDraft } from '#core/ledger/act.ts';
import type { Entry } from '#core/ledger/entry.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import { postEntry } from '#core/ledger/post-entry.ts';
import type { CellarSession } from '../cellar/session.ts';
import { openShelvesProjection } from '../shelves/shelves-projection.ts';
import type { StoredEntry } from './book-store.ts';
import { openDraftCompleter } from './complete-draft.ts';
import { openEntryRows } from './entry-rows.ts';
import { openKeptPictures } from './kept-pictures.ts';
import { openProjector } from './projector.ts';
import { openUndoStack } from './undo-state.ts';

export interface PostRequest {
  readonly requestId: string;
  readonly act: ActDraft;
  readonly happenedAtMs: number | null;
  readonly typed: Readonly<Record<string, string>>;
}

/** The only writer of the book. Each act is one transaction: the entry, every projection, or nothing. */
export interface LedgerService {
  post(request: PostRequest): Result<Posted, LedgerError>;
  plan(draft: ActDraft, happenedAtMs: number | null): Result<Plan, LedgerError>;
  undo(requestId: string): Result<Posted, LedgerError>;
  redo(requestId: string): Result<Posted, LedgerError>;
  strike(requestId: string, entryId: EntryId): Result<Posted, LedgerError>;
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

  const undoState = (): UndoState => {
    const undo = undoStack.undoNext();
    const redo = undoStack.redoNext();
    return { undo: undo === null ? null : rows.of(undo), redo: redo === null ? null : rows.of(redo) };
  };

  /**
   * A request that was answered before is answered again with its entry, and nothing is written. Throws when it asked for
   * something else then: answered with that, the caller would take for written what never was.
   */
  const answeredBefore = (requestId: string, asked: unknown): Posted | null => {
    const entry = book.byRequest(requestId);
    if (entry === null) return null;
    if (!says(entry.act, asked)) throw new Error(`request ${requestId} wrote a different act before`);
    const touched = subjectVessels.all(entry.sequence) as VesselId[];
    return { entry: rows.of(entry), ...projector.refresh(touched), undoState: undoState() };
  };
  const subjectVessels = sqlite
    .prepare(`SELECT subject_id FROM entry_subject WHERE sequence = ? AND kind = 'vessel'`)
    .pluck();

  const write = (
    requestId: string,
    happenedAtMs: number,
    nowMs: number,
    given: Act,
    typed: Readonly<Record<string, string>>,
  ): Result<Posted, LedgerError> => {
    // What is decided on is what the book will hold: a field that is there but undefined is not written, and so not decided on.
    const act = JSON.parse(JSON.stringify(given)) as Act;
    const entryId = newId() as EntryId;
    const outcome = postEntry(reader, act, { entryId, happenedAtMs, nowMs });
    if (!outcome.ok) return outcome;
    const { postings, changes } = outcome.value;
    const entry: Entry = { id: entryId, happenedAtMs, writtenAtMs: nowMs, act, postings, typed };
    // A reversal may cut what tied vessels to a batch, so for it they are asked for before the change as well as after.
    const affectedBefore = act.kind === 'reverse' ? projector.affectedVessels(changes) : [];
    const sequence = book.append(entry, requestId);
    projector.apply(entry, sequence, outcome.value);
    const affected = new Set([...affectedBefore, ...projector.affectedVessels(changes)]);
    const projected = projector.refresh([...affected]);
    const stored: StoredEntry = { ...entry, sequence };
    const row = rows.of(stored);
    // An act is itself what Undo takes back next, and leaves nothing to redo; only after an undo must the book be asked.
    const isNewest = act.kind !== 'reverse' || act.how === 'strike';
    return ok({ entry: row, ...projected, undoState: isNewest ? { undo: row, redo: null } : undoState() });
  };

  const inOneTransaction = (
    requestId: string,
    asked: unknown,
    act: (nowMs: number) => Result<Posted, LedgerError>,
  ): Result<Posted, LedgerError> =>
    sqlite
      .transaction(() => {
        const before = answeredBefore(requestId, asked);
        return before === null ? act(clock()) : ok(before);
      })
      .immediate();

  const reverse = (requestId: string, target: EntryId, how: 'undo' | 'redo' | 'strike', nowMs: number) =>
    write(requestId, nowMs, nowMs, { kind: 'reverse', entryId: target, how }, {});

  return {
    undoState,
    post({ requestId, act, happenedAtMs, typed }) {
      return inOneTransaction(requestId, act, (nowMs) => {
        const missing = pictures.missingFor(act);
        if (missing !== null) return err(missing);
        const at = happenedAtMs ?? nowMs;
        return write(requestId, at, nowMs, drafts.complete(act, at), typed);
      });
    },
    plan(draft, happenedAtMs) {
      const nowMs = clock();
      const at = happenedAtMs ?? nowMs;
      const context = { entryId: newId() as EntryId, happenedAtMs: at, nowMs };
      const outcome = postEntry(reader, drafts.complete(draft, at), context);
      if (!outcome.ok) return outcome;
      const { changes, postings } = outcome.value;
      const vessels = changes.flatMap((change) => {
        if (change.kind !== 'fill') return [];
        const vessel = records.get('vessel', change.id);
        if (vessel === null) return [];
        const batchId = (change.after ?? change.before)?.batchId;
        const batch = batchId === undefined ? null : records.get('batch', batchId);
        const named = changes.find((c) => c.kind === 'batch' && c.id === batchId)?.after;
        const name =
          batch?.name ??
          (named !== undefined && named !== null && 'name' in named ? named.name : vessel.name);
        return [
          {
            ...{ vesselId: vessel.id, name, capacityUl: vessel.capacityUl },
            ...{ beforeUl: change.before?.volumeUl ?? 0, afterUl: change.after?.volumeUl ?? 0 },
          },
        ];
      });
      const inside = new Set<string>(vessels.map((v) => v.vesselId));
      return ok({ vessels, outside: postings.filter((p) => !inside.has(p.account)) });
    },
    undo(requestId) {
      return inOneTransaction(requestId, { kind: 'reverse', how: 'undo' }, (nowMs) => {
        const next = undoStack.undoNext();
        return next === null
          ? err({ type: 'NothingToUndo', field: '' })
          : reverse(requestId, next.id, 'undo', nowMs);
      });
    },
    redo(requestId) {
      return inOneTransaction(requestId, { kind: 'reverse', how: 'redo' }, (nowMs) => {
        const next = undoStack.redoNext();
        return next === null
          ? err({ type: 'NothingToRedo', field: '' })
          : reverse(requestId, next.id, 'redo', nowMs);
      });
    },
    strike: (requestId, entryId) =>
      inOneTransaction(requestId, { kind: 'reverse', how: 'strike', entryId }, (nowMs) =>
        reverse(requestId, entryId, 'strike', nowMs),
      ),
  };
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
