import { setImmediate } from 'node:timers/promises';
import type { Progress } from '#core/contract/cellar.ts';
import type { BroughtIn, Intake } from '#core/contract/exchange.ts';
import type { Posted } from '#core/contract/ledger.ts';
import type { Result } from '#core/base/result.ts';
import type { Settled } from '#core/exchange/settled.ts';
import type { ActDraft } from '#core/ledger/act.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import type { CellarServices } from '../cellar/cellar-services.ts';
import { openEntryGroups } from '../ledger/entry-groups.ts';
import { lookOver, type Looked } from './look-over.ts';

/** Something about the table has still to be settled by the keeper. */
export class NotSettled extends Error {}

export interface Incoming {
  readonly requestId: string;
  readonly text: string;
  readonly settled: Settled;
}

/** How often a table is looked over again because the book was written in meanwhile. */
const ATTEMPTS = 5;

/**
 * Brings in the rows of a table that are ready, as one step of the book. The looking over can be stopped and lets other calls
 * through; the writing is one transaction without a pause, so that it is done wholly or not at all. A request that was answered
 * before is answered again.
 *
 * @param written turns a refusal and a disk that will not take it into what the caller is told
 * @throws NotSettled
 */
export async function* bringIn(
  services: CellarServices,
  { requestId, text, settled }: Incoming,
  signal: AbortSignal | undefined,
  written: (write: () => Result<Posted, LedgerError>) => Posted,
): AsyncGenerator<Progress, BroughtIn, void> {
  const { book } = services.session;
  const before = book.byRequest(requestId);
  if (before !== null) {
    const { act, happenedAtMs, typed } = before;
    const again = [{ act: act as ActDraft, happenedAtMs, typed }];
    const posted = written(() => services.ledger.postTogether(requestId, again));
    return { posted, broughtIn: posted.entry.together ?? 1, alreadyThere: 0, refused: 0 };
  }
  let looked: Looked | null = null;
  for (let attempt = 1; looked === null; attempt += 1) {
    const begun = book.count();
    const found: Looked = yield* lookOver(services, { text, settled }, signal);
    if (found.report.questions.length > 0) throw new NotSettled();
    yield { what: 'write', done: 0, total: found.acts.length };
    await setImmediate();
    signal?.throwIfAborted();
    services.session.cellar.closing.throwIfAborted();
    // What was found fits the book as it was; the last attempt leaves it to the book to refuse.
    if (book.count() === begun || attempt === ATTEMPTS) looked = found;
  }
  const { acts, report } = looked;
  const { alreadyThere, refused, doubtful } = report.counts;
  const posted = acts.length === 0 ? null : written(() => services.ledger.postTogether(requestId, acts));
  return { posted, broughtIn: acts.length, alreadyThere, refused: refused + doubtful };
}

/** Steps in which readings came in together, newest first: those of more than one reading. */
export function intakesIn({ session }: CellarServices): Intake[] {
  const { cellar, book } = session;
  const groups = openEntryGroups(cellar.sqlite, book);
  // The second line of a step has its number in its request id; reading the ids alone is quick in a long book.
  const seconds = cellar.sqlite
    .prepare(
      `SELECT request_id FROM entry WHERE request_id GLOB '*/1' AND kind = 'recordReading'
       ORDER BY sequence DESC LIMIT 20`,
    )
    .pluck()
    .all() as string[];
  return seconds.flatMap((memberId) => {
    const requestId = memberId.split('/')[0] ?? '';
    const first = book.byRequest(requestId);
    if (first === null) return [];
    const { id, writtenAtMs, typed } = first;
    return [
      {
        ...{
          requestId,
          firstEntryId: id,
          writtenAtMs,
          source: (typed['source'] ?? '').replace(/, line \d+$/u, ''),
        },
        ...{ readings: groups.written(requestId), standing: groups.standing(requestId) },
      },
    ];
  });
}
