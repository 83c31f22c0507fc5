import { randomBytes } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { homedir } from 'node:os';
import { isAbsolute, join, resolve } from 'node:path';
import type { Clock } from '#core/base/ports.ts';
import { PASSPHRASE_MIN } from '#core/contract/strongbox.ts';
import type { CheckReport, Progress } from '#core/contract/cellar.ts';
import type { SalvageReport } from '#core/contract/salvage.ts';
import type {
  BackupInside,
  BackupRelation,
  BackupStanding,
  BackUpReport,
  ListedBackup,
  StrongboxSettings,
  StrongboxState,
} from '#core/contract/strongbox.ts';
import type { LocalTime } from '#core/quantities/civil-time.ts';
import { backupName } from '#core/strongbox/backup-name.ts';
import type { BackupReason } from '#core/strongbox/manifest.ts';
import { backupsToDrop, dailyIsDue } from '#core/strongbox/rotation.ts';
import { isOverdue } from '#core/strongbox/overdue.ts';
import type { CellarDesk } from '../cellar/cellar-desk.ts';
import { isRunning } from '../platform/is-running.ts';
import { backupsIn, stateOfFolder } from './backup-folders.ts';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';
import { heldAgainst } from './batches-inside.ts';
import { besideBook } from './beside-book.ts';
import { carryElsewhere } from './carry-elsewhere.ts';
import { checkOnOpening } from './check-on-opening.ts';
import { diagnosticsText } from './diagnostics.ts';
import { openHistory } from './history-file.ts';
import { lookInside, type BackupChosen } from './look-inside.ts';
import { backupCounts, lastEntry } from './payload-facts.ts';
import { restoreWhole, type Restored } from './restore-whole.ts';
import { readSettings, writeSettings } from './settings-file.ts';
import { sweepPassing } from './sweep-passing.ts';
import { writeBackup } from './write-backup.ts';

export interface StrongboxParts {
  readonly desk: CellarDesk;
  /** The folder of the program's own files: its backups, its list of what was done, and its settings lie there. */
  readonly dataFolder: string;
  readonly clock: Clock;
  readonly localTime: LocalTime;
}

export type Strongbox = ReturnType<typeof openStrongbox>;

const HISTORY_SHOWN = 200;
/** Names this run of the program: a number of a process is given again, and in a container it is always the same. */
const RUN = randomBytes(4).toString('hex');
const WORK_NAME = `${process.pid}-${RUN}`;

/** Where the program keeps backups of its own. */
export function backupFolderIn(dataFolder: string): string {
  return join(dataFolder, 'backups');
}

/** Backups of whatever cellar lies open: by hand and by themselves, where they go, which stay, and what is known of them. */
export function openStrongbox({ desk, dataFolder, clock, localTime }: StrongboxParts) {
  const ownFolder = backupFolderIn(dataFolder);
  const workFolders = join(dataFolder, 'strongbox-work');
  const workFolder = join(workFolders, WORK_NAME);
  const settingsFile = join(dataFolder, 'strongbox.json');
  const history = openHistory(join(dataFolder, 'strongbox-history.jsonl'));
  let passphrase: string | null = null;
  let busy: Promise<void> = Promise.resolve();
  /** The cellar in which the last check found faults. */
  let unsoundFile: string | null = null;

  const session = () => desk.services.session;
  /** Read each time: another window of the program may have settled them. */
  const settled = (): StrongboxSettings => readSettings(settingsFile);
  const cellarOf = () => {
    const { sqlite } = session().cellar;
    const row = sqlite
      .prepare('SELECT name, begun, is_sample, created_at_ms FROM cellar WHERE id = 1')
      .get() as { name: string; begun: number; is_sample: number; created_at_ms: number };
    const first = sqlite.prepare('SELECT entry_id FROM entry ORDER BY sequence LIMIT 1').pluck().get();
    return {
      ...{ name: row.name, isBegun: row.begun === 1, isSample: row.is_sample === 1 },
      ...{ bookId: (first as string | undefined) ?? null, begunAtMs: row.created_at_ms },
    };
  };

  const triesOf = (bookId: string | null) =>
    history.events().flatMap((event) => (event.kind === 'backup' && event.bookId === bookId ? [event] : []));
  /** The newest backup of the open cellar that lies where it was written. */
  const lastEvent = () => {
    const { bookId } = cellarOf();
    if (bookId === null) return undefined;
    return triesOf(bookId).find(({ file }) => file !== null && existsSync(file));
  };
  const last = (): StrongboxState['last'] => {
    const event = lastEvent();
    if (event === undefined || event.file === null) return null;
    const { file, atMs, reason, entries } = event;
    return { file, atMs, reason, entries };
  };
  const linesSince = (): number => Math.max(0, session().book.count() - (lastEvent()?.entries ?? 0));
  const besideBookChanged = (): boolean => {
    const event = lastEvent();
    return event !== undefined && event.besideBook !== besideBook(session().cellar.sqlite);
  };
  const standing = (): BackupStanding | null => {
    const { isBegun, isSample, bookId, begunAtMs } = cellarOf();
    if (!isBegun || isSample || bookId === null) return null;
    return {
      ...{
        lastAtMs: last()?.atMs ?? null,
        begunAtMs,
        failed: (triesOf(bookId)[0]?.refusal ?? null) !== null,
      },
      unsound: unsoundFile === session().cellar.file,
      missing: folders().flatMap(({ folder, own, state: stands }) =>
        !own && stands === 'missing' ? [folder] : [],
      ),
    };
  };

  const newFile = (reason: BackupReason): string => {
    mkdirSync(ownFolder, { recursive: true, mode: 0o700 });
    const { name } = cellarOf();
    for (let nth = 1; ; nth += 1) {
      const file = join(
        ownFolder,
        backupName({ cellarName: name, madeAtMs: clock(), reason, nth }, localTime),
      );
      if (!existsSync(file)) return file;
    }
  };

  const folders = (): StrongboxState['folders'] => [
    // Made when the first backup is.
    { folder: ownFolder, own: true, state: stateOfFolder(existsSync(ownFolder) ? ownFolder : dataFolder) },
    ...settled().folders.map((folder) => ({ folder, own: false, state: stateOfFolder(folder) })),
  ];

  const state = (): StrongboxState => ({
    ...{ settings: settled(), folders: folders(), last: last(), linesSince: linesSince() },
    besideBookChanged: besideBookChanged(),
    ...{ passphraseHeld: passphrase !== null, history: history.events().slice(0, HISTORY_SHOWN) },
  });

  const list = (): ListedBackup[] => {
    const { bookId } = cellarOf();
    const events = history.events();
    return folders()
      .flatMap(({ folder }) => backupsIn(folder, events))
      .map(({ bookId: theirs, ...found }) => ({
        ...found,
        ofThisCellar: found.self === null ? null : theirs !== null && theirs === bookId,
      }))
      .sort((a, b) => (b.self?.madeAtMs ?? 0) - (a.self?.madeAtMs ?? 0));
  };

  /** After a backup was made: those of this cellar that the rules keep no longer, in every folder that is there. */
  const rotate = (): string[] => {
    const { bookId } = cellarOf();
    if (bookId === null) return [];
    const events = history.events();
    return folders().flatMap(({ folder, state: folderState }) => {
      if (folderState !== 'ready') return [];
      const ours = backupsIn(folder, events, Infinity).flatMap(({ file, self, bookId: theirs }) =>
        self === null || theirs !== bookId ? [] : [{ file, ...self }],
      );
      return backupsToDrop(ours, settled().keep, localTime).filter((file) => {
        try {
          rmSync(file);
          return true;
        } catch {
          return false; // It stays, and is found again the next time.
        }
      });
    });
  };

  /** One at a time: a second waits for the first, so that neither doubles the work nor trips over the other's rotation. */
  async function* inTurn<T>(
    work: () => AsyncGenerator<Progress, T, void>,
  ): AsyncGenerator<Progress, T, void> {
    const before = busy;
    let release: () => void = () => undefined;
    const mine = new Promise<void>((resolve) => {
      release = resolve;
    });
    // One that gives up waiting lets nobody past those before it.
    busy = before.then(() => mine);
    try {
      yield { what: 'copy', done: 0, total: 1 };
      await before;
      return yield* work();
    } finally {
      release();
    }
  }

  const backUp = (reason: BackupReason, signal?: AbortSignal): AsyncGenerator<Progress, BackUpReport, void> =>
    inTurn(async function* () {
      const { name: cellarName, bookId } = cellarOf();
      const { cellar } = session();
      const stop = signal === undefined ? cellar.closing : AbortSignal.any([cellar.closing, signal]);
      const madeAtMs = clock();
      const event = {
        kind: 'backup' as const,
        ...{ atMs: madeAtMs, reason, cellarName, bookId },
        // Before the copy: what is changed while it is made counts as changed since.
        besideBook: besideBook(cellar.sqlite),
      };
      let file = ownFolder;
      try {
        file = newFile(reason);
        const backup = yield* writeBackup(
          cellar,
          { file, reason, madeAtMs, passphrase: null, workFolder },
          signal,
        );
        const { encrypt, folders: others } = settled();
        const carrying = { backup, folders: others, encrypt, passphrase, workFolder };
        const elsewhere = yield* carryElsewhere(carrying, stop);
        const made = { file, bytes: backup.bytes, encrypted: false, entries: backup.counts.entries };
        // Written down first, since the rotation knows an encrypted copy by it.
        history.add({ ...event, ...made, refusal: null, elsewhere, dropped: [] });
        const dropped = rotate();
        return { backup, elsewhere, dropped };
      } catch (error) {
        if (stop.aborted) throw error;
        const { refusal } = backupRefusedFrom(error, file);
        history.add({
          ...{ ...event, file: null, bytes: 0, encrypted: false, entries: 0, refusal },
          ...{ elsewhere: [], dropped: [] },
        });
        throw backupRefusedFrom(error, file);
      }
    });

  /** Nothing that could be lost: no cellar begun, a sample, an empty book. */
  const nothingToLose = (): boolean => {
    const { isBegun, isSample, bookId } = cellarOf();
    return !isBegun || isSample || bookId === null;
  };
  /** Or the last backup holds all that is there. */
  const nothingToKeep = (): boolean =>
    nothingToLose() || (last() !== null && linesSince() === 0 && !besideBookChanged());

  const chosen = (file: string, theirs: string | null): BackupChosen => ({
    ...{ file, passphrase: theirs, workFolder },
  });

  const relationOf = (
    backup: BackupInside['backup'],
    now: BackupInside['now'],
    hasOurs: boolean,
  ): BackupRelation => {
    if (backup.bookId === null || backup.bookId !== cellarOf().bookId) return { type: 'otherCellar' };
    const theirs = backup.lastEntry;
    const ours = now.lastEntry;
    if (theirs === null || ours === null) return { type: 'parted' };
    if (theirs.entryId === ours.entryId) return { type: 'same' };
    const { book } = session();
    if (book.byId(theirs.entryId)?.sequence === theirs.sequence)
      return { type: 'earlier', linesSince: ours.sequence - theirs.sequence };
    if (hasOurs) return { type: 'later', linesMore: theirs.sequence - ours.sequence };
    return { type: 'parted' };
  };

  return {
    state,
    standing,
    list,
    workFolder,
    ownFolder,
    chosen,
    settle(wanted: StrongboxSettings): StrongboxState {
      for (const folder of wanted.folders) {
        if (!isAbsolute(folder) || folder.includes('\0'))
          throw new BackupRefused({ type: 'BadPath', file: folder });
      }
      // Its own folder has every backup already.
      const others = new Set(wanted.folders.map((folder) => resolve(folder)));
      others.delete(resolve(ownFolder));
      writeSettings(settingsFile, { ...wanted, folders: [...others] });
      return state();
    },
    holdPassphrase(wanted: string | null): StrongboxState {
      if (wanted !== null && wanted.length < PASSPHRASE_MIN) throw new Error('a passphrase of that length');
      passphrase = wanted;
      return state();
    },
    backUp,
    /** A backup before something that could go wrong; none when nothing was written since the last. */
    async *before(reason: BackupReason, signal?: AbortSignal): AsyncGenerator<Progress, void, void> {
      if (!nothingToKeep()) yield* backUp(reason, signal);
    },
    async *look(
      file: string,
      theirs: string | null,
      signal?: AbortSignal,
    ): AsyncGenerator<Progress, BackupInside, void> {
      const { sqlite } = session().cellar;
      const now = { counts: backupCounts(sqlite), lastEntry: lastEntry(sqlite) };
      const looked = yield* lookInside(chosen(file, theirs), signal, now.lastEntry);
      return {
        ...{ backup: looked.backup, now, relation: relationOf(looked.backup, now, looked.hasLine) },
        batches: heldAgainst(session().cellar.sqlite, looked.batches),
      };
    },
    restore: (
      file: string,
      theirs: string | null,
      signal?: AbortSignal,
    ): AsyncGenerator<Progress, Restored, void> =>
      inTurn(async function* () {
        const { name: cellarName, bookId } = cellarOf();
        const asked = { ...chosen(file, theirs), safetyFile: newFile('beforeRestore') };
        const restored = yield* restoreWhole(desk, asked, signal);
        const { safety, backup } = restored;
        history.add({
          ...{ kind: 'backup', atMs: safety.madeAtMs, reason: 'beforeRestore', cellarName, bookId },
          ...{ file: safety.file, bytes: safety.bytes, encrypted: false, entries: safety.counts.entries },
          ...{ refusal: null, elsewhere: [], dropped: [] },
        });
        history.add({
          ...{ kind: 'restore', atMs: clock(), cellarName, file, madeAtMs: backup.madeAtMs },
          safetyFile: safety.file,
        });
        return restored;
      }),
    noteSalvage({ file, target, lines }: SalvageReport): void {
      history.add({ kind: 'salvage', atMs: clock(), file, target, entries: lines.saved });
    },
    /**
     * Closes the open cellar, in which a check found faults, so that it can be put right.
     *
     * @throws BackupRefused for a cellar in which none were found: it has no need of it
     */
    standAside(): void {
      const { file } = session().cellar;
      if (unsoundFile !== file)
        throw new BackupRefused({ type: 'OtherFault', file, detail: 'NO_FAULT_FOUND' });
      desk.standAside();
    },
    noteFullCheck({ sound, entries, faults }: CheckReport): void {
      const { name: cellarName } = cellarOf();
      unsoundFile = sound ? null : session().cellar.file;
      history.add({ kind: 'check', atMs: clock(), how: 'full', cellarName, sound, entries, faults });
    },
    /** Where choosing a folder begins. */
    choosingBegins: (): string => homedir(),
    /** What is due by itself now; null when nothing is. */
    due: (): BackupReason | null => {
      const lastAtMs = last()?.atMs ?? null;
      if (!settled().daily || nothingToLose() || !dailyIsDue(lastAtMs, clock())) return null;
      // What has not changed is proven anew before the rail would turn to a caution.
      return nothingToKeep() && lastAtMs !== null && !isOverdue(lastAtMs, clock()) ? null : 'daily';
    },
    closingIsDue: (): boolean => settled().onClosing && !nothingToKeep(),
    /** The quick check of the cellar that was just opened; it goes into the history. */
    async checkOpened(): Promise<void> {
      const { name: cellarName, isBegun } = cellarOf();
      if (!isBegun) return;
      const checked = await checkOnOpening(desk.services);
      if (checked === null) return;
      const { sound, entries, faults } = checked;
      unsoundFile = sound ? null : session().cellar.file;
      history.add({
        ...{ kind: 'check', atMs: clock(), how: 'onOpening', cellarName, sound, entries },
        faults: [...faults],
      });
    },
    diagnostics: () => ({
      name: `undercroft diagnostics ${new Date(clock()).toISOString().slice(0, 10)}.json`,
      text: diagnosticsText(desk.services, state(), clock()),
    }),
    /** Throws away what programs that were cut off left in their work folders, and of backups they did not finish. */
    sweep(): void {
      for (const { folder, state: stands } of folders())
        if (stands === 'ready') sweepPassing(folder, clock());
      if (!existsSync(workFolders)) return;
      for (const name of readdirSync(workFolders)) {
        const pid = Number(name.split('-')[0]);
        if (name === WORK_NAME || (pid !== process.pid && isRunning(pid))) continue;
        rmSync(join(workFolders, name), { recursive: true, force: true });
      }
    },
  };
}
