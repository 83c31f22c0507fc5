import { ORPCError } from '@orpc/client';
import {
  existsSync,
  lstatSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { ROTATION_AT_FIRST } from '#core/strongbox/rotation.ts';
import { giveItsName, passingName, refuseBadTarget } from '#main/cellar/write-aside.ts';
import { ended } from './backups-for-tests.ts';
import { begun, jar, NOW, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

const scratch = scratchFolder();
let folder: string;
let desk: TestDesk;
let now = NOW;
let count = 0;
beforeEach(async () => {
  folder = join(scratch.folder, `faults-${(count += 1)}`);
  mkdirSync(folder);
  now = NOW;
  desk = openDeskOn(join(folder, 'home.undercroft'), () => now);
  await begun(desk);
  return () => {
    desk.close();
  };
});
afterAll(() => {
  scratch.remove();
});

const FIRST = { folders: [], onClosing: true, daily: true, encrypt: false, keep: ROTATION_AT_FIRST };
const backUp = () => ended(desk.app.strongbox.backUp('byHand'));

/** What a call was answered with when it was refused. */
async function refusal(call: Promise<unknown>): Promise<unknown> {
  try {
    await call;
  } catch (error) {
    if (error instanceof ORPCError) return { code: String(error.code), ...(error.data as object) };
    throw error;
  }
  return null;
}

describe('what writes while a backup is put in place', { timeout: 60_000 }, () => {
  it('is answered that it is so, whatever it writes', async () => {
    const { backup } = await backUp();
    const about = await desk.client.cellar.about();
    const work = desk.app.strongbox.restore(backup.file, null);
    let asked = 0;
    for (;;) {
      const step = await work.next();
      if (step.done === true) break;
      if (step.value.what !== 'swap') continue;
      asked += 1;
      for (const call of [
        desk.client.cellar.rename({ name: 'Another name' }),
        desk.client.houseRules.settle({ ...about.houseRules, pantry: true }),
        desk.post(jar({})),
        desk.client.ledger.undo({ requestId: crypto.randomUUID() }),
      ]) {
        expect(await refusal(call)).toMatchObject({ code: 'NOT_WRITTEN', type: 'Restoring' });
      }
    }
    expect(asked).toBe(1);
    await desk.post(jar({}));
    expect((await desk.client.cellar.rename({ name: 'Another name' })).name).toBe('Another name');
  });

  it('is not written beside the book either when the file is gone', async () => {
    const file = join(folder, 'home.undercroft');
    renameSync(file, join(folder, 'moved.undercroft'));
    const gone = { code: 'NOT_WRITTEN', type: 'Gone' };
    expect(await refusal(desk.client.cellar.rename({ name: 'Lost' }))).toMatchObject(gone);
    renameSync(join(folder, 'moved.undercroft'), file);
  });
});

describe('several at once', { timeout: 60_000 }, () => {
  it('one that gives up waiting lets nobody past the one before it', async () => {
    const { strongbox } = desk.app;
    const first = strongbox.backUp('byHand');
    await first.next();
    await first.next();
    const second = strongbox.backUp('byHand');
    await second.next();
    await second.return(undefined as never);
    const third = strongbox.backUp('byHand');
    await third.next();
    let overtook = true;
    const after = third.next().then(() => {
      if (overtook) throw new Error('the third began while the first was at work');
    });
    await new Promise((resolve) => setImmediate(resolve));
    overtook = false;
    await ended(first);
    await after;
    await ended(third);
    expect(readdirSync(join(folder, 'backups'))).toHaveLength(2);
  });

  it('what one window settled counts in the other', async () => {
    const other = openDeskOn(join(folder, 'other.undercroft'), () => now);
    await other.client.strongbox.settle({ ...FIRST, daily: false });
    expect((await desk.client.strongbox.state()).settings.daily).toBe(false);
    expect(desk.app.strongbox.due()).toBeNull();
    other.close();
  });
});

describe('folders', { timeout: 60_000 }, () => {
  it('that are no whole path are refused, and its own is not taken twice', async () => {
    expect(await refusal(desk.client.strongbox.settle({ ...FIRST, folders: ['stick'] }))).toMatchObject({
      ...{ code: 'BACKUP_REFUSED', type: 'BadPath', file: 'stick' },
    });
    const own = join(folder, 'backups');
    const settled = await desk.client.strongbox.settle({ ...FIRST, folders: [own, `${own}/`] });
    expect(settled.settings.folders).toEqual([]);
  });

  it('that turned into a file are listed as empty, and told', async () => {
    const stick = join(folder, 'stick');
    mkdirSync(stick);
    await desk.client.strongbox.settle({ ...FIRST, folders: [stick] });
    rmSync(stick, { recursive: true });
    writeFileSync(stick, 'a file');
    expect(await desk.client.strongbox.list()).toEqual([]);
    expect((await desk.client.strongbox.state()).folders[1]).toMatchObject({ state: 'notAFolder' });
  });

  it('are swept of what a run with the same number left readable, and of half backups', async () => {
    const left = join(folder, 'strongbox-work', `${process.pid}-00000000`);
    mkdirSync(left, { recursive: true });
    writeFileSync(join(left, 'plain.partial'), 'decrypted');
    const stick = join(folder, 'stick');
    mkdirSync(stick);
    await desk.client.strongbox.settle({ ...FIRST, folders: [stick] });
    const half = passingName(join(stick, 'Cellar.undercroft-backup'));
    writeFileSync(half, 'half');
    now = Date.now() + 3 * 86_400_000;
    desk.app.strongbox.sweep();
    expect(existsSync(left)).toBe(false);
    expect(existsSync(half)).toBe(false);
  });
});

describe('files', { timeout: 60_000 }, () => {
  it('a list that cannot be written takes nothing away from the backup', async () => {
    const list = join(folder, 'strongbox-history.jsonl');
    // As on a full disk: what is appended is refused.
    rmSync(list, { force: true });
    symlinkSync(join(folder, 'no such folder', 'list'), list);
    const { backup } = await backUp();
    expect(await desk.client.strongbox.state()).toMatchObject({ linesSince: 0, last: { file: backup.file } });
    rmSync(list);
    now += 60_000;
    await backUp();
    expect(readFileSync(list, 'utf8').trim().split('\n')).toHaveLength(2);
  });

  it.runIf(process.platform !== 'win32')('are for the keeper alone, backup and copy', async () => {
    const { backup } = await backUp();
    expect(statSync(backup.file).mode & 0o777).toBe(0o600);
  });

  it('a log that lies beside the new name is never read into what is opened there', async () => {
    const { backup } = await backUp();
    const target = join(folder, 'new.undercroft');
    writeFileSync(`${target}-wal`, 'another cellar’s log');
    const steps = await desk.client.strongbox.openBeside({ file: backup.file, passphrase: null, target });
    expect(await refusal(steps.next())).toMatchObject({ type: 'AlreadyThere', file: `${target}-wal` });
    expect(readFileSync(`${target}-wal`, 'utf8')).toContain('another cellar');
    expect(existsSync(target)).toBe(false);
  });

  it('what came to lie under the name meanwhile is not written over', () => {
    const target = join(folder, 'late.txt');
    const passing = passingName(target);
    refuseBadTarget(target, null);
    writeFileSync(passing, 'ours');
    writeFileSync(target, 'theirs');
    expect(() => {
      giveItsName(passing, target);
    }).toThrow(/already exists/);
    expect(readFileSync(target, 'utf8')).toBe('theirs');
  });

  it('a cellar that is opened by a link stays where the link leads when it is restored', async () => {
    const place = join(folder, 'synced');
    mkdirSync(place);
    const link = join(folder, 'linked.undercroft');
    const real = join(place, 'real.undercroft');
    symlinkSync(real, link);
    const other = openDeskOn(link, () => now);
    await begun(other);
    const { backup } = await ended(other.app.strongbox.backUp('byHand'));
    await other.post(jar({}));
    await ended(other.app.strongbox.restore(backup.file, null));
    expect((await other.client.cellar.about()).vesselCount).toBe(1);
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    other.close();
    expect(readdirSync(place)).toEqual(['real.undercroft']);
  });
});
