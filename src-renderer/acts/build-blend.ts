import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { stageOrNone } from './build-liquid.ts';
import type { FormReader } from './form-reader.ts';
import { NEW_BATCH_FIELDS, readNewBatch } from './new-batch.ts';
import { partCount, partField } from './numbered-rows.ts';

export const BLEND_PARTS = { low: 1, high: 24 } as const;
export const BLEND_PART_TEXTS = ['volumeUl'] as const;
export const BLEND_FIELDS = { toVesselId: '', parts: '2', ...NEW_BATCH_FIELDS, toStage: '' } as const;

/** Pouring several liquids together. `receiverHolds` says whether something stands in the receiver, which they then join. */
export function buildBlend(read: FormReader, given: { readonly receiverHolds: boolean }): ActDraft {
  const toVesselId = read.id<VesselId>('toVesselId', 'Choose the vessel to blend in.');
  const parts = Array.from({ length: partCount(read.form.fields, BLEND_PARTS) }, (_, part) => {
    const at = (field: string): string => partField(part, field);
    const fromVesselId = read.id<VesselId>(
      at('fromVesselId'),
      'Choose the vessel to pour from, or take this line away.',
    );
    const again = Array.from({ length: part }, (__, earlier) =>
      read.raw(partField(earlier, 'fromVesselId')),
    ).includes(fromVesselId);
    if (fromVesselId !== '' && again) {
      read.problem(at('fromVesselId'), 'This vessel is among those above already. Choose another.');
    } else if (fromVesselId !== '' && fromVesselId === toVesselId) {
      read.problem(at('fromVesselId'), 'This is the vessel that is blended in. Take this line away.');
    }
    return { fromVesselId, volumeUl: read.volume(at('volumeUl')) };
  });
  const newBatch = readNewBatch(read, '', given.receiverHolds);
  const toStage = stageOrNone(read, 'toStage');
  read.when();
  return { kind: 'blend', toVesselId, parts, newBatch, toStage };
}
