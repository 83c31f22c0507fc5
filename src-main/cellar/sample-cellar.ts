import { randomUUID } from 'node:crypto';
import { SAMPLE_NAME, SAMPLE_NOW_MS, tellSampleYear, type Teller } from '../../demo/sample-cellar.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { Posted } from '#core/contract/ledger.ts';
import type { Result } from '#core/base/result.ts';
import type { Act, ActKind } from '#core/ledger/act.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import { sha256 } from '../photos/read-pictures.ts';
import type { CellarServices } from './cellar-services.ts';

export { SAMPLE_NOW_MS };

/** How long after it happened each line of the sample is written: at the jar, with the lid still off. */
const WRITTEN_AFTER_MS = 40_000;

/**
 * Writes the sample year into a new cellar through the same service a keeper's acts go through, in one transaction.
 * `setClock` sets the clock that the service goes by; null lets it go on as it does.
 */
export function writeSample(services: CellarServices, setClock: (nowMs: number | null) => void): void {
  const { session, ledger, houseRules, photos, bookOfVessel } = services;
  const { sqlite } = session.cellar;
  const written = (kind: ActKind, posted: Result<Posted, LedgerError>): Act => {
    if (!posted.ok) throw new Error(`the sample's ${kind} was refused: ${JSON.stringify(posted.error)}`);
    return posted.value.entry.act;
  };
  const teller: Teller = {
    tell(act, happenedAtMs, typed) {
      setClock(happenedAtMs + WRITTEN_AFTER_MS);
      return written(act.kind, ledger.post({ requestId: randomUUID(), act, happenedAtMs, typed }));
    },
    show({ widthPx, heightPx, picture, thumbnail }, about, caption, happenedAtMs) {
      setClock(happenedAtMs + WRITTEN_AFTER_MS);
      const act = { kind: 'addPhoto', about, checksum: sha256(picture), widthPx, heightPx, caption } as const;
      const pictures = { content: picture, thumbnail, thumbnailChecksum: sha256(thumbnail) };
      const request = { requestId: randomUUID(), act, happenedAtMs, typed: {} };
      written(act.kind, photos.add(request, pictures));
    },
    findings: (vesselId, atMs) => bookOfVessel.of(vesselId, atMs)?.findings ?? [],
  };
  sqlite
    .transaction(() => {
      sqlite
        .prepare('UPDATE cellar SET name = ?, begun = 1, is_sample = 1, created_at_ms = ? WHERE id = 1')
        .run(SAMPLE_NAME, SAMPLE_NOW_MS);
      houseRules.settle(HOUSE_RULES_AT_FIRST);
      tellSampleYear(teller);
      setClock(null);
    })
    .immediate();
}
