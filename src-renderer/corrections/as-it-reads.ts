import type { EntryRow } from '#core/contract/ledger.ts';
import type { VesselId } from '#core/ledger/ids.ts';

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

/** The vessel a line is about: where it was read, or from where the liquid went. */
function vesselOf(act: EntryRow['act']): VesselId | null {
  if ('vesselId' in act) return act.vesselId;
  if ('fromVesselId' in act) return act.fromVesselId;
  if ('about' in act && act.about.kind === 'vessel') return act.about.vesselId;
  return null;
}

export interface Moved {
  readonly from: VesselId;
  readonly to: VesselId;
}

/** From which vessel to which a line was moved by telling it anew; null where it stayed. */
export function movedBy(entry: EntryRow): Moved | null {
  const [from, to] = [vesselOf(entry.act), vesselOf(asItReads(entry).act)];
  return from === null || to === null || from === to ? null : { from, to };
}
