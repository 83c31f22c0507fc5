import type { ShelfRow, VesselDetail } from '#core/contract/shelves.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { isDefinedError, safe } from '@orpc/client';
import { client } from '../backend/call.ts';

/** So many vessels are asked after one by one; a paper that would need more says what it leaves out. */
export const DETAILS_MAX = 600;
const AT_ONCE = 6;

/**
 * What is known of each filled vessel: its verdicts and all that is due. A vessel that went away meanwhile is left out.
 *
 * @param stopped asked between calls, so that a paper left behind asks for nothing more
 */
export async function detailsOf(
  rows: readonly ShelfRow[],
  stopped: () => boolean,
): Promise<ReadonlyMap<VesselId, VesselDetail>> {
  const wanted = rows.filter(({ stage }) => stage !== 'empty').slice(0, DETAILS_MAX);
  const found = new Map<VesselId, VesselDetail>();
  let next = 0;
  const walk = async (): Promise<void> => {
    while (next < wanted.length && !stopped()) {
      const row = wanted[next];
      next += 1;
      if (row === undefined) return;
      const { error, data } = await safe(client.shelves.vessel({ vesselId: row.vesselId }));
      if (data !== undefined) found.set(row.vesselId, data);
      else if (!isDefinedError(error)) throw error;
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, walk));
  return found;
}
