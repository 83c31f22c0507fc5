import type { HouseRules } from '#core/contract/house-rules.ts';
import type { FillRecord } from '#core/ledger/records.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import type { LiquidStory } from '../shelves/liquid-story.ts';
import type { Standing } from '../shelves/standing-facts.ts';
import type { StandingTold } from '../shelves/standing-told.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { safetyFacts, type BookFacts } from './safety-facts.ts';
import { verdictsOf } from './verdicts.ts';
import type { Verdict } from '#core/contract/verdict.ts';

/** Verdicts on what stands in a vessel, from all that the book knows of it now. */
export interface VerdictSource {
  /** What was told of what stands there, as far as it still counts. */
  told(fill: FillRecord): ToldFacts;
  of(standing: Standing, rules: Pick<HouseRules, 'jurisdiction'>, nowMs: number): Verdict[];
  /** The verdicts with the facts they go by: what may be printed of a reading is asked of the same ones. */
  withFacts(
    standing: Standing,
    rules: Pick<HouseRules, 'jurisdiction'>,
    nowMs: number,
  ): { readonly facts: SafetyFacts; readonly verdicts: Verdict[] };
}

export function openVerdicts(records: RecordStore, story: LiquidStory, told: StandingTold): VerdictSource {
  const joined = ({ origins, batchId }: FillRecord) => {
    const batches = Object.keys(origins).flatMap((id) => {
      const batch = id === batchId ? null : records.get('batch', id);
      return batch === null ? [] : [batch];
    });
    return {
      added: new Set(batches.flatMap((batch) => [...story.added(batch)])),
      mead: batches.some(({ ferment }) => ferment === 'mead'),
    };
  };
  const bookOf = (
    { vessel, fill, batch, readings }: Standing,
    rules: Pick<HouseRules, 'jurisdiction'>,
    nowMs: number,
  ): BookFacts => {
    const { keepsCultureId } = batch;
    const keeps = keepsCultureId === null ? null : (records.get('culture', keepsCultureId)?.sort ?? null);
    return {
      ...{ vessel, fill, batch, readings, rules, nowMs, keeps, told: told.told(fill) },
      ...{ ...story.turns(batch), cutWithWater: story.cutWithWater(batch), added: story.added(batch) },
      joined: joined(fill),
    };
  };
  return {
    told: (fill) => told.told(fill),
    of: (standing, rules, nowMs) =>
      verdictsOf(bookOf(standing, rules, nowMs), told.overrulings(standing.fill)),
    withFacts(standing, rules, nowMs) {
      const book = bookOf(standing, rules, nowMs);
      return { facts: safetyFacts(book), verdicts: verdictsOf(book, told.overrulings(standing.fill)) };
    },
  };
}
