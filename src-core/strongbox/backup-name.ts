import type { EpochMs } from '../base/ports.ts';
import type { LocalTime } from '../quantities/civil-time.ts';
import type { BackupReason } from './manifest.ts';

export const BACKUP_ENDING = '.undercroft-backup';
export const ENCRYPTED_ENDING = `${BACKUP_ENDING}.age`;

const REASON_IN_NAME: Readonly<Record<BackupReason, string>> = {
  ...{ byHand: 'by hand', onClosing: 'on closing', daily: 'daily' },
  beforeMigration: 'before a new version',
  beforeRestore: 'before restoring',
  beforeImport: 'before bringing in',
};

/**
 * What a backup file is called: cellar, day, time and reason, such as `Orchard cellar 2026-11-25 14.02.09 daily
 * .undercroft-backup`. No sign in it that a file system may refuse, and not too long for any.
 */
export function backupName(
  named: {
    readonly cellarName: string;
    readonly madeAtMs: EpochMs;
    readonly reason: BackupReason;
    /** Tells apart what was made in the same second, from 1. */
    readonly nth: number;
  },
  localTime: LocalTime,
): string {
  const { cellarName, madeAtMs, reason, nth } = named;
  const { year, month, day, hour, minute } = localTime.localOf(madeAtMs);
  const second = Math.floor(madeAtMs / 1000) % 60;
  const two = (value: number): string => String(value).padStart(2, '0');
  const date = `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
  const time = `${two(hour)}.${two(minute)}.${two(second < 0 ? second + 60 : second)}`;
  const words = `${plainName(cellarName)} ${date} ${time} ${REASON_IN_NAME[reason]}`;
  return `${words}${nth > 1 ? ` ${nth}` : ''}${BACKUP_ENDING}`;
}

/** The name of the same backup when it is encrypted. */
export function encryptedName(name: string): string {
  return `${name}.age`;
}

export function isBackupName(name: string): boolean {
  return name.endsWith(BACKUP_ENDING) || name.endsWith(ENCRYPTED_ENDING);
}

/** Letters and numbers of any script, spaces and hyphens; at most forty signs. */
function plainName(name: string): string {
  const plain = [...name.normalize('NFC').replace(/[^\p{L}\p{M}\p{N} -]+/gu, ' ')].slice(0, 40).join('');
  const tidy = plain.replace(/ +/g, ' ').trim();
  return tidy === '' ? 'Cellar' : tidy;
}
