import type { Act, ActDraft } from '#core/ledger/act.ts';

/** A line as its keeper asked for it: without the ids, numbers and codes that were given out. Null for a line that corrects others. */
export function draftOf(act: Act): ActDraft | null {
  switch (act.kind) {
    case 'reverse':
    case 'restate':
      return null;
    case 'addPlace': {
      const { placeId: _given, ...draft } = act;
      return draft;
    }
    case 'addShelf': {
      const { shelfId: _given, letter: _too, ...draft } = act;
      return draft;
    }
    case 'addVessel': {
      const { vesselId: _given, number: _too, ...draft } = act;
      return draft;
    }
    case 'addCulture': {
      const { cultureId: _given, standing, ...draft } = act;
      const stands = standing === null ? null : { vesselId: standing.vesselId, volumeUl: standing.volumeUl };
      return { ...draft, standing: stands };
    }
    case 'keepBatchFilter': {
      const { filterId: _given, ...draft } = act;
      return draft;
    }
    case 'startBatch': {
      const { batchId: _given, code: _too, massesUg: _weighed, ...draft } = act;
      return draft;
    }
    case 'addTo':
    case 'seed': {
      const { massesUg: _weighed, ...draft } = act;
      return draft;
    }
    case 'transfer':
    case 'blend':
    case 'drawAndRefill':
      return { ...act, newBatch: batchAsked(act.newBatch) };
    case 'split':
      return { ...act, parts: act.parts.map((part) => ({ ...part, newBatch: batchAsked(part.newBatch) })) };
    default:
      return act;
  }
}

type Begun = Extract<Act, { kind: 'transfer' }>['newBatch'];
type Asked = Extract<ActDraft, { kind: 'transfer' }>['newBatch'];

function batchAsked(begun: Begun): Asked {
  return begun === null ? null : { name: begun.name, ferment: begun.ferment };
}

/** What a line told anew then says, with what it had given out, so that it can be put into words. */
export function actOfDraft(was: Act, draft: ActDraft): Act {
  const begun = <B extends object>(now: B | null, old: object | null | undefined): B | null =>
    now === null ? null : { ...NEW_BATCH, ...old, ...now };
  if (draft.kind !== was.kind) return draft as Act;
  switch (draft.kind) {
    case 'transfer':
    case 'blend':
    case 'drawAndRefill':
      return { ...draft, newBatch: begun(draft.newBatch, (was as typeof draft).newBatch) } as Act;
    case 'split': {
      const parts = draft.parts.map((part, i) => ({
        ...part,
        newBatch: begun(part.newBatch, (was as typeof draft).parts[i]?.newBatch),
      }));
      return { ...draft, parts } as Act;
    }
    default:
      return { ...was, ...draft } as Act;
  }
}

const NEW_BATCH = { batchId: '', code: '' };
