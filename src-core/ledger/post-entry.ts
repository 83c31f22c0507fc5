import type { Act } from './act.ts';
import type { CellarReader } from './cellar-reader.ts';
import type { ChangeSet } from './change-set.ts';
import { openChangeSet } from './change-set.ts';
import { contractionsIn } from './contraction.ts';
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
import { dropBatchFilter, editBatchFilter, keepBatchFilter } from './decide-filters.ts';
import { addPlace, addShelf, editPlace, editShelf } from './decide-places.ts';
import { blend, drawAndRefill, split } from './decide-blends.ts';
import { bottle, returnBottles, takeBottles } from './decide-bottles.ts';
import { quarantine, releaseBottles } from './decide-quarantine.ts';
import { reconcile } from './decide-reconcile.ts';
import { restate } from './decide-restate.ts';
import { discard, drawOff, filter, sample, transfer } from './decide-transfers.ts';
import { cleanVessel, lendVessel } from './decide-upkeep.ts';
import { addVessel, changeClosure, editVessel, moveVessel, retireVessel } from './decide-vessels.ts';
import type { ActContext, Outcome } from './entry.ts';
import type { LedgerError } from './ledger-error.ts';
import { HELD_MAX_UG, MASS_MAX_UG, totalUg } from './masses.ts';
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
  const { nowMs } = context;
  const told = act.kind === 'restate' ? act.corrections.map(({ happenedAtMs }) => happenedAtMs) : [];
  const happenedAtMs = Math.max(context.happenedAtMs, ...told);
  if (happenedAtMs > nowMs + AHEAD_MS_MAX) {
    return err({ type: 'InTheFuture', field: 'happenedAtMs', happenedAtMs, nowMs });
  }
  return decided(reader, act, { ...context, contractions: 'reckoned' });
}

/** The same decision without the clock: what the act did when it was written, it does again on replay. */
export function applyAct(reader: CellarReader, act: Act, context: ActContext): Result<Outcome, LedgerError> {
  return decided(reader, act, { ...context, contractions: contractionsIn(act) });
}

function decided(reader: CellarReader, act: Act, context: ActContext): Result<Outcome, LedgerError> {
  const book = openChangeSet(reader, context);
  const refused = decide(book, act);
  if (refused !== null) return err(refused);
  const outcome = book.outcome();
  return isTooHeavy(outcome) ? err({ type: 'TooHeavy', field: '', mostUg: HELD_MAX_UG }) : ok(outcome);
}

/** A vessel that would hold more than can be counted, or a posting that could not be read again. */
function isTooHeavy({ changes, postings }: Outcome): boolean {
  const held = changes.map((change) => (change.kind === 'fill' ? totalUg(change.after?.massesUg ?? {}) : 0));
  const posted = postings.flatMap(({ massesUg = {} }) => Object.values(massesUg).map(Math.abs));
  return held.some((ug) => ug > HELD_MAX_UG) || posted.some((ug) => ug > MASS_MAX_UG);
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
    case 'keepBatchFilter':
      return keepBatchFilter(book, act);
    case 'editBatchFilter':
      return editBatchFilter(book, act);
    case 'dropBatchFilter':
      return dropBatchFilter(book, act);
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
    case 'split':
      return split(book, act);
    case 'blend':
      return blend(book, act);
    case 'drawAndRefill':
      return drawAndRefill(book, act);
    case 'drawOff':
      return drawOff(book, act);
    case 'sample':
      return sample(book, act);
    case 'filter':
      return filter(book, act);
    case 'bottle':
      return bottle(book, act);
    case 'takeBottles':
      return takeBottles(book, act);
    case 'returnBottles':
      return returnBottles(book, act);
    case 'discard':
      return discard(book, act);
    case 'cleanVessel':
      return cleanVessel(book, act);
    case 'lendVessel':
      return lendVessel(book, act);
    case 'reconcile':
      return reconcile(book, act);
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
    case 'quarantine':
      return quarantine(book, act);
    case 'releaseBottles':
      return releaseBottles(book, act);
    case 'restate':
      return restate(book, act, decide);
    case 'reverse':
      return reverse(book, act);
  }
}
