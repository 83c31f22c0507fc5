import type { HouseRules } from '#core/contract/house-rules.ts';
import type { FillRecord } from '#core/ledger/records.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import type { RecordStore } from '../ledger/record-store.ts';
import type { LiquidStory } from '../shelves/liquid-story.ts';
import type { Standing } from '../shelves/standing-facts.ts';
import type { StandingTold } from '../shelves/standing-told.ts';
import { verdictsOf } from './verdicts.ts';
import type { Verdict } from '#core/contract/verdict.ts';

/** Verdicts on what stands in a vessel, from all that the book knows of it now. */
export interface VerdictSource {
  /** What was told of what stands there, as far as it still counts. */
  told(fill: FillRecord): ToldFacts;
  of(standing: Standing, rules: Pick<HouseRules, 'jurisdiction'>, nowMs: number): Verdict[];
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
  return {
    told: (fill) => told.told(fill),
    of({ vessel, fill, batch, readings }, rules, nowMs) {
      const { keepsCultureId } = batch;
      const keeps = keepsCultureId === null ? null : (records.get('culture', keepsCultureId)?.sort ?? null);
      const book = {
        ...{ vessel, fill, batch, readings, rules, nowMs, keeps, told: told.told(fill) },
        ...{ ...story.turns(batch), cutWithWater: story.cutWithWater(batch), added: story.added(batch) },
        joined: joined(fill),
      };
      return verdictsOf(book, told.overrulings(fill));
    },
  };
}
