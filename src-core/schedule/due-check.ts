import type { DueAct, DueReason, Round, RoundPlan } from './round.ts';
import type { Closure, FilledStage } from '../ledger/stage.ts';
import { closureConcern, concernSince } from './closure-concern.ts';

/** One thing due: the window in which it is well done, epoch ms. After `latestMs` it is late. */
export interface DueWindow {
  readonly act: DueAct;
  readonly earliestMs: number;
  readonly idealMs: number;
  readonly latestMs: number;
  readonly why: DueReason;
}

/** What the schedule needs to know of one standing liquid; no clock: what is due follows from the book alone. */
export interface StandingFacts {
  readonly profile: RoundPlan;
  readonly stage: FilledStage;
  readonly stageSinceMs: number;
  readonly closure: Closure;
  /** Since when this liquid has stood under this closure; null when the book does not tell. */
  readonly closureSinceMs: number | null;
  /** Gravities of this liquid in this stage, corrected, newest first. */
  readonly gravities: readonly { readonly atMs: number; readonly sg: number }[];
  /** When each act was last done in this stage. */
  readonly lastDoneMs: Partial<Record<DueAct, number>>;
  readonly acidity: { readonly atMs: number; readonly gramsPer100Ml: number } | null;
  /** The newest pH with its U (about 95 %); a U of null is not known. */
  readonly ph: { readonly atMs: number; readonly ph: number; readonly uncertainty: number | null } | null;
}

export const DAY_MS = 86_400_000;
/** Two gravities this close are the same on an ordinary hydrometer (safety rule PRS-01, spread). */
const SAME_GRAVITY_SG = 0.001;
/** Two equal gravities must lie at least this far apart to show that the ferment stands still (PRS-01, gap of 48 h). */
const STANDS_AFTER_MS = 2 * DAY_MS;
/** A ferment that stands above this has more likely stuck than ended (common practice, no source). */
const STANDS_HIGH_SG = 1.01;
/** Below this pH a vegetable ferment is tested weekly rather than daily (21 CFR 114, 4.6; extension advice S24). */
const ACID_FOOD_PH = 4.6;

/** All that is due of one standing liquid, most pressing first (by the day it becomes late). Empty when nothing is. */
export function dueChecks(facts: StandingFacts): DueWindow[] {
  const windows = (facts.profile.rounds[facts.stage] ?? []).map((round) => roundWindow(facts, round));
  const due = [...windows.map((w) => w), ...standsStill(facts), ...targetReached(facts), ...airWrong(facts)];
  const resting = due.some((w) => w.why === 'gravityStands') ? due.filter((w) => w.act !== 'gravity') : due;
  return resting.sort((a, b) => a.latestMs - b.latestMs || a.idealMs - b.idealMs);
}

function roundWindow(facts: StandingFacts, round: Round): DueWindow {
  const last = facts.lastDoneMs[round.act];
  const every = round.everyDays === null ? round.firstAfterDays : roundedEvery(facts, round, round.everyDays);
  const days = last === undefined ? round.firstAfterDays : every;
  const from = last ?? facts.stageSinceMs;
  return {
    act: round.act,
    earliestMs: Math.round(from + 0.7 * days * DAY_MS),
    idealMs: Math.round(from + days * DAY_MS),
    latestMs: Math.round(from + (days + round.graceDays) * DAY_MS),
    why: round.why,
  };
}

/** Once clearly under the line, with its error, a vegetable ferment is tested weekly: as long as its pH then counts (MEAS-04). */
function roundedEvery(facts: StandingFacts, round: Round, everyDays: number): number {
  const { ph } = facts;
  const soured = ph !== null && ph.uncertainty !== null && ph.ph + ph.uncertainty < ACID_FOOD_PH;
  return round.act === 'ph' && soured ? 7 : everyDays;
}

/** Two equal gravities two days apart: time to rack, or to look why it stopped so high. */
function standsStill(facts: StandingFacts): DueWindow[] {
  if (facts.stage !== 'yeast') return [];
  const [newest] = facts.gravities;
  if (newest === undefined) return [];
  const same = facts.gravities.filter((g) => Math.abs(g.sg - newest.sg) <= SAME_GRAVITY_SG + 1e-9);
  const since = same.find((g) => newest.atMs - g.atMs >= STANDS_AFTER_MS);
  const between = facts.gravities.filter((g) => since !== undefined && g.atMs >= since.atMs);
  if (since === undefined || between.length !== same.filter((g) => g.atMs >= since.atMs).length) return [];
  const high = newest.sg > STANDS_HIGH_SG;
  return [
    {
      act: high ? 'look' : 'rack',
      earliestMs: newest.atMs,
      idealMs: newest.atMs + (high ? 0 : 3 * DAY_MS),
      latestMs: newest.atMs + (high ? 2 : 21) * DAY_MS,
      why: high ? 'gravityStandsHigh' : 'gravityStands',
    },
  ];
}

/** The aim is reached: bottle before the mother, out of alcohol, eats the acid. */
function targetReached(facts: StandingFacts): DueWindow[] {
  const target = facts.profile.targetAcidityGramsPer100Ml;
  if (facts.stage !== 'vinegar' || target === null || facts.acidity === null) return [];
  if (facts.acidity.gramsPer100Ml < target) return [];
  const atMs = facts.acidity.atMs;
  return [
    {
      act: 'bottle',
      earliestMs: atMs,
      idealMs: atMs + 3 * DAY_MS,
      latestMs: atMs + 10 * DAY_MS,
      why: 'targetReached',
    },
  ];
}

function airWrong(facts: StandingFacts): DueWindow[] {
  if (closureConcern(facts.closure, facts.stage, facts.profile.kind) === null) return [];
  const from = concernSince(facts.stageSinceMs, facts.closureSinceMs);
  return [
    { act: 'look', earliestMs: from, idealMs: from, latestMs: from + DAY_MS, why: 'closureAgainstStage' },
  ];
}
