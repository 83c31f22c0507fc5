import type { ToldFacts, ToldGroup } from '../ledger/told-facts.ts';
import type { SafetyFacts } from './facts.ts';
import type { FactsOfUses } from './facts-of-uses.ts';

/** The told facts as the rules read them. */
export function asFactsOfUses(told: ToldFacts): FactsOfUses & Partial<Pick<SafetyFacts, 'labelAudience'>> {
  return Object.fromEntries(Object.entries(told).filter(([, value]) => value !== undefined));
}

type InStep<Groups extends Record<ToldGroup, true>> = Groups;
/** Fails to compile when what a keeper can tell and what the rules read drift apart. */
export type ToldInStep = InStep<{
  [G in ToldGroup]: NonNullable<ToldFacts[G]> extends NonNullable<SafetyFacts[G]> ? true : never;
}>;
