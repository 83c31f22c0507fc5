import type { Verdict } from '#core/contract/verdict.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { ActRequest } from '../acts/act-request.ts';
import { asksToLook, readingWanted, wantedFacts } from './wanted-facts.ts';

/** A press that would bring a verdict forward. */
export interface NextAct {
  readonly label: string;
  readonly request: ActRequest;
}

/** What a verdict waits for, as the forms that take it. Acidity is titrated, step by step; the rest is read. */
export function nextActs(verdict: Verdict, vesselId: VesselId): readonly NextAct[] {
  const acts: NextAct[] = [];
  const reading = readingWanted(verdict);
  const byTitration = reading !== null && TITRATED.has(reading);
  if (byTitration) acts.push({ label: 'Titrate…', request: { kind: 'titrate', vesselId } });
  if (reading !== null && reading !== 'normality' && reading !== 'degassed') {
    acts.push({ label: 'Record a reading…', request: { kind: 'reading', vesselId } });
  }
  if (asksToLook(verdict)) acts.push({ label: 'Look at it…', request: { kind: 'look', vesselId } });
  return acts;
}

const TITRATED: ReadonlySet<string> = new Set(['acidity', 'normality', 'endPoint', 'degassed']);

/** True when there is anything to tell for a use. */
export function isTold(verdict: Verdict): boolean {
  const { needed, others } = wantedFacts(verdict);
  return needed.length + others.length > 0;
}
