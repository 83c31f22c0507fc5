import type { EntryRow } from '#core/contract/ledger.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import { LOT_WAYS, type LotWay } from '../acts/build-lot.ts';
import { sayShortDate } from '../words/time-words.ts';

/** One thing that became of bottles of a lot. */
export interface LotStep {
  readonly entryId: EntryId;
  readonly says: string;
}

/** What became of the bottles of a lot by the lines of the diary, oldest first; struck lines say nothing. */
export function lotStory(entries: readonly EntryRow[], lotId: EntryId): readonly LotStep[] {
  const steps: (LotStep & { readonly atMs: number })[] = [];
  for (const { entryId, struck, restated, act: written, happenedAtMs: writtenAtMs } of entries) {
    const act = restated?.act ?? written;
    const atMs = restated?.happenedAtMs ?? writtenAtMs;
    if (struck || (act.kind !== 'takeBottles' && act.kind !== 'returnBottles') || act.lotId !== lotId)
      continue;
    const how: LotWay = act.kind === 'returnBottles' ? 'returned' : act.how;
    const whom = act.kind === 'takeBottles' && act.holder !== '' ? ` to ${act.holder}` : '';
    const said = `${act.bottles} ${how === 'given' ? 'given' : LOT_WAYS[how]}${whom}, ${sayShortDate(atMs)}`;
    steps.push({ entryId, atMs, says: act.note === '' ? said : `${said} (${act.note})` });
  }
  return steps.toSorted((a, b) => a.atMs - b.atMs);
}
