import type { EntryRow } from '#core/contract/ledger.ts';

/** A line as it now reads: what it was told anew as, where it was. */
export function asItReads(entry: EntryRow): EntryRow {
  const { restated } = entry;
  if (restated === null) return entry;
  const { act, happenedAtMs, names } = restated;
  return { ...entry, act, happenedAtMs, names };
}

/** What can be told anew: every line but those that correct others, and those that are struck. */
export function mayBeCorrected({ act, struck }: Pick<EntryRow, 'act' | 'struck'>): boolean {
  return !struck && act.kind !== 'reverse' && act.kind !== 'restate';
}
