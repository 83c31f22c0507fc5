import { mkdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { setImmediate } from 'node:timers/promises';
import type { Progress } from '#core/contract/cellar.ts';
import type { Posted } from '#core/contract/ledger.ts';
import type { Result } from '#core/base/result.ts';
import type { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import type { BatchRecord, ReadingRecord } from '#core/ledger/records.ts';
import type { CellarServices } from '../cellar/cellar-services.ts';
import { leaveNoCopy, openCellar } from '../cellar/open-cellar.ts';
import { passingName, throwAway } from '../cellar/write-aside.ts';
import { openSession, type CellarSession } from '../cellar/session.ts';
import type { Together } from '../ledger/ledger-service.ts';
import type { BackupChosen } from './look-inside.ts';
import { takeOut } from './restore-whole.ts';

export interface BringBackAsked extends BackupChosen {
  readonly requestId: string;
  readonly batchId: BatchId;
  /** Where it stood in the backup. */
  readonly fromVesselId: VesselId;
  /** An empty vessel of the open cellar. */
  readonly intoVesselId: VesselId;
  readonly note: string;
}

export interface BroughtBack {
  readonly posted: Posted;
  readonly readings: number;
  /** Readings of the batch that were taken in other vessels, and stay in the backup. */
  readonly readingsLeft: number;
}

/** What was asked for is not in the backup, or does not stand in that vessel there. */
export class NotInBackup extends Error {}

/**
 * Writes what stood of a batch in one vessel into the book of the open cellar, as a batch begun on the day it began, with the
 * readings taken of it there. These are new lines, told as such by the note: the lines of the backup belong to another book,
 * and a book is never written into from the side. All of it is one step, and one Undo takes it back. A request that was
 * answered before is answered again.
 *
 * @throws BackupRefused · NotInBackup
 */
export async function* bringBackBatch(
  services: CellarServices,
  asked: BringBackAsked,
  signal: AbortSignal | undefined,
  written: (write: () => Result<Posted, LedgerError>) => Posted,
): AsyncGenerator<Progress, BroughtBack, void> {
  const { session, ledger } = services;
  const stop =
    signal === undefined ? session.cellar.closing : AbortSignal.any([session.cellar.closing, signal]);
  mkdirSync(asked.workFolder, { recursive: true, mode: 0o700 });
  const passing = passingName(join(asked.workFolder, basename(asked.file)));
  try {
    yield* takeOut(asked, passing, session, stop);
    const found = readBatch(passing, session, asked);
    const acts = actsOf(found, asked);
    yield { what: 'write', done: 0, total: acts.length };
    await setImmediate();
    stop.throwIfAborted();
    const posted = written(() => ledger.postTogether(asked.requestId, acts));
    return { posted, readings: found.readings.length, readingsLeft: found.readingsLeft };
  } finally {
    throwAway(passing);
  }
}

interface FoundBatch {
  readonly batch: BatchRecord;
  readonly volumeUl: number;
  readonly stage: Extract<Together['act'], { kind: 'startBatch' }>['stage'];
  readonly readings: readonly ReadingRecord[];
  readonly readingsLeft: number;
  /** Everything that was started still stands here, so what went into it is what this is made of. */
  readonly isWhole: boolean;
}

function readBatch(file: string, { clock, newId }: CellarSession, asked: BringBackAsked): FoundBatch {
  const opened = openCellar(file, undefined, leaveNoCopy);
  try {
    const { records } = openSession(opened, clock, newId);
    const batch = records.get('batch', asked.batchId);
    const fill = records.get('fill', asked.fromVesselId);
    if (batch === null || fill?.batchId !== asked.batchId) throw new NotInBackup();
    const ids = opened.sqlite
      .prepare('SELECT id FROM reading WHERE batch_id = ? ORDER BY at_ms, id')
      .pluck()
      .all(asked.batchId) as EntryId[];
    const all = ids.flatMap((id) => records.get('reading', id) ?? []);
    const readings = all.filter(({ vesselId }) => vesselId === asked.fromVesselId);
    return {
      ...{ batch, readings, volumeUl: fill.volumeUl, stage: fill.stage },
      ...{ readingsLeft: all.length - readings.length, isWhole: fill.volumeUl === batch.startedUl },
    };
  } finally {
    opened.close();
  }
}

function actsOf(found: FoundBatch, { intoVesselId: vesselId, note }: BringBackAsked): Together[] {
  const { batch, volumeUl, stage, readings, isWhole } = found;
  const startedAtMs = batch.startedAtMs;
  return [
    {
      act: {
        ...{ kind: 'startBatch', name: batch.name, ferment: batch.ferment, vesselId, volumeUl, stage },
        // Amounts speak of the whole batch as it was started; of a part of it they would tell the wrong strength.
        ...{ ingredients: isWhole ? [...batch.ingredients] : [], measured: null, note },
      },
      ...{ happenedAtMs: startedAtMs, typed: {} },
    },
    ...readings.map(({ values, atMs }): Together => ({
      act: { kind: 'recordReading', vesselId, values },
      ...{ happenedAtMs: Math.max(atMs, startedAtMs), typed: {} },
    })),
  ];
}
