import { eventIterator, oc } from '@orpc/contract';
import { z } from 'zod';
import { Name } from '../ledger/act.ts';
import { HouseRules } from './house-rules.ts';

/** Why a file could not be opened or written. `detail` is the system's own short code, for a person to quote. */
export const FileRefusal = z.discriminatedUnion('type', [
  z.object({ type: z.literal('NotACellar'), file: z.string() }),
  z.object({
    type: z.literal('NewerVersion'),
    file: z.string(),
    fileVersion: z.int(),
    programVersion: z.int(),
  }),
  z.object({ type: z.literal('Damaged'), file: z.string(), detail: z.string() }),
  z.object({ type: z.literal('InUse'), file: z.string() }),
  z.object({ type: z.literal('FolderReadOnly'), file: z.string() }),
  z.object({ type: z.literal('FolderMissing'), file: z.string() }),
  z.object({ type: z.literal('DiskFull'), file: z.string() }),
  z.object({ type: z.literal('AlreadyThere'), file: z.string() }),
  z.object({ type: z.literal('BadPath'), file: z.string() }),
  /** Something that is no cellar was to be called like one. */
  z.object({ type: z.literal('CellarsName'), file: z.string() }),
  z.object({ type: z.literal('NoSuchFile'), file: z.string() }),
  z.object({ type: z.literal('OtherFault'), file: z.string(), detail: z.string() }),
]);
export type FileRefusal = z.infer<typeof FileRefusal>;

export const AboutCellar = z.object({
  name: z.string(),
  /** False until the first page has been filled in: the window then shows the first run. */
  begun: z.boolean(),
  isSample: z.boolean(),
  file: z.string(),
  readOnly: z.boolean(),
  /** Why the cellar this program was started with could not be opened, while an empty one stands in for it. */
  unopened: FileRefusal.nullable(),
  houseRules: HouseRules,
  entryCount: z.int(),
  vesselCount: z.int(),
  batchCount: z.int(),
  cultureCount: z.int(),
  lastWrittenAtMs: z.number().nullable(),
  nowMs: z.number(),
  programVersion: z.string(),
  fileVersion: z.int(),
});
export type AboutCellar = z.infer<typeof AboutCellar>;

export const FilePath = z.string().trim().min(1).max(1000);
const fileErrors = { FILE_REFUSED: { status: 422, data: FileRefusal } } as const;

export const Progress = z.object({ what: z.string(), done: z.int(), total: z.int() });
export type Progress = z.infer<typeof Progress>;

/** What a check of the file found. `sound` is true only when every part of the check passed. */
export const CheckReport = z.object({
  sound: z.boolean(),
  entries: z.int(),
  faults: z.array(z.object({ type: z.string(), detail: z.string() })),
});
export type CheckReport = z.infer<typeof CheckReport>;

export const FirstShelves = z.strictObject({
  placeName: Name,
  shelfCount: z.int().min(1).max(40),
  positions: z.int().min(1).max(200),
});

export const cellarContract = {
  about: oc.output(AboutCellar),
  /** Fills in the first page: name, measures, and the first shelves in bulk. */
  begin: oc
    .input(z.strictObject({ name: Name, houseRules: HouseRules, shelves: FirstShelves.nullable() }))
    .output(AboutCellar)
    .errors({ ALREADY_BEGUN: { status: 409 } }),
  rename: oc.input(z.strictObject({ name: Name })).output(AboutCellar),
  /** Opens a cellar by its whole path. A file that is not there is begun only when that is asked for. */
  open: oc
    .input(z.strictObject({ file: FilePath, begin: z.boolean() }))
    .output(AboutCellar)
    .errors(fileErrors),
  /** Opens a fresh copy of the sample cellar; what is done there is thrown away easily. */
  openSample: oc.output(AboutCellar).errors(fileErrors),
  /** Goes back to the cellar this program was started with. */
  openHome: oc.output(AboutCellar).errors(fileErrors),
  /** Writes a whole copy beside: progress while it runs, where it lies at the end. Can be stopped; nothing half-written is left. */
  saveCopy: oc
    .input(z.strictObject({ file: FilePath }))
    .output(eventIterator(Progress, z.object({ file: z.string(), bytes: z.int() })))
    .errors(fileErrors),
  /** Checks the file, the balance of every entry, and the shelf against a rebuild from the book. */
  check: oc.output(eventIterator(Progress, CheckReport)),
};
