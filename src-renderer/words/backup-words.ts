import { assertNever } from '#core/base/exhaustive.ts';
import type { BackupRefusal, Saveable } from '#core/contract/strongbox-files.ts';
import type { BackupFolder, BackupInside, StrongboxEvent, StrongboxState } from '#core/contract/strongbox.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { BackupReason } from '#core/strongbox/manifest.ts';
import { counted } from './exchange-words.ts';
import { sayFileRefusal } from './file-words.ts';
import { sayMoment } from './time-words.ts';

/** A size a person can read: `840 kB`, `12.4 MB`, `1.2 GB`. */
export function sayBytes(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  if (bytes < 1_000_000) return `${Math.round(bytes / 1000)} kB`;
  if (bytes < 1_000_000_000) return `${(bytes / 1_000_000).toFixed(1)} MB`;
  return `${(bytes / 1_000_000_000).toFixed(1)} GB`;
}

export const REASON_WORDS: Readonly<Record<BackupReason, string>> = {
  ...{ byHand: 'by hand', onClosing: 'on closing', daily: 'daily' },
  beforeMigration: 'before a new version',
  beforeRestore: 'before restoring',
  beforeImport: 'before readings were brought in',
};

/** Why a backup is not taken or not made: what is wrong, that nothing was changed, what to do. */
export function sayBackupRefusal(refusal: BackupRefusal): string {
  const { file } = refusal;
  switch (refusal.type) {
    case 'NotABackup':
      return `${file} is not a backup of Undercroft. It was left as it is. Choose a file that ends in .undercroft-backup.`;
    case 'NoSeal':
      return `${file} is a cellar, but has no seal at its end, so nothing proves that it is whole. If it is a saved copy, open it as a cellar and check it there.`;
    case 'Truncated':
      return `${file} was cut off: its end is missing. ${saySaveable(refusal.saveable)} Nothing was changed.`;
    case 'SealDamaged':
      return `The seal at the end of ${file} is damaged, so nothing proves the rest of it. ${saySaveable(refusal.saveable)} Nothing was changed.`;
    case 'PartsDamaged':
      return `${file} is damaged in ${counted(refusal.damagedParts, 'place')} of ${refusal.parts} that were looked at. ${saySaveable(refusal.saveable)} Nothing was changed.`;
    case 'CipherDamaged':
      return `${file} is encrypted and damaged. ${saySaveable(refusal.saveable)} Nothing was changed.`;
    case 'Unsound':
      return `Every byte of ${file} is as it was written, but what is in it is no sound cellar (${refusal.faults[0] ?? ''}). Nothing was changed. Choose an older backup.`;
    case 'NewerFormat':
      return `${file} is a backup of a newer Undercroft (form ${refusal.format}; this program knows ${refusal.programFormat}). It was left as it is. Restore it with the newer program.`;
    case 'NewerVersion':
      return `${file} comes from a newer Undercroft (its version is ${refusal.fileVersion}; this program knows up to ${refusal.programVersion}). It was left as it is. Restore it with the newer program.`;
    case 'PassphraseNeeded':
      return `${file} is encrypted. Type its passphrase.`;
    case 'PassphraseWrong':
      return `This passphrase does not open ${file}. Type it again; capitals and spaces count. If it is surely right, the head of the file is damaged.`;
    case 'NoSafetyCopy':
      return `What is in the cellar now could not be backed up first (${refusal.detail}), so nothing was restored. Make room or choose another folder, then try again. If the cellar itself is damaged, “Check in full” finds it, and it can be put right there.`;
    case 'InUse':
      return `${file} is the cellar that is open, or is open in another program. Choose a backup.`;
    case 'FolderMissing':
      return `The folder of ${file} is not there. Check the path, or plug in the disk it is on.`;
    default:
      return sayFileRefusal(refusal);
  }
}

/** How much of a damaged file could be saved. */
export function saySaveable({ wholeBytes, bytes }: Saveable): string {
  if (bytes <= 0 || wholeBytes <= 0) return 'Nothing of it is known to be whole.';
  const share = Math.floor((wholeBytes / bytes) * 1000) / 10;
  return `${sayBytes(wholeBytes)} of ${sayBytes(bytes)} (${share} %) can still be read.`;
}

/** Whether a part of what is damaged may still be saved. */
export function saveableOf(refusal: BackupRefusal): Saveable | null {
  return 'saveable' in refusal && refusal.saveable.wholeBytes > 0 ? refusal.saveable : null;
}

export function sayFolderState(state: BackupFolder['state']): string {
  switch (state) {
    case 'ready':
      return 'ready';
    case 'missing':
      return 'not there now: plug in the disk, or wait for it to be synced';
    case 'notAFolder':
      return 'this is a file, not a folder';
    case 'readOnly':
      return 'nothing can be written there';
    default:
      return assertNever(state);
  }
}

/** How a backup stands to what is open now. */
export function sayRelation({ relation, backup, now }: BackupInside): string {
  switch (relation.type) {
    case 'same':
      return 'It holds the same lines as the cellar that is open.';
    case 'earlier':
      return `It is the open cellar at an earlier moment: ${counted(relation.linesSince, 'line')} written since would be gone.`;
    case 'later':
      return `It is the open cellar at a later moment: it has ${counted(relation.linesMore, 'line')} more.`;
    case 'parted': {
      const mine = now.counts.entries;
      return `Its book parted from the open one: it has ${counted(backup.counts.entries, 'line')}, the open one ${counted(mine, 'line')}, and some of each are not in the other.`;
    }
    case 'otherCellar':
      return `It is another cellar, called “${backup.cellarName}”. Open it beside this one, or put it in its place.`;
    default:
      return assertNever(relation);
  }
}

/** The first words of the place: when the last proven backup was made, and what was written since. */
export function sayLast({ last, linesSince, besideBookChanged }: StrongboxState, rules: HouseRules): string {
  if (last === null) return 'There is no backup of this cellar yet.';
  const written =
    linesSince === 0 ? 'Nothing was written since.' : `${counted(linesSince, 'line')} written since.`;
  const since = besideBookChanged
    ? `${written} Its name, House Rules or label layouts were changed since.`
    : written;
  return `Last backup ${sayMoment(last.atMs, rules)}, ${REASON_WORDS[last.reason]}. ${since}`;
}

/** One line of the history. */
export function sayEvent(event: StrongboxEvent, rules: HouseRules): string {
  const at = sayMoment(event.atMs, rules);
  switch (event.kind) {
    case 'backup': {
      if (event.refusal !== null)
        return `${at}: a backup ${REASON_WORDS[event.reason]} of ${event.cellarName} failed. ${sayBackupRefusal(event.refusal)}`;
      const missed = event.elsewhere.filter(({ refusal }) => refusal !== null);
      const dropped =
        event.dropped.length > 0 ? ` ${counted(event.dropped.length, 'older one')} dropped.` : '';
      const missing = missed.length > 0 ? ` Not in ${missed.map(({ folder }) => folder).join(', ')}.` : '';
      return `${at}: backed up ${event.cellarName} ${REASON_WORDS[event.reason]}, ${sayBytes(event.bytes)}, ${counted(event.entries, 'line')}.${missing}${dropped}`;
    }
    case 'check': {
      const how = event.how === 'full' ? 'Checked in full' : 'Looked over on opening';
      const found = event.sound ? 'sound' : `${counted(event.faults.length, 'fault')} found`;
      return `${at}: ${how}, ${event.cellarName}, ${counted(event.entries, 'line')}: ${found}.`;
    }
    case 'restore':
      return `${at}: ${event.cellarName} restored from the backup of ${sayMoment(event.madeAtMs, rules)}. What was there is in ${event.safetyFile}.`;
    case 'salvage':
      return `${at}: ${counted(event.entries, 'line')} saved from ${event.file} into ${event.target}.`;
    default:
      return assertNever(event);
  }
}

/** Written into the book as the note of a batch that was brought back. */
export function sayBroughtBack(
  batch: { readonly code: string },
  backup: { readonly madeAtMs: number },
  rules: HouseRules,
): string {
  return `Brought back from the backup of ${sayMoment(backup.madeAtMs, rules)}, where it was ${batch.code}.`;
}

export const PASSPHRASE_WARNING =
  'Nobody can recover a forgotten passphrase, and without it an encrypted backup is lost for good. Write it down and keep it apart from the backups.';
