import { randomUUID } from 'node:crypto';
import { SAMPLE_NAME, SAMPLE_NOW_MS, tellSampleYear, type Teller } from '../../demo/sample-cellar.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { CellarServices } from './cellar-services.ts';

export { SAMPLE_NOW_MS };

/** How long after it happened each line of the sample is written: at the jar, with the lid still off. */
const WRITTEN_AFTER_MS = 40_000;

/**
 * Writes the sample year into a new cellar through the same service a keeper's acts go through, in one transaction.
 * `setClock` sets the clock that the service goes by; null lets it go on as it does.
 */
export function writeSample(services: CellarServices, setClock: (nowMs: number | null) => void): void {
  const { session, ledger, houseRules } = services;
  const { sqlite } = session.cellar;
  const tell: Teller = (act, happenedAtMs, typed = {}) => {
    setClock(happenedAtMs + WRITTEN_AFTER_MS);
    const posted = ledger.post({ requestId: randomUUID(), act, happenedAtMs, typed });
    if (!posted.ok) throw new Error(`the sample's ${act.kind} was refused: ${JSON.stringify(posted.error)}`);
    return posted.value.entry.act;
  };
  sqlite
    .transaction(() => {
      sqlite
        .prepare('UPDATE cellar SET name = ?, begun = 1, is_sample = 1, created_at_ms = ? WHERE id = 1')
        .run(SAMPLE_NAME, SAMPLE_NOW_MS);
      houseRules.settle(HOUSE_RULES_AT_FIRST);
      tellSampleYear(tell);
      setClock(null);
    })
    .immediate();
}
