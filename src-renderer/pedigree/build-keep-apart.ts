import type { PedigreeNode, PedigreeRoot } from '#core/contract/pedigree.ts';
import type { ActDraft } from '#core/ledger/act.ts';
import type { EntryId, VesselId } from '#core/ledger/ids.ts';
import type { FormReader } from '../acts/form-reader.ts';
import { KEEP_APART_WORDS } from '../words/pedigree-words.ts';

const REASON_LEAST = 3;

/** What of a pedigree can be kept apart: what stands in a vessel, and lots with bottles left. */
export interface KeptApart {
  readonly free: readonly PedigreeNode[];
  /** What is kept apart already and stays so. */
  readonly already: readonly PedigreeNode[];
}

export function whatCanBeKeptApart(nodes: readonly PedigreeNode[]): KeptApart {
  const there = nodes.filter(
    ({ kind, standingUl, bottlesLeft }) =>
      (kind === 'batch' && standingUl !== null) || (kind === 'lot' && (bottlesLeft ?? 0) > 0),
  );
  const isApart = ({ stage, keptApartFor }: PedigreeNode): boolean =>
    stage === 'quarantine' || keptApartFor !== '';
  return { free: there.filter((node) => !isApart(node)), already: there.filter(isApart) };
}

/** The field that says whether a node is ticked. */
export const tickOf = ({ key }: Pick<PedigreeNode, 'key'>): string => `tick ${key}`;
export const TICKED = 'yes';

/** All that is ticked, kept apart in one act. */
export function buildKeepApart(
  read: FormReader,
  root: PedigreeRoot,
  free: readonly PedigreeNode[],
): ActDraft {
  const ticked = free.filter((node) => read.raw(tickOf(node)) === TICKED);
  const reason = reasonOf(read);
  if (ticked.length === 0) read.problem('vesselIds', 'Nothing is ticked. Tick what is to be kept apart.');
  const vesselIds = ticked.flatMap(({ kind, vesselId }): VesselId[] =>
    kind === 'batch' && vesselId !== null ? [vesselId] : [],
  );
  const lotIds = ticked.flatMap(({ kind, lotId }): EntryId[] =>
    kind === 'lot' && lotId !== null ? [lotId] : [],
  );
  return { kind: 'quarantine', root, vesselIds: [...new Set(vesselIds)], lotIds, reason };
}

export function buildRelease(read: FormReader, lotId: EntryId): ActDraft {
  return { kind: 'releaseBottles', lotId, reason: reasonOf(read) };
}

function reasonOf(read: FormReader): string {
  const reason = read.note('reason');
  if (reason.length < REASON_LEAST) read.problem('reason', KEEP_APART_WORDS.reason);
  return reason;
}
