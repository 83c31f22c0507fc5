import { statSync } from 'node:fs';
import type { Progress } from '#core/contract/cellar.ts';
import type { BackupSelf, VerifiedBackup } from '#core/contract/strongbox-files.ts';
import { openServices } from '../cellar/cellar-services.ts';
import type { CellarDesk } from '../cellar/cellar-desk.ts';
import { leaveNoCopy, openCellar } from '../cellar/open-cellar.ts';
import { candidateName, realPlace } from '../cellar/replace-cellar.ts';
import { openSession, type CellarSession } from '../cellar/session.ts';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';
import { inWorker } from './in-worker.ts';
import { withPlain, type BackupChosen } from './look-inside.ts';
import { selfOf } from './self-of.ts';
import { giveItsName, passingName, refuseBadTarget, throwAway } from '../cellar/write-aside.ts';
import { writeBackup } from './write-backup.ts';

export interface RestoreAsked extends BackupChosen {
  /** Where the safety copy of what is there goes; made after the backup was found good. */
  readonly safetyFile: string;
  /** Whether the safety copy has what is needed is the caller's to say: null for one as readable as the cellar is. */
  readonly safetyPassphrase?: string | null;
}

export interface Restored {
  readonly backup: BackupSelf;
  /** The way back. */
  readonly safety: VerifiedBackup;
}

/**
 * Puts the whole cellar of a backup in the place of the open one. The backup is proven, taken out beside the cellar, brought
 * to this program's version and checked; then what is there is backed up, with writing refused from that moment on; then
 * one rename. Until the rename everything can be stopped and stays as it was; a program killed at any moment leaves the old
 * cellar or the new one.
 *
 * @throws BackupRefused with what is wrong; the open cellar is then as it was
 */
export async function* restoreWhole(
  desk: CellarDesk,
  asked: RestoreAsked,
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, Restored, void> {
  const { session } = desk.services;
  const { cellar } = session;
  const stop = signal === undefined ? cellar.closing : AbortSignal.any([cellar.closing, signal]);
  const candidate = candidateName(realPlace(cellar.file));
  try {
    const backup = yield* takeOut(asked, candidate, session, stop);
    const release = cellar.holdStill();
    try {
      const safety = yield* safetyCopy(session, asked, stop);
      yield { what: 'swap', done: 0, total: 1 };
      desk.replace(candidate);
      return { backup, safety };
    } finally {
      release();
    }
  } catch (error) {
    if (signal?.aborted === true) throw error;
    throw backupRefusedFrom(error, asked.file);
  } finally {
    throwAway(candidate);
  }
}

/**
 * Takes the cellar of a backup out into a file of its own, to be opened beside the present one.
 *
 * @throws BackupRefused also when something has that name already
 */
export async function* restoreBeside(
  session: CellarSession,
  asked: BackupChosen & { readonly target: string },
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, BackupSelf, void> {
  const { file, target } = asked;
  const stop = signal ?? new AbortController().signal;
  let passing: string | null = null;
  try {
    refuseBadTarget(target, session.cellar.file);
    passing = passingName(target);
    const backup = yield* takeOut(asked, passing, session, stop);
    giveItsName(passing, target);
    return backup;
  } catch (error) {
    if (stop.aborted) throw error;
    throw backupRefusedFrom(error, file);
  } finally {
    if (passing !== null) throwAway(passing);
  }
}

/** A proven and checked cellar of this program's version under a new name. */
export async function* takeOut(
  asked: BackupChosen,
  target: string,
  { clock, newId }: CellarSession,
  stop: AbortSignal,
): AsyncGenerator<Progress, BackupSelf, void> {
  return yield* withPlain(asked, stop, async function* (plain, encrypted, inner) {
    const manifest = yield* inWorker('extract', { file: plain, target }, inner);
    yield* inWorker('check', { file: target, manifest }, inner);
    // Opened once as it will be opened: its version and its shelf are brought up to date here, where it can still fail.
    const opened = openCellar(target, undefined, leaveNoCopy);
    try {
      openServices(openSession(opened, clock, newId));
    } finally {
      opened.close();
    }
    const { size: bytes } = statSync(asked.file);
    return selfOf(manifest, { file: asked.file, bytes, encrypted });
  });
}

async function* safetyCopy(
  session: CellarSession,
  { safetyFile, safetyPassphrase = null, workFolder }: RestoreAsked,
  stop: AbortSignal,
): AsyncGenerator<Progress, VerifiedBackup, void> {
  try {
    const asked = { file: safetyFile, reason: 'beforeRestore', madeAtMs: session.clock() } as const;
    const kept = { passphrase: safetyPassphrase, workFolder };
    return yield* writeBackup(session.cellar, { ...asked, ...kept }, stop);
  } catch (error) {
    if (stop.aborted) throw error;
    const { refusal } = backupRefusedFrom(error, safetyFile);
    const detail = 'detail' in refusal ? `${refusal.type} ${refusal.detail}` : refusal.type;
    throw new BackupRefused({ type: 'NoSafetyCopy', file: safetyFile, detail });
  }
}
