import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { openCellar } from '#main/cellar/open-cellar.ts';
import { restoreBeside, restoreWhole } from '#main/strongbox/restore-whole.ts';
import { begun, jar, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';
import { backupOf, ended, refusalOf } from './backups-for-tests.ts';

const scratch = scratchFolder();
let folder: string;
let home: string;
let desk: TestDesk;
let count = 0;
beforeEach(async () => {
  folder = join(scratch.folder, `restore-${(count += 1)}`);
  mkdirSync(folder);
  home = join(folder, 'home.undercroft');
  desk = openDeskOn(home);
  await begun(desk);
  return () => {
    desk.close();
  };
});
afterAll(() => {
  scratch.remove();
});

const asked = (file: string, safety = 'safety') => ({
  ...{ file, passphrase: null, workFolder: join(folder, 'work') },
  safetyFile: join(folder, `${safety}.undercroft-backup`),
});
const vessels = async (): Promise<number> => (await desk.client.cellar.about()).vesselCount;

describe('restoring a whole backup', { timeout: 60_000 }, () => {
  it('puts the cellar back as it was, and there is a way back', async () => {
    const backup = await backupOf(desk, join(folder, 'kept'));
    await desk.post(jar({ name: 'Put up later' }));
    expect(await vessels()).toBe(2);
    const restored = await ended(restoreWhole(desk.app.desk, asked(backup.file), undefined));
    expect(await vessels()).toBe(1);
    expect(restored.safety).toMatchObject({ reason: 'beforeRestore', counts: { vessels: 2 } });
    await desk.post(jar({ name: 'Written after it' }));
    await ended(restoreWhole(desk.app.desk, asked(restored.safety.file, 'again'), undefined));
    expect(await vessels()).toBe(2);
    expect(readdirSync(folder).sort()).toEqual(
      [
        'again.undercroft-backup',
        'home.undercroft',
        'home.undercroft-wal',
        'kept',
        'safety.undercroft-backup',
      ].sort(),
    );
  });

  it('leaves the cellar as it is when the backup is damaged or no safety copy can be made', async () => {
    const backup = await backupOf(desk, join(folder, 'kept'));
    await desk.post(jar({}));
    const gone = { ...asked(backup.file), safetyFile: join(folder, 'gone', 'safety.undercroft-backup') };
    expect(await refusalOf(restoreWhole(desk.app.desk, gone, undefined))).toMatchObject({
      ...{ type: 'NoSafetyCopy', detail: 'FolderMissing' },
    });
    const bytes = readFileSync(backup.file);
    bytes[9000] = (bytes[9000] ?? 0) ^ 4;
    writeFileSync(backup.file, bytes);
    expect(await refusalOf(restoreWhole(desk.app.desk, asked(backup.file), undefined))).toMatchObject({
      type: 'PartsDamaged',
    });
    expect(await vessels()).toBe(2);
    await desk.post(jar({}));
    expect(await vessels()).toBe(3);
    expect(readdirSync(folder).sort()).toEqual(['home.undercroft', 'home.undercroft-wal', 'kept']);
  });

  it('can be stopped until the last step, with everything as it was', async () => {
    const backup = await backupOf(desk, join(folder, 'kept'));
    await desk.post(jar({}));
    const seen = new Set<string>();
    for (const until of ['extract', 'file', 'copy', 'seal', 'prove', 'swap']) {
      const stop = new AbortController();
      const work = restoreWhole(desk.app.desk, asked(backup.file, `safety-${until}`), stop.signal);
      for (let step = await work.next(); step.done !== true; step = await work.next()) {
        seen.add(step.value.what);
        if (step.value.what !== until) continue;
        stop.abort();
        // What the contract's router does with a call that was given up.
        await work.return(undefined as never);
        break;
      }
      expect(stop.signal.aborted, `${until} of ${[...seen].join()}`).toBe(true);
      expect(await vessels()).toBe(2);
    }
    expect(readdirSync(folder).sort()).toEqual([
      ...['home.undercroft', 'home.undercroft-wal', 'kept', 'safety-swap.undercroft-backup'],
    ]);
    await desk.post(jar({}));
    expect(await vessels()).toBe(3);
  });

  it('opens a backup beside the present one, and writes over nothing', async () => {
    const backup = await backupOf(desk, join(folder, 'kept'));
    const { session } = desk.app.desk.services;
    const target = join(folder, 'beside.undercroft');
    const beside = { ...asked(backup.file), target };
    await ended(restoreBeside(session, beside, undefined));
    const opened = openCellar(target);
    expect(opened.sqlite.prepare('SELECT COUNT(*) FROM entry').pluck().get()).toBe(4);
    opened.close();
    expect(await refusalOf(restoreBeside(session, beside, undefined))).toEqual({
      ...{ type: 'AlreadyThere', file: target },
    });
    const below = { ...beside, target: join(target, 'below a file') };
    expect(await refusalOf(restoreBeside(session, below, undefined))).toMatchObject({
      ...{ type: 'BadPath' },
    });
  });

  it('sweeps what a restoring that was cut off left beside the cellar, and nothing else', async () => {
    await desk.client.cellar.about();
    desk.close();
    const theirs = `${home}.restoring-notes`;
    writeFileSync(theirs, 'mine');
    writeFileSync(`${home}.restoring-0123456789ab`, 'half a cellar');
    writeFileSync(`${home}.replacing`, '999999999');
    desk = openDeskOn(home);
    expect(await vessels()).toBe(1);
    expect(readdirSync(folder).sort()).toEqual([
      'home.undercroft',
      'home.undercroft-wal',
      'home.undercroft.restoring-notes',
    ]);
  });

  it('keeps a second program out while a file is being put in place', () => {
    desk.close();
    writeFileSync(`${home}.replacing`, String(process.ppid));
    expect(() => openCellar(home)).toThrow(/open in another program/);
  });
});
