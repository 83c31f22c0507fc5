import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { Closure } from '#core/ledger/stage.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { CLOSURE_WORDS } from '../words/choice-words.ts';
import type { Step } from './act-form.svelte.ts';
import type { FormReader } from './form-reader.ts';

/** How a lid lies, which the lid alone does not tell. */
export const LID_WORDS = {
  looseLid: 'Loose',
  burpedByHand: 'Tight, let off by hand',
  gasTight: 'Tight',
} as const;

type Closes = NonNullable<ToldFacts['closing']>['closure'];

/** How a vessel closes as the rules name it, from the closure chosen and how its lid lies; null where that is not known. */
export function closes(closure: Closure, lid: keyof typeof LID_WORDS | null): Closes {
  switch (closure) {
    case 'airlock':
      return 'airlock';
    case 'cloth':
    case 'open':
      return 'cloth';
    case 'cork':
    case 'bung':
      return 'gasTight';
    case 'lid':
      return lid;
  }
}

/**
 * Another closure. How a lid lies is told with it; what was told of the closure before no longer holds, so that it is told anew
 * or taken back to what the book itself knows.
 */
export function buildClosure(
  read: FormReader,
  given: { readonly vesselId: VesselId; readonly filled: boolean; readonly before: ToldFacts },
): ActDraft | readonly Step[] {
  const { vesselId, filled, before } = given;
  const closure = read.choice('closure', CLOSURE_WORDS, 'Choose how it is closed.');
  const lid = closure === 'lid' ? read.choiceOrNone('lid', LID_WORDS) : null;
  read.when();
  const change: ActDraft = { kind: 'changeClosure', vesselId, closure };
  const told = before.closing ?? null;
  const isTold = told !== null && told.closure !== null;
  if (!filled || (lid === null && !isTold)) return change;
  const closing = { closure: lid, headspacePercent: told?.headspacePercent ?? null };
  return [() => change, () => ({ kind: 'tellFacts', vesselId, facts: { closing } })];
}
