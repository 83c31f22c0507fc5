import type { Act } from './act.ts';
import type { CellarReader } from './cellar-reader.ts';
import type { ChangeSet } from './change-set.ts';
import { openChangeSet } from './change-set.ts';
import {
  addTo,
  changeStage,
  editBatch,
  heat,
  note,
  overrule,
  recordReading,
  settleVolume,
  startBatch,
  tellFacts,
} from './decide-batches.ts';
import { addCulture, editCulture, feedCulture, pitchYeast, seed } from './decide-cultures.ts';
import { addPhoto, editCaption, tasteNote } from './decide-photos.ts';
import { addPlace, addShelf, editPlace, editShelf } from './decide-places.ts';
import { bottle, discard, drawOff, transfer } from './decide-transfers.ts';
import { addVessel, changeClosure, editVessel, moveVessel, retireVessel } from './decide-vessels.ts';
import type { ActContext, Outcome } from './entry.ts';
import type { LedgerError } from './ledger-error.ts';
import { reverse } from './reverse-entry.ts';
import { err, ok, type Result } from '../base/result.ts';

/** A clock may run a little ahead of another: an act may be dated this far into the future and no further. */
const AHEAD_MS_MAX = 5 * 60_000;

/**
 * Decides what an act does to the cellar as it stands: postings that balance and the records that change, or why
 * it is refused. Nothing is written here. Replaying the book calls `applyAct`, which asks nothing of the clock.
 */
export function postEntry(
  reader: CellarReader,
  act: Act,
  context: ActContext & { readonly nowMs: number },
): Result<Outcome, LedgerError> {
  if (context.happenedAtMs > context.nowMs + AHEAD_MS_MAX) {
    const { happenedAtMs, nowMs } = context;
    return err({ type: 'InTheFuture', field: 'happenedAtMs', happenedAtMs, nowMs });
  }
  return applyAct(reader, act, context);
}

/** The same decision without the clock: what the act did when it was written, it does again on replay. */
export function applyAct(reader: CellarReader, act: Act, context: ActContext): Result<Outcome, LedgerError> {
  const book = openChangeSet(reader, context);
  const refused = decide(book, act);
  return refused === null ? ok(book.outcome()) : err(refused);
}

function decide(book: ChangeSet, act: Act): LedgerError | null {
  switch (act.kind) {
    case 'addPlace':
      return addPlace(book, act);
    case 'editPlace':
      return editPlace(book, act);
    case 'addShelf':
      return addShelf(book, act);
    case 'editShelf':
      return editShelf(book, act);
    case 'addVessel':
      return addVessel(book, act);
    case 'editVessel':
      return editVessel(book, act);
    case 'moveVessel':
      return moveVessel(book, act);
    case 'retireVessel':
      return retireVessel(book, act);
    case 'changeClosure':
      return changeClosure(book, act);
    case 'addCulture':
      return addCulture(book, act);
    case 'editCulture':
      return editCulture(book, act);
    case 'feedCulture':
      return feedCulture(book, act);
    case 'startBatch':
      return startBatch(book, act);
    case 'editBatch':
      return editBatch(book, act);
    case 'addTo':
      return addTo(book, act);
    case 'pitchYeast':
      return pitchYeast(book, act);
    case 'recordReading':
      return recordReading(book, act);
    case 'transfer':
      return transfer(book, act);
    case 'seed':
      return seed(book, act);
    case 'changeStage':
      return changeStage(book, act);
    case 'drawOff':
      return drawOff(book, act);
    case 'bottle':
      return bottle(book, act);
    case 'discard':
      return discard(book, act);
    case 'settleVolume':
      return settleVolume(book, act);
    case 'tellFacts':
      return tellFacts(book, act);
    case 'heat':
      return heat(book, act);
    case 'overrule':
      return overrule(book, act);
    case 'note':
      return note(book, act);
    case 'addPhoto':
      return addPhoto(book, act);
    case 'editCaption':
      return editCaption(book, act);
    case 'tasteNote':
      return tasteNote(book, act);
    case 'reverse':
      return reverse(book, act);
  }
}
