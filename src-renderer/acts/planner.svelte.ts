import type { Plan } from '#core/contract/ledger.ts';
import { safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import type { ActForm } from './act-form.svelte.ts';

const PAUSE_MS = 200;

/** What the act of a form would do, asked of the book while it is being filled in. Nothing is written by asking. */
export class Planner {
  plan = $state.raw<Plan | null>(null);
  /** Why the book would refuse it, in words. */
  refused = $state<string | null>(null);
  /** True while the form has changed since the plan shown was worked out. */
  stale = $state(false);
  #asked = 0;

  /** Follows a form; call inside an effect. Returns what ends it. */
  follow(form: ActForm): () => void {
    const { problems, single, happenedAtMs } = form.attempt;
    const ask = (this.#asked += 1);
    if (problems.length > 0 || single === null) {
      this.plan = null;
      this.refused = null;
      this.stale = false;
      return () => undefined;
    }
    this.stale = true;
    const timer = setTimeout(async () => {
      const { error, data, isDefined } = await safe(client.ledger.plan({ act: single, happenedAtMs }));
      if (ask !== this.#asked) return;
      this.stale = false;
      this.plan = data ?? null;
      this.refused =
        isDefined && error !== null && error.code === 'REFUSED' ? form.sayRefusal(error.data).sentence : null;
    }, PAUSE_MS);
    return () => {
      clearTimeout(timer);
    };
  }
}
