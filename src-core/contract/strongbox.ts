import { eventIterator, oc } from '@orpc/contract';
import { z } from 'zod';
import { BatchId, VesselId } from '../ledger/ids.ts';
import { NoteText } from '../ledger/act.ts';
import { RotationRules } from '../strongbox/rotation.ts';
import { BackupCounts, BackupReason, LastEntry } from '../strongbox/manifest.ts';
import { AboutCellar, FilePath, Progress } from './cellar.ts';
import { Posted, RequestId, writeErrors } from './ledger.ts';
import { SalvageReport } from './salvage.ts';
import { BackupRefusal, BackupSelf, VerifiedBackup } from './strongbox-files.ts';

export const PASSPHRASE_MIN = 8;
const Passphrase = z.string().min(1).max(400);

/** What this computer does about backups; kept beside the program's own files, never in a cellar. */
export const StrongboxSettings = z.strictObject({
  /** Folders beside the program's own, for instance a synced one or a stick. */
  folders: z.array(FilePath).max(8),
  onClosing: z.boolean(),
  daily: z.boolean(),
  /** Encrypts what goes to the folders. The passphrase is asked in each session and is nowhere kept. */
  encrypt: z.boolean(),
  keep: RotationRules,
});
export type StrongboxSettings = z.infer<typeof StrongboxSettings>;

/** What happened to backups and checks on this computer. */
export const StrongboxEvent = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('backup'),
    ...{ atMs: z.number(), reason: BackupReason, cellarName: z.string(), bookId: z.string().nullable() },
    /** Null when it failed, with the reason in `refusal`. */
    file: z.string().nullable(),
    ...{ bytes: z.number(), encrypted: z.boolean(), entries: z.int() },
    refusal: BackupRefusal.nullable(),
    elsewhere: z.array(z.object({ folder: z.string(), refusal: BackupRefusal.nullable() })),
    /** What the rotation threw away after it. */
    dropped: z.array(z.string()),
    /** Checksum of what the cellar keeps beside its book, such as its House Rules; a list begun earlier does not say. */
    besideBook: z.string().optional(),
  }),
  z.object({
    kind: z.literal('check'),
    ...{ atMs: z.number(), how: z.enum(['onOpening', 'full']), cellarName: z.string(), sound: z.boolean() },
    ...{ entries: z.int(), faults: z.array(z.object({ type: z.string(), detail: z.string() })) },
  }),
  z.object({
    kind: z.literal('restore'),
    ...{ atMs: z.number(), cellarName: z.string(), file: z.string(), madeAtMs: z.number() },
    safetyFile: z.string(),
  }),
  z.object({
    kind: z.literal('salvage'),
    ...{ atMs: z.number(), file: z.string(), target: z.string(), entries: z.int() },
  }),
]);
export type StrongboxEvent = z.infer<typeof StrongboxEvent>;

export const BackupFolder = z.object({
  folder: z.string(),
  /** The program's own folder, which is always there. */
  own: z.boolean(),
  state: z.enum(['ready', 'missing', 'notAFolder', 'readOnly']),
});
export type BackupFolder = z.infer<typeof BackupFolder>;

export const StrongboxState = z.object({
  settings: StrongboxSettings,
  folders: z.array(BackupFolder),
  /** The newest proven backup of the open cellar that this computer knows of. */
  last: z.object({ file: z.string(), atMs: z.number(), reason: BackupReason, entries: z.int() }).nullable(),
  /** Lines written in the book since then. */
  linesSince: z.int().min(0),
  /** Its name, House Rules or label layouts are others than in that backup. */
  besideBookChanged: z.boolean(),
  passphraseHeld: z.boolean(),
  /** Newest first. */
  history: z.array(StrongboxEvent),
});
export type StrongboxState = z.infer<typeof StrongboxState>;

/** What the foot of the rail says of backups, cheap enough to be asked every minute. */
export const BackupStanding = z.object({
  /** When the newest proven backup that is still there was made. */
  lastAtMs: z.number().nullable(),
  /** When the cellar was begun. */
  begunAtMs: z.number(),
  /** The newest try failed. */
  failed: z.boolean(),
  /** Folders that were named and are not there now, such as a stick. */
  missing: z.array(z.string()),
  /** The last check of the open cellar, on opening or in full, found faults. */
  unsound: z.boolean(),
});
export type BackupStanding = z.infer<typeof BackupStanding>;

export const BackUpReport = z.object({
  backup: VerifiedBackup,
  elsewhere: z.array(z.object({ folder: z.string(), refusal: BackupRefusal.nullable() })),
  dropped: z.array(z.string()),
});
export type BackUpReport = z.infer<typeof BackUpReport>;

/** A backup file in one of the folders; one that cannot be read without its passphrase says only where it is. */
export const ListedBackup = z.object({
  ...{ file: z.string(), folder: z.string(), bytes: z.number(), encrypted: z.boolean() },
  /** By its seal; for an encrypted one by what this computer wrote down when it was made. */
  self: z
    .object({ madeAtMs: z.number(), reason: BackupReason, cellarName: z.string(), entries: z.int() })
    .nullable(),
  /** Whether it comes from the cellar that lies open; null when that is not known. */
  ofThisCellar: z.boolean().nullable(),
  refusal: BackupRefusal.nullable(),
});
export type ListedBackup = z.infer<typeof ListedBackup>;

/**
 * How a backup stands to the open cellar: of the same moment; of an earlier one, so many lines ago; of a later one; of a
 * book that parted from this one; or of another cellar.
 */
export const BackupRelation = z.discriminatedUnion('type', [
  z.object({ type: z.literal('same') }),
  z.object({ type: z.literal('earlier'), linesSince: z.int() }),
  z.object({ type: z.literal('later'), linesMore: z.int() }),
  z.object({ type: z.literal('parted') }),
  z.object({ type: z.literal('otherCellar') }),
]);
export type BackupRelation = z.infer<typeof BackupRelation>;

export const ListedBatch = z.object({
  ...{ batchId: BatchId, code: z.string(), name: z.string(), ferment: z.string(), startedAtMs: z.number() },
  ...{ readings: z.int(), lastReadingAtMs: z.number().nullable() },
  stands: z.array(
    z.object({ vesselId: VesselId, vesselNumber: z.int(), vesselName: z.string(), volumeUl: z.int() }),
  ),
  /** In the open cellar: not there, there with as much in it, or there with something else. */
  here: z.enum(['missing', 'same', 'differs']),
  /** Readings in the backup that the open cellar does not have. */
  readingsMissingHere: z.int(),
});
export type ListedBatch = z.infer<typeof ListedBatch>;

export const BackupInside = z.object({
  backup: BackupSelf,
  relation: BackupRelation,
  now: z.object({ counts: BackupCounts, lastEntry: LastEntry.nullable() }),
  /** Newest first; the first thousand. */
  batches: z.array(ListedBatch),
});
export type BackupInside = z.infer<typeof BackupInside>;

export const FolderListing = z.object({
  folder: z.string(),
  parent: z.string().nullable(),
  folders: z.array(z.string()),
  /** Names of files that end as backups do. */
  backups: z.array(z.string()),
  /** There are more than are shown. */
  more: z.boolean(),
});
export type FolderListing = z.infer<typeof FolderListing>;

const refusals = { BACKUP_REFUSED: { status: 422, data: BackupRefusal } } as const;
const chosen = { file: FilePath, passphrase: Passphrase.nullable() };

export const strongboxContract = {
  state: oc.output(StrongboxState),
  /** Null while there is nothing that could be lost: a sample, or a book without a line. */
  standing: oc.output(BackupStanding.nullable()),
  settle: oc.input(StrongboxSettings).output(StrongboxState).errors(refusals),
  /** Holds the passphrase for new backups until the program ends, or lets go of it. */
  holdPassphrase: oc
    .input(z.strictObject({ passphrase: Passphrase.min(PASSPHRASE_MIN).nullable() }))
    .output(StrongboxState),
  /** Makes a backup by hand, in every folder. */
  backUp: oc.output(eventIterator(Progress, BackUpReport)).errors(refusals),
  list: oc.output(z.array(ListedBackup)),
  /** Lists folders for choosing one: names of folders, and of files that end as backups do. Null: the keeper's own. */
  folders: oc
    .input(z.strictObject({ folder: FilePath.nullable() }))
    .output(FolderListing)
    .errors(refusals),
  /** Proves a backup and says what is in it, without changing anything. */
  lookInside: oc.input(z.strictObject(chosen)).output(eventIterator(Progress, BackupInside)).errors(refusals),
  /** Proves a backup and checks the cellar in it in full. */
  verify: oc.input(z.strictObject(chosen)).output(eventIterator(Progress, VerifiedBackup)).errors(refusals),
  /** Puts the cellar of a backup in the place of the open one, after a safety copy of what is there. */
  restore: oc
    .input(z.strictObject(chosen))
    .output(
      eventIterator(Progress, z.object({ about: AboutCellar, backup: BackupSelf, safety: VerifiedBackup })),
    )
    .errors(refusals),
  /** Takes the cellar of a backup out into a file of its own and opens that. */
  openBeside: oc
    .input(z.strictObject({ ...chosen, target: FilePath }))
    .output(eventIterator(Progress, z.object({ about: AboutCellar, backup: BackupSelf })))
    .errors(refusals),
  /** Writes a batch of a backup into the book anew, as one step: what stood in one vessel, into an empty one of this cellar. */
  bringBackBatch: oc
    .input(
      z.strictObject({
        ...{
          requestId: RequestId,
          ...chosen,
          batchId: BatchId,
          fromVesselId: VesselId,
          intoVesselId: VesselId,
        },
        note: NoteText,
      }),
    )
    .output(eventIterator(Progress, z.object({ posted: Posted, readings: z.int(), readingsLeft: z.int() })))
    .errors({
      ...refusals,
      ...writeErrors,
      NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) },
    }),
  /** Reads what can be read of a damaged backup or cellar into a new cellar file, which is left to be opened. */
  salvage: oc
    .input(z.strictObject({ file: FilePath, target: FilePath }))
    .output(eventIterator(Progress, SalvageReport))
    .errors(refusals),
  /** Closes the cellar in which a check found faults, so that it can be put right: an empty one then stands in for it. */
  standAside: oc.output(AboutCellar).errors(refusals),
  /**
   * Puts a sound cellar in the place of the one that could not be opened at the start: the cellar of a backup, or what can be
   * read of it. The one that could not be opened is kept, whole, under the name that is answered.
   */
  putRight: oc
    .input(
      z.discriminatedUnion('by', [
        z.strictObject({ by: z.literal('backup'), ...chosen }),
        z.strictObject({ by: z.literal('salvage') }),
      ]),
    )
    .output(
      eventIterator(
        Progress,
        z.object({
          ...{ about: AboutCellar, aside: z.string() },
          ...{ backup: BackupSelf.nullable(), salvaged: SalvageReport.nullable() },
        }),
      ),
    )
    .errors(refusals),
  /** What went wrong, and with what versions and settings, without names, notes or paths. */
  diagnostics: oc.output(z.object({ name: z.string(), text: z.string() })),
};
