import type { EpochMs } from '../base/ports.ts';
import type { ReadingValues } from '../ledger/act.ts';
import type { BatchId, VesselId } from '../ledger/ids.ts';
import { sameDay, type ReadingWay } from './read-cell.ts';
import type { ReadRow } from './read-row.ts';
import { rowProblem, type RowProblem } from './row-problem.ts';

/** A vessel as a row may name it, with what stands in it. */
export interface VesselKnown {
  readonly vesselId: VesselId;
  readonly number: number;
  readonly retired: boolean;
  /** What a keeper calls it: its place and its name or its number. */
  readonly label: string;
  readonly standing: { readonly batchId: BatchId; readonly sinceMs: EpochMs } | null;
}

/** What of the cellar a row is held against. */
export interface CellarKnown {
  vesselsCalled(text: string): readonly VesselKnown[];
  batchesCalled(text: string): readonly BatchId[];
  vessel(id: VesselId): VesselKnown | null;
  /** The vessels in which a batch stands now. */
  standingOf(batchId: BatchId): readonly VesselKnown[];
  /** Readings already in the book of a vessel or a batch at one moment. */
  readingsAt(
    of: { readonly vesselId?: VesselId; readonly batchId?: BatchId },
    atMs: EpochMs,
  ): readonly ReadingValues[];
}

export type Placed =
  | { readonly outcome: 'alreadyThere'; readonly vessel: VesselKnown | null; readonly atMs: EpochMs }
  | { readonly outcome: 'ready'; readonly vessel: VesselKnown; readonly atMs: EpochMs }
  | { readonly outcome: 'refused'; readonly vessel: VesselKnown | null; readonly problem: RowProblem };

/** How far ahead of the clock a reading may be dated: as far as the book allows. */
const AHEAD_MS = 5 * 60_000;

/**
 * Finds the vessel a row was read from, and whether the book has the reading already. A row that names a batch alone goes to
 * the one vessel it stands in.
 */
export function placeRow(
  row: ReadRow & { readonly atMs: EpochMs },
  cellar: CellarKnown,
  way: ReadingWay,
  otherwise: VesselId | null,
): Placed {
  const vessels =
    row.vessel !== ''
      ? cellar.vesselsCalled(row.vessel)
      : otherwise === null
        ? []
        : [cellar.vessel(otherwise)];
  const [named = null, second = null] = vessels;
  const refuse = (problem: RowProblem): Placed => ({ outcome: 'refused', vessel: named, problem });
  if (row.vessel !== '' && named === null) return refuse(rowProblem('NoSuchVessel', 'vessel', row.vessel));
  if (second !== null) {
    const known = vessels.flatMap((vessel) => (vessel === null ? [] : [vessel.label]));
    return refuse(rowProblem('SeveralVessels', 'vessel', row.vessel, { known: known.slice(0, 10) }));
  }
  const batches = row.batch === '' ? [] : cellar.batchesCalled(row.batch);
  if (row.batch !== '' && batches.length === 0) return refuse(rowProblem('NoSuchBatch', 'batch', row.batch));
  if (batches.length > 1) {
    return refuse(rowProblem('SeveralBatches', 'batch', row.batch, { number: batches.length }));
  }
  const batchId = batches[0] ?? null;
  const isThere = (atMs: EpochMs): boolean => {
    const of = named !== null ? { vesselId: named.vesselId } : batchId !== null ? { batchId } : null;
    return of !== null && cellar.readingsAt(of, atMs).some((values) => saysAll(values, row.stated));
  };
  const dayMs = row.toTheMinute ? row.atMs : passedBy(row.atMs, way);
  if (isThere(dayMs)) return { outcome: 'alreadyThere', vessel: named, atMs: dayMs };
  const found = named === null ? whereStands(cellar, row, batchId) : named;
  if ('type' in found) return refuse(found);
  const misfit = misfitOf(found, row, batchId);
  if (misfit !== null) return { outcome: 'refused', vessel: found, problem: misfit };
  const beganMs = found.standing?.sinceMs ?? 0;
  const onBeginning = !row.toTheMinute && dayMs < beganMs && sameDay(dayMs, beganMs, way.localTime);
  const atMs = onBeginning ? beganMs : dayMs;
  if (isThere(atMs)) return { outcome: 'alreadyThere', vessel: found, atMs };
  if (atMs > way.nowMs + AHEAD_MS) return refuse(rowProblem('InTheFuture', 'when', row.typed['when'] ?? ''));
  if (atMs < beganMs) {
    const began = rowProblem('BeforeItBegan', 'when', row.typed['when'] ?? '', { number: beganMs });
    return { outcome: 'refused', vessel: found, problem: began };
  }
  return { outcome: 'ready', vessel: found, atMs };
}

/** A day without a time of day is its noon; while that is still to come, its beginning. */
function passedBy(noonMs: EpochMs, { nowMs, localTime }: ReadingWay): EpochMs {
  if (noonMs <= nowMs || !sameDay(noonMs, nowMs, localTime)) return noonMs;
  const midnight = { ...localTime.localOf(noonMs), hour: 0, minute: 0 };
  // On a night that skips midnight the day begins an hour later.
  return localTime.epochOf(midnight) ?? localTime.epochOf({ ...midnight, hour: 1 }) ?? noonMs;
}

function whereStands(cellar: CellarKnown, row: ReadRow, batchId: BatchId | null): VesselKnown | RowProblem {
  if (batchId === null) return rowProblem('NoVessel', 'vessel', '');
  const standing = cellar.standingOf(batchId);
  const [one, another] = standing;
  if (one === undefined) return rowProblem('BatchStandsNowhere', 'batch', row.batch);
  if (another === undefined) return one;
  const known = standing.map(({ label }) => label).slice(0, 10);
  return rowProblem('BatchStandsTwice', 'batch', row.batch, { known });
}

function misfitOf(vessel: VesselKnown, row: ReadRow, batchId: BatchId | null): RowProblem | null {
  if (vessel.retired) return rowProblem('VesselRetired', 'vessel', row.vessel, { number: vessel.number });
  if (vessel.standing === null)
    return rowProblem('VesselEmpty', 'vessel', row.vessel, { number: vessel.number });
  return batchId !== null && vessel.standing.batchId !== batchId
    ? rowProblem('HoldsAnother', 'batch', row.batch, { known: [vessel.label] })
    : null;
}

const NEAR = 1e-9;

/** True when a reading of the book says everything that a row states. */
export function saysAll(values: ReadingValues, stated: Partial<ReadingValues>): boolean {
  return says(values, stated);
}

function says(written: unknown, stated: unknown): boolean {
  if (stated === null || stated === undefined || stated === '') return true;
  if (typeof stated === 'number') {
    return typeof written === 'number' && Math.abs(written - stated) <= NEAR * Math.max(1, Math.abs(stated));
  }
  if (typeof stated !== 'object') return written === stated;
  if (typeof written !== 'object' || written === null) return false;
  return Object.entries(stated).every(([key, value]) =>
    says((written as Record<string, unknown>)[key], value),
  );
}
