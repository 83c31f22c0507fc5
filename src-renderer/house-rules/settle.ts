import type { HouseRules } from '#core/contract/house-rules.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';

/** Settles a part of the house rules; the rest stays as it is. */
export function settle(change: Partial<HouseRules>): void {
  void cellar.settle({ ...cellar.rules, ...change });
}
