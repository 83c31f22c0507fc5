import type { EntryRow } from '#core/contract/ledger.ts';
import type { VesselDetail } from '#core/contract/shelves.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { client } from '../backend/call.ts';

/** Lines of the book asked for at a time, and how often at most. */
const PAGE = 500;
const PAGES = 8;

/**
 * What was told of the liquid in a vessel and still stands: of each group the newest telling that is not struck. Lines of the
 * batch it was taken from count up to the moment it was taken.
 */
export async function toldSoFar(detail: VesselDetail): Promise<ToldFacts> {
  const { row, parentBatch } = detail;
  if (row.batchId === null) return {};
  const own = linesOf({ kind: 'batch', batchId: row.batchId });
  const before =
    parentBatch === null ? Promise.resolve([]) : linesOf({ kind: 'batch', batchId: parentBatch.batchId });
  const startedAtMs = row.startedAtMs ?? -Infinity;
  const earlier = (await before).filter(({ happenedAtMs }) => happenedAtMs <= startedAtMs);
  return newestTold([...earlier, ...(await own)], {
    vesselId: row.vesselId,
    sinceMs: row.sinceMs ?? -Infinity,
  });
}

/**
 * The newest telling of each group among lines of the book: those about this vessel, and those from before the liquid came into
 * it, wherever it stood then.
 */
export function newestTold(
  entries: readonly Pick<EntryRow, 'act' | 'struck' | 'happenedAtMs' | 'sequence'>[],
  here: { readonly vesselId: string; readonly sinceMs: number },
): ToldFacts {
  const told = entries
    .filter(({ struck }) => !struck)
    .flatMap(({ act, happenedAtMs, sequence }) => {
      if (act.kind !== 'tellFacts' && act.kind !== 'heat') return [];
      if (act.vesselId !== here.vesselId && happenedAtMs > here.sinceMs) return [];
      return [{ facts: act.kind === 'heat' ? toldByHeating(act) : act.facts, happenedAtMs, sequence }];
    })
    .toSorted((a, b) => a.happenedAtMs - b.happenedAtMs || a.sequence - b.sequence);
  return Object.assign({}, ...told.map(({ facts }) => facts)) as ToldFacts;
}

/** Heating is told by the act itself: how hot, by a thermometer, and how long. */
function toldByHeating(act: { readonly reachedCelsius: number; readonly minutes: number }): ToldFacts {
  return {
    heating: {
      reachedCelsius: { value: act.reachedCelsius, uncertainty: null, method: 'thermometer' },
      ...{ simmered: null, minutes: act.minutes, pot: null, calledPasteurised: null, bottleGlass: null },
    },
  };
}

type About = Parameters<typeof client.ledger.entries>[0]['about'];

async function linesOf(about: About): Promise<readonly EntryRow[]> {
  const lines: EntryRow[] = [];
  let beforeSequence: number | null = null;
  for (let page = 0; page < PAGES; page += 1) {
    const found: { entries: EntryRow[]; more: boolean } = await client.ledger.entries({
      about,
      beforeSequence,
      limit: PAGE,
    });
    lines.push(...found.entries);
    beforeSequence = found.entries.at(-1)?.sequence ?? null;
    if (!found.more || beforeSequence === null) break;
  }
  return lines;
}
