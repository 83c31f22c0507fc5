import type { VesselDetail } from '#core/contract/shelves.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';

/** What was told of the liquid in a vessel and of the vessel, as far as it still counts; nothing of an empty one. */
export function toldSoFar({ told }: Pick<VesselDetail, 'told'>): Promise<ToldFacts> {
  return Promise.resolve(told);
}
