import type { Use } from '../safety/rule.ts';
import type { SugarSource } from '../must/must-sugar.ts';
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

/** What a kind of ferment is, as data: schedule, safety, shelf and forms are handed this and never ask for the kind. */
export interface FermentProfile {
  readonly kind: FermentKind;
  /** The stages such a batch usually goes through, in order. */
  readonly path: readonly FilledStage[];
  readonly rounds: Partial<Record<FilledStage, readonly Round[]>>;
  /** Which reading is chalked on the ticket in each stage, best first. */
  readonly headline: Partial<Record<FilledStage, readonly ('gravity' | 'acidity' | 'ph')[]>>;
  /** The same for stages not named there, such as held or kept apart. */
  readonly headlineOtherwise: readonly ('gravity' | 'acidity' | 'ph')[];
  /** Uses the safety rules are asked about, worst first on the leaf. */
  readonly uses: readonly Use[];
  /** The acidity a keeper aims at, g acetic/100 mL; null where acidity is not the aim. */
  readonly targetAcidityGramsPer100Ml: number | null;
  /** Which published sugar figures apply to its must; null where alcohol is not foreseen from it. */
  readonly sugarSource: SugarSource | null;
  /** True when its sugar is meant to become alcohol and then acid. */
  readonly becomesVinegar: boolean;
}
