import type { Use } from '../safety/rule.ts';
import type { SugarSource } from '../must/must-sugar.ts';
import type { FermentKind, FilledStage } from '../ledger/stage.ts';
import type { RoundPlan } from '../schedule/round.ts';

/** What a kind of ferment is, as data: schedule, safety, shelf and forms are handed this and never ask for the kind. */
export interface FermentProfile extends RoundPlan {
  readonly kind: FermentKind;
  /** The stages such a batch usually goes through, in order. */
  readonly path: readonly FilledStage[];
  /** Which reading is chalked on the ticket in each stage, best first. */
  readonly headline: Partial<Record<FilledStage, readonly ('gravity' | 'acidity' | 'ph')[]>>;
  /** The same for stages not named there, such as held or kept apart. */
  readonly headlineOtherwise: readonly ('gravity' | 'acidity' | 'ph')[];
  /** Uses the safety rules are asked about, worst first on the leaf. */
  readonly uses: readonly Use[];
  /** Which published sugar figures apply to its must; null where alcohol is not foreseen from it. */
  readonly sugarSource: SugarSource | null;
  /** True when its sugar is meant to become alcohol and then acid. */
  readonly becomesVinegar: boolean;
}
