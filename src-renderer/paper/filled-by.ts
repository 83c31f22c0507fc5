import type { Labelled } from '#core/contract/labels.ts';
import type { Posted } from '#core/contract/ledger.ts';

/** What a line that was just written has filled and so wants labels: the vessels it put liquid into, or its bottles. */
export function filledBy({ entry: { act, entryId } }: Pick<Posted, 'entry'>): readonly Labelled[] {
  switch (act.kind) {
    case 'bottle':
      return [{ kind: 'lot', lotId: entryId }];
    case 'startBatch':
      return [{ kind: 'vessel', vesselId: act.vesselId }];
    case 'transfer':
    case 'blend':
      return [{ kind: 'vessel', vesselId: act.toVesselId }];
    case 'split':
      return act.parts.map(({ toVesselId }) => ({ kind: 'vessel', vesselId: toVesselId }));
    case 'drawAndRefill':
      return act.toVesselId === null ? [] : [{ kind: 'vessel', vesselId: act.toVesselId }];
    default:
      return [];
  }
}
