import { cautionsOf } from '#core/labels/label-cautions.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import type { DueCheck, ShelfRow, VesselDetail } from '#core/contract/shelves.ts';
import type { Verdict } from '#core/contract/verdict.ts';
import { STAGE_MARKS } from '../marks/stages.ts';
import { calendarDays, clockOf, isoDayOf, sayDays } from './time-words.ts';
import { sayConcern } from './stage-words.ts';
import type { DayBounds } from './due-words.ts';

export const PAPER_NAMES = {
  leaf: 'Leaf for the binder',
  shelves: 'Shelf list',
  due: 'Due list',
  cultures: 'Culture cards',
} as const;

export const REACH_WORDS = { today: 'Late and today', week: 'This week too', all: 'All of it' } as const;

/** `Printed 2026-11-25 15:02`. On every paper, so that an old one is known for what it is. */
export function sayPrinted(nowMs: number): string {
  return `Printed ${isoDayOf(nowMs)} ${clockOf(nowMs)}`;
}

/** The letter and the name of a stage, as paper tells it: `V, Vinegar ferment`. */
export function sayStageOnPaper(stage: ShelfRow['stage']): string {
  const { letter, name } = STAGE_MARKS[stage];
  return `${letter}, ${name}`;
}

const KEPT_APART = 'Kept apart: do not use.';
const HELD = 'Held: find out why before anything is done with it.';

/** Every caution that what stands in a vessel has, the gravest first, none twice. */
export function paperCautions(
  row: Pick<ShelfRow, 'stage' | 'closureConcern'>,
  detail: Pick<VesselDetail, 'verdicts'> | undefined,
): readonly string[] {
  return [
    ...new Set([
      ...(row.stage === 'quarantine' ? [KEPT_APART] : []),
      ...(row.stage === 'held' && row.closureConcern === null ? [HELD] : []),
      ...(row.closureConcern === null ? [] : [sayConcern(row.closureConcern)]),
      ...cautionsOfVerdicts(detail?.verdicts ?? []),
    ]),
  ];
}

/** The very cautions that print on a label; nothing where there is no verdict at all, as of what stands nowhere any more. */
export function cautionsOfVerdicts(verdicts: readonly Verdict[]): readonly string[] {
  return verdicts.length === 0 ? [] : cautionsOf(verdicts);
}

/** When something is due, on paper, where no tag shows it: `3 days late, since 2026-11-22`, `today`, `2026-11-28`. */
export function sayDueDay(due: DueCheck, today: DayBounds): string {
  if (due.latestMs < today.startMs)
    return `${sayDays(calendarDays(due.latestMs, today.startMs))} late, since ${isoDayOf(due.latestMs)}`;
  // A paper is read on other days too.
  if (due.idealMs < today.endMs) return `today, ${isoDayOf(today.startMs)}`;
  return isoDayOf(due.idealMs);
}

/** What a paper has to say when it could not ask after every vessel. */
export function sayNotAsked(missing: number): string {
  const vessels = missing === 1 ? '1 vessel' : `${missing} vessels`;
  return `Cautions were not looked up for ${vessels}. Look at the leaf before anything of it is used.`;
}

/** How a printed leaf counts the readings it holds. */
export function sayReadingsCount(count: number): string {
  if (count === 0) return 'No readings yet.';
  return count === 1 ? '1 reading' : `${count} readings`;
}

/** The name of what an ancestor went into; the leaf's own batch is `this`. */
export function sayInto(
  other: { readonly batchId: BatchId | null; readonly name: string; readonly code: string },
  own: BatchId,
): string {
  if (other.batchId === own) return 'into this';
  return `into ${other.name}${other.code === '' ? '' : ` (${other.code})`}`;
}

/** What stands beside a vessel that somebody has out of the house. */
export function sayHolder(holder: string): string {
  return holder === '' ? '' : `out of the house, with ${holder}`;
}
