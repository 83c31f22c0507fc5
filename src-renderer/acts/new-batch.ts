import type { ActDraft } from '#core/ledger/act.ts';
import { FERMENT_KIND_WORDS } from '../words/choice-words.ts';
import type { FormReader } from './form-reader.ts';

type NewBatch = Extract<ActDraft, { kind: 'transfer' }>['newBatch'];

/** What a form asks of a batch that may begin with what is poured. '' means that it stays the same batch. */
export const NEW_BATCH_FIELDS = { batch: '', newName: '', newFerment: '' } as const;

/**
 * The batch that begins, or null when what is poured stays the batch it was or joins what stands there. `prefix` comes
 * before the names of the fields.
 */
export function readNewBatch(read: FormReader, prefix: string, receiverHolds: boolean): NewBatch {
  if (read.raw(`${prefix}batch`) !== 'own' || receiverHolds) return null;
  return {
    name: read.name(`${prefix}newName`, 'Name the new batch.'),
    ferment: read.choice(`${prefix}newFerment`, FERMENT_KIND_WORDS, 'Say what the new batch is.'),
  };
}
