import { withMasses } from '#core/ferments/assay.ts';
import type { Act, ActDraft } from '#core/ledger/act.ts';
import type { DraftCompleter } from './complete-draft.ts';

/**
 * Gives a draft that tells an entry anew the ids, numbers and codes that the entry gave out when it was written, so
 * that what follows still speaks of the same things; what the entry had not begun gets new ones.
 */
export function completeCorrection(
  drafts: DraftCompleter,
  draft: ActDraft,
  original: { readonly act: Act; readonly happenedAtMs: number },
  given: string[],
): Act {
  const { act: was, happenedAtMs } = original;
  const fresh = drafts.complete(draft, happenedAtMs, given);
  switch (fresh.kind) {
    case 'addPlace':
      return was.kind === fresh.kind ? { ...fresh, placeId: was.placeId } : fresh;
    case 'addShelf':
      return was.kind === fresh.kind ? { ...fresh, shelfId: was.shelfId, letter: was.letter } : fresh;
    case 'addVessel':
      return was.kind === fresh.kind ? { ...fresh, vesselId: was.vesselId, number: was.number } : fresh;
    case 'addCulture': {
      if (was.kind !== fresh.kind) return fresh;
      const standing =
        fresh.standing === null || was.standing === null
          ? fresh.standing
          : { ...fresh.standing, batchId: was.standing.batchId, code: was.standing.code };
      return { ...fresh, cultureId: was.cultureId, standing };
    }
    case 'startBatch':
      return withMasses(was.kind === fresh.kind ? { ...fresh, batchId: was.batchId, code: was.code } : fresh);
    case 'transfer':
    case 'blend':
    case 'drawAndRefill':
      return was.kind === fresh.kind
        ? { ...fresh, newBatch: sameBatch(fresh.newBatch, was.newBatch) }
        : fresh;
    case 'split': {
      if (was.kind !== fresh.kind) return fresh;
      const parts = fresh.parts.map((part, index) => ({
        ...part,
        newBatch: sameBatch(part.newBatch, was.parts[index]?.newBatch ?? null),
      }));
      return { ...fresh, parts };
    }
    default:
      return fresh;
  }
}

interface Begun {
  readonly batchId: string;
  readonly code: string;
}

function sameBatch<B extends Begun>(now: B | null, was: B | null): B | null {
  return now === null || was === null ? now : { ...now, batchId: was.batchId, code: was.code };
}
