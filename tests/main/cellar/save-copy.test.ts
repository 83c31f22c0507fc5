import { ORPCError } from '@orpc/client';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { FileRefused } from '#main/cellar/file-refused.ts';
import { saveCopy } from '#main/cellar/save-copy.ts';
import { begun, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

const scratch = scratchFolder();
let folder: string;
let desk: TestDesk;
let count = 0;
beforeEach(async () => {
  folder = join(scratch.folder, `copies-${(count += 1)}`);
  mkdirSync(folder);
  desk = openDeskOn(join(scratch.folder, `home-${count}.undercroft`));
  await begun(desk);
  return () => {
    desk.close();
  };
});
afterAll(() => {
  scratch.remove();
});

/** Where the copy lies, or why there is none. */
async function copyTo(file: string): Promise<unknown> {
  try {
    const steps = await desk.client.cellar.saveCopy({ file });
    for (;;) {
      const step = await steps.next();
      if (step.done === true) return step.value.file;
    }
  } catch (error) {
    if (error instanceof ORPCError) return error.data;
    throw error;
  }
}

describe('a copy of the cellar', () => {
  it("leaves a keeper's own file alone that has the name of a half-written copy", async () => {
    const theirs = join(folder, 'a.undercroft.partial');
    writeFileSync(theirs, 'my own notes');
    expect(await copyTo(join(folder, 'a.undercroft'))).toBe(join(folder, 'a.undercroft'));
    expect(readFileSync(theirs, 'utf8')).toBe('my own notes');
    expect(readdirSync(folder).sort()).toEqual(['a.undercroft', 'a.undercroft.partial']);
  });

  it('asked for twice at once lies there once, and the other is told so', async () => {
    const file = join(folder, 'twice.undercroft');
    const both = await Promise.all([copyTo(file), copyTo(file)]);
    expect(both).toContainEqual({ type: 'AlreadyThere', file });
    expect(both).toContain(file);
    expect(readdirSync(folder)).toEqual(['twice.undercroft']);
  });

  it.each([
    ['a name that is cut off at a zero byte', 'a\0b.undercroft', 'BadPath'],
    ['a name that is too long', `${'a'.repeat(300)}.undercroft`, 'BadPath'],
    ['a folder that is not there', 'none/a.undercroft', 'FolderMissing'],
    ['a folder that is a file', 'letter/a.undercroft', 'BadPath'],
  ])('%s is refused and nothing is left', async (_what, name, type) => {
    writeFileSync(join(folder, 'letter'), 'Dear cellar');
    expect(await copyTo(join(folder, name))).toMatchObject({ type });
    expect(readdirSync(folder)).toEqual(['letter']);
  });

  it.each(['-wal', '-shm', '-journal'])("under the cellar's own name with %s is refused", async (end) => {
    const file = `${desk.app.desk.services.session.cellar.file}${end}`;
    expect(await copyTo(file)).toMatchObject({ type: 'BadPath' });
  });

  it('a name as long as the disk allows is taken', async () => {
    const file = join(folder, 'ä'.repeat(126));
    expect(await copyTo(file)).toBe(file);
    expect(readdirSync(folder)).toHaveLength(1);
  });

  it('stops, and leaves nothing, when the cellar is closed under it', async () => {
    const { cellar } = desk.app.desk.services.session;
    const steps = saveCopy(cellar, join(folder, 'late.undercroft'), undefined);
    await steps.next();
    desk.close();
    await expect(steps.next()).rejects.toThrow(FileRefused);
    expect(readdirSync(folder)).toEqual([]);
    expect(existsSync(cellar.file)).toBe(true);
  });
});
