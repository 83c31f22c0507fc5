import { z } from 'zod';
import { BackupCounts, BackupReason, LastEntry } from '../strongbox/manifest.ts';
import { FileRefusal } from './cellar.ts';

/** How much of a damaged backup is still as it was written. */
export const Saveable = z.object({ wholeBytes: z.number(), bytes: z.number() });
export type Saveable = z.infer<typeof Saveable>;

/** Why a backup file is not taken. None of them has changed anything. */
export const BackupRefusal = z.discriminatedUnion('type', [
  ...FileRefusal.options,
  /** Neither a backup of this program nor a cellar. */
  z.object({ type: z.literal('NotABackup'), file: z.string() }),
  /** A whole cellar file without a seal, such as a saved copy: it can be opened, but nothing proves its bytes. */
  z.object({ type: z.literal('NoSeal'), file: z.string() }),
  z.object({ type: z.literal('Truncated'), file: z.string(), saveable: Saveable }),
  /** The lines at the end, which hold the checksums, are not what was written. */
  z.object({ type: z.literal('SealDamaged'), file: z.string(), saveable: Saveable }),
  z.object({
    type: z.literal('PartsDamaged'),
    ...{ file: z.string(), damagedParts: z.int(), parts: z.int(), saveable: Saveable },
  }),
  /** All bytes are as sealed, but what they hold is no sound cellar. */
  z.object({ type: z.literal('Unsound'), file: z.string(), faults: z.array(z.string()) }),
  z.object({ type: z.literal('NewerFormat'), file: z.string(), format: z.int(), programFormat: z.int() }),
  z.object({ type: z.literal('PassphraseNeeded'), file: z.string() }),
  /** The passphrase does not open it; a head that is damaged looks the same. */
  z.object({ type: z.literal('PassphraseWrong'), file: z.string() }),
  z.object({ type: z.literal('CipherDamaged'), file: z.string(), saveable: Saveable }),
  /** The safety copy of what is there could not be made, so nothing was restored. */
  z.object({ type: z.literal('NoSafetyCopy'), file: z.string(), detail: z.string() }),
]);
export type BackupRefusal = z.infer<typeof BackupRefusal>;

/** What a backup says of itself. */
export const BackupSelf = z.object({
  file: z.string(),
  bytes: z.number(),
  encrypted: z.boolean(),
  id: z.string(),
  madeAtMs: z.number(),
  reason: BackupReason,
  programVersion: z.string(),
  cellarName: z.string(),
  isSample: z.boolean(),
  bookId: z.string().nullable(),
  fileVersion: z.int(),
  counts: BackupCounts,
  lastEntry: LastEntry.nullable(),
});
export type BackupSelf = z.infer<typeof BackupSelf>;

/** A backup that was read from its first byte to its last and found to be what was written, and a sound cellar. */
export const VerifiedBackup = BackupSelf.extend({ parts: z.int(), entriesBalanced: z.int() });
export type VerifiedBackup = z.infer<typeof VerifiedBackup>;
