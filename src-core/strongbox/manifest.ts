import { z } from 'zod';

/** The format of backup files this program writes; a file of a higher one is refused as newer. */
export const BACKUP_FORMAT = 1;

/** How long the parts are that have a checksum each: damage is told to within one of them. */
export const PART_BYTES = 1_048_576;

/** What a backup was made for. The automatic ones are subject to the rotation; one made by hand is never dropped. */
export const BACKUP_REASONS = [
  ...(['byHand', 'onClosing', 'daily'] as const),
  ...(['beforeMigration', 'beforeRestore', 'beforeImport'] as const),
] as const;
export const BackupReason = z.enum(BACKUP_REASONS);
export type BackupReason = z.infer<typeof BackupReason>;

const Sha256 = z.string().regex(/^[0-9a-f]{64}$/);

/** The line of the book that was written last. */
export const LastEntry = z.strictObject({
  sequence: z.int().min(1),
  entryId: z.string(),
  happenedAtMs: z.int(),
  writtenAtMs: z.int(),
});
export type LastEntry = z.infer<typeof LastEntry>;

export const BackupCounts = z.strictObject({
  entries: z.int().min(0),
  vessels: z.int().min(0),
  batches: z.int().min(0),
  cultures: z.int().min(0),
  readings: z.int().min(0),
  pictures: z.int().min(0),
});
export type BackupCounts = z.infer<typeof BackupCounts>;

/** What a backup file says of itself, after the cellar in it. Its own checksum stands in the last line of the file. */
export const BackupManifest = z.strictObject({
  format: z.literal(BACKUP_FORMAT),
  id: z.uuid(),
  madeAtMs: z.int(),
  reason: BackupReason,
  programVersion: z.string(),
  sqliteVersion: z.string(),
  cellar: z.strictObject({
    name: z.string(),
    isSample: z.boolean(),
    createdAtMs: z.int(),
    /** The id of the first line of its book: two files with the same one come from the same cellar. Null while the book is empty. */
    bookId: z.string().nullable(),
    fileVersion: z.int().min(1),
  }),
  counts: BackupCounts,
  lastEntry: LastEntry.nullable(),
  /** The cellar file itself, which begins at the first byte of the backup. */
  payload: z.strictObject({
    bytes: z.int().min(1),
    partBytes: z.int().min(1),
    partSha256: z.array(Sha256).min(1),
  }),
});
export type BackupManifest = z.infer<typeof BackupManifest>;
