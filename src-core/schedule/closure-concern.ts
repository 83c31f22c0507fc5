import type { Closure, FermentKind, FilledStage } from '../ledger/stage.ts';

export type ClosureConcern = 'motherWithoutAir' | 'yeastOpenToAir';

/**
 * A closure that works against the stage. A mother needs air, and yeast is kept from it, since acetic bacteria
 * come with the air (common practice, no source; oxygen is needed by stoichiometry, 0.6946 g per g of alcohol).
 */
export function closureConcern(
  closure: Closure,
  stage: FilledStage,
  ferment: FermentKind,
): ClosureConcern | null {
  const shutsAirOut = closure === 'airlock' || closure === 'cork' || closure === 'bung' || closure === 'lid';
  if (stage === 'vinegar' && shutsAirOut) return 'motherWithoutAir';
  if (stage === 'yeast' && ferment !== 'kombucha' && (closure === 'cloth' || closure === 'open')) {
    return 'yeastOpenToAir';
  }
  return null;
}

/** A closure works against the stage from when both are there: the later of the two changes. */
export function concernSince(stageSinceMs: number, closureSinceMs: number | null): number {
  return closureSinceMs === null ? stageSinceMs : Math.max(stageSinceMs, closureSinceMs);
}
