import { existsSync, renameSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import type { Clock, NewId } from '#core/base/ports.ts';
import type { Progress } from '#core/contract/cellar.ts';
import type { SalvageReport } from '#core/contract/salvage.ts';
import { checkCellar } from '../cellar/check-cellar.ts';
import { openServices, type CellarServices } from '../cellar/cellar-services.ts';
import { FileRefused, refusalFrom } from '../cellar/file-refused.ts';
import { isHeld, leaveNoCopy, openCellar } from '../cellar/open-cellar.ts';
import { rebuildProjections } from '../cellar/rebuild-projections.ts';
import { passingName, refuseBadTarget, throwAway } from '../cellar/write-aside.ts';
import { openSession } from '../cellar/session.ts';
import { syncFolder } from '../platform/sync-folder.ts';
import { openDamagedPages, type DamagedPages } from './damaged-pages.ts';
import { findRows, type Found } from './found-rows.ts';
import { salvageBook, type SalvagedBook } from './salvaged-book.ts';
import { doubtsOf } from './shelf-witness.ts';
import { openStandIns } from './stand-ins.ts';

export interface SalvageAsked {
  /** The damaged cellar, or backup. It is only read. */
  readonly file: string;
  /** Whole path of the new cellar; nothing may be there. */
  readonly target: string;
}

/**
 * Reads what can be read of a damaged cellar file, without SQLite, and makes a new cellar of it: the lines of the book that
 * are whole and follow from one another, and the pictures that are what their checksums say. Everything else follows from
 * the book. The new file gets its name only after the program's own check has found it sound.
 *
 * @throws FileRefused when there is nothing of a cellar in the file, or the new one cannot be written
 */
export async function* salvage(
  { file, target }: SalvageAsked,
  { clock, newId }: { readonly clock: Clock; readonly newId: NewId },
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, SalvageReport, void> {
  refuseUnreadable(file);
  refuseBadTarget(target, file);
  const partial = passingName(target);
  let pages: DamagedPages | null = null;
  try {
    pages = openDamagedPages(file);
    const cellar = openCellar(partial, undefined, leaveNoCopy);
    try {
      // Until it has its name, nothing of value is at stake in the new file.
      cellar.sqlite.pragma('synchronous = OFF');
      const session = openSession(cellar, clock, newId);
      const found = yield* told('pages', findRows(pages, cellar.sqlite), signal);
      if (found.distinctLines === 0 && found.cellar === null)
        throw new FileRefused({ type: 'NotACellar', file });
      const parts = {
        ...{ book: session.book, into: cellar.sqlite, standInFor: openStandIns(pages, cellar.sqlite) },
        ...{ newId, nowMs: clock() },
      };
      const book = yield* told('lines', salvageBook(found, parts), signal);
      const highestSeen = Math.max(found.highestSeen, book.lastTaken);
      const lost = highestSeen - found.numbersUpTo(highestSeen);
      cellar.sqlite.exec('DROP TABLE temp.found_line');
      const services = openServices(session);
      rebuildProjections(session);
      writeAbout(services, found);
      const doubtful = doubtsOf(pages, cellar.sqlite, book);
      yield* refuseUnsound(services, signal, target);
      const { name, houseRules } = found.cellar ?? { name: '', houseRules: null };
      cellar.sqlite.pragma('synchronous = FULL');
      cellar.close();
      giveItsName(partial, target);
      return {
        ...{ file, target, aside: book.aside, standIns: book.standIns, doubtful, pictures: found.pictures },
        lines: { ...book.lines, gaps: gapsUpTo(highestSeen, book), highestSeen, lost },
        ...{ nameRead: name !== '', houseRulesRead: houseRules !== null },
        pages: {
          ...{ total: pages.filePages, brokenRows: found.brokenRows, headerReadable: pages.headerReadable },
          ...{ logTaken: pages.logFramesTaken, logLeft: pages.logFramesLeft },
        },
      };
    } finally {
      cellar.close();
    }
  } catch (error) {
    if (signal?.aborted === true || error instanceof FileRefused) throw error;
    throw new FileRefused(refusalFrom(error, target));
  } finally {
    pages?.close();
    throwAway(partial);
  }
}

function refuseUnreadable(file: string): void {
  try {
    if (file.includes('\0')) throw new FileRefused({ type: 'BadPath', file });
    const stat = statSync(file, { throwIfNoEntry: false });
    if (stat === undefined) throw new FileRefused({ type: 'NoSuchFile', file });
    if (!stat.isFile()) throw new FileRefused({ type: 'BadPath', file });
    // Closing another descriptor of it would give up this program's lock; and what lies open is not to be salvaged.
    if (isHeld(file)) throw new FileRefused({ type: 'InUse', file });
  } catch (error) {
    throw error instanceof FileRefused ? error : new FileRefused(refusalFrom(error, file));
  }
}

/** Runs long work, telling how far it is and letting others in between. */
async function* told<T>(
  what: string,
  work: Generator<{ readonly done: number; readonly total: number }, T, void>,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, T, void> {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
    yield { what, ...step.value };
    await setImmediate();
    signal?.throwIfAborted();
  }
}

/** Where lines are missing, the ones after the last that was found included. */
function gapsUpTo(highestSeen: number, { lines, lastFound }: SalvagedBook): SalvageReport['lines']['gaps'] {
  const gaps = lines.gaps.filter(({ to }) => to <= highestSeen);
  return lastFound >= highestSeen ? gaps : [...gaps, { from: lastFound + 1, to: highestSeen }];
}

const NAME_WHEN_LOST = 'Salvaged cellar';

/** The cellar's name and house rules as they were, or as at first where they could not be read. */
function writeAbout({ session, houseRules }: CellarServices, { cellar }: Found): void {
  const { sqlite } = session.cellar;
  const name = cellar === null || cellar.name === '' ? NAME_WHEN_LOST : cellar.name;
  const createdAtMs = cellar?.createdAtMs ?? session.book.page(0, 1)[0]?.writtenAtMs ?? session.clock();
  sqlite
    .prepare(
      'UPDATE cellar SET name = ?, begun = 1, is_sample = ?, created_at_ms = ?, house_rules = ? WHERE id = 1',
    )
    .run(name, cellar?.isSample ?? 0, createdAtMs, cellar?.houseRules ?? '{}');
  houseRules.settle(houseRules.read());
}

async function* refuseUnsound(
  services: CellarServices,
  signal: AbortSignal | undefined,
  target: string,
): AsyncGenerator<Progress, void, void> {
  const { sound, faults } = yield* checkCellar(services, signal);
  if (sound) return;
  const detail = faults
    .map(({ type }) => type)
    .join(' ')
    .slice(0, 200);
  throw new FileRefused({ type: 'OtherFault', file: target, detail: `SALVAGE_UNSOUND ${detail}` });
}

function giveItsName(partial: string, target: string): void {
  if (existsSync(target)) throw new FileRefused({ type: 'AlreadyThere', file: target });
  renameSync(partial, target);
  syncFolder(dirname(target));
}
