import type { FermentKind, FilledStage } from '../ledger/stage.ts';

/** What a keeper does when something is due. */
export type DueAct =
  'pitch' | 'gravity' | 'acidity' | 'ph' | 'rack' | 'seed' | 'taste' | 'look' | 'feed' | 'bottle';

/**
 * How often an act comes round in a stage, in days. Counted from the last time it was done in that stage, or from
 * the day the stage began. `graceDays` after the best day it is late. `why` names where the interval comes from.
 */
export interface Round {
  readonly act: DueAct;
  readonly firstAfterDays: number;
  /** Null: it is done once in the stage. */
  readonly everyDays: number | null;
  readonly graceDays: number;
  readonly why: DueReason;
}

export type DueReason =
  | 'practice'
  | 'rule'
  | 'gravityStands'
  | 'gravityStandsHigh'
  | 'targetReached'
  | 'closureAgainstStage'
  | 'acidBelowLine';

/** The part of a ferment's profile that the schedule is handed. */
export interface RoundPlan {
  readonly kind: FermentKind;
  /** What comes round in each stage; nothing in a stage that is not named. */
  readonly rounds: Partial<Record<FilledStage, readonly Round[]>>;
  /** The acidity a keeper aims at, g acetic/100 mL; null where acidity is not the aim. */
  readonly targetAcidityGramsPer100Ml: number | null;
}
