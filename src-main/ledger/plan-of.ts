import type { Plan } from '#core/contract/ledger.ts';
import type { OriginShare } from '#core/contract/shelves.ts';
import type { Outcome } from '#core/ledger/entry.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { BatchRecord, FillRecord } from '#core/ledger/records.ts';
import type { RecordStore } from './record-store.ts';

/** What an act would do, as a keeper weighs it: what stands where before and after, and what leaves the vessels. */
export function planOf(
  records: RecordStore,
  { changes, postings, asAdded = [] }: Pick<Outcome, 'changes' | 'postings' | 'asAdded'>,
): Plan {
  const batchOf = (batchId: string): BatchRecord | null => {
    const made = changes.find((change) => change.kind === 'batch' && change.id === batchId);
    return made?.kind === 'batch' ? made.after : records.get('batch', batchId);
  };
  const vessels = changes.flatMap((change) => {
    if (change.kind !== 'fill') return [];
    const vessel = records.get('vessel', change.id);
    if (vessel === null) return [];
    const batchId = (change.after ?? change.before)?.batchId;
    const name = (batchId === undefined ? null : batchOf(batchId))?.name ?? vessel.name;
    return [
      {
        ...{ vesselId: vessel.id, name, capacityUl: vessel.capacityUl },
        ...{ beforeUl: change.before?.volumeUl ?? 0, afterUl: change.after?.volumeUl ?? 0 },
        madeOf: isMadeAnew(change.before, change.after) ? sharesOf(change.after, batchOf) : [],
      },
    ];
  });
  const inside = new Set<string>(vessels.map((each) => each.vesselId));
  return { vessels, outside: postings.filter(({ account }) => !inside.has(account)), asAdded: [...asAdded] };
}

/** Taking out leaves the shares as they were, but for the rounding of the smallest of them. */
const SAME_SHARE = 1e-6;

/** True when what stands there then is made of something else than before. */
function isMadeAnew(before: FillRecord | null, after: FillRecord | null): after is FillRecord {
  if (after === null) return false;
  if (before === null) return true;
  const [was, is] = [wholeOf(before), wholeOf(after)];
  const batchIds = new Set([...Object.keys(before.origins), ...Object.keys(after.origins)]);
  return [...batchIds].some(
    (id) => Math.abs((before.origins[id] ?? 0) / was - (after.origins[id] ?? 0) / is) > SAME_SHARE,
  );
}

function wholeOf({ origins }: FillRecord): number {
  return Object.values(origins).reduce((sum, tokens) => sum + tokens, 0);
}

/** The exact shares of a liquid, largest first; none when it is all of the batch it stands as. */
function sharesOf(fill: FillRecord, batchOf: (batchId: string) => BatchRecord | null): OriginShare[] {
  const shares = Object.entries(fill.origins);
  if (shares.length === 1 && shares[0]?.[0] === fill.batchId) return [];
  const ofTokens = wholeOf(fill);
  return shares
    .map(([batchId, tokens]) => {
      const batch = batchOf(batchId);
      const named = { code: batch?.code ?? '', name: batch?.name ?? '' };
      return { batchId: batchId as BatchId, ...named, tokens, ofTokens };
    })
    .toSorted((a, b) => b.tokens - a.tokens);
}
