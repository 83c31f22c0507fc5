import type { Outgoing, OutStep, TakenOut } from '#core/contract/exchange.ts';
import type { Progress } from '#core/contract/cellar.ts';
import { client } from '../backend/call.ts';
import { LongWork } from '../house-rules/long-work.svelte.ts';
import { saveAsFile } from './save-as-file.ts';

export interface TakeOutAsked {
  readonly what: Outgoing;
  /** Null: to the window. */
  readonly path: string | null;
}

export type TakeOutDone = TakenOut | 'changedMeanwhile';

/** Something on its way out; it goes on when the place is left, and can be stopped. */
export const takingOut = new LongWork<TakeOutAsked, TakeOutDone>(async (asked, signal) =>
  collecting(await client.exchange.takeOut(asked, { signal }), asked),
);

/** Collects what comes to the window and keeps it as a file at the end. */
async function* collecting(
  steps: AsyncIterator<OutStep, TakenOut>,
  asked: TakeOutAsked,
): AsyncGenerator<Progress, TakeOutDone, unknown> {
  let parts: string[] = [];
  try {
    for (;;) {
      const step = await steps.next();
      if (step.done === true) {
        if (asked.path === null) saveAsFile(step.value.name, parts, typeOf(asked.what));
        return step.value;
      }
      const { text, again, ...progress } = step.value;
      if (again) parts = [];
      if (text !== '') parts.push(text);
      yield progress;
    }
  } catch (error) {
    if (error instanceof Error && Reflect.get(error, 'code') === 'CHANGED_MEANWHILE')
      return 'changedMeanwhile';
    throw error;
  }
}

function typeOf(what: Outgoing): string {
  return what.kind === 'table' || what.kind === 'tables' ? 'text/csv' : 'application/json';
}
