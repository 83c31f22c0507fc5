import { ORPCError } from '@orpc/client';
import { spawnSync } from 'node:child_process';
import { existsSync, linkSync, mkdirSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { compose } from '#main/compose.ts';
import { begun, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

const scratch = scratchFolder();
let count = 0;
let home: string;
let desk: TestDesk;
beforeEach(() => {
  home = join(scratch.folder, `home-${(count += 1)}.undercroft`);
  desk = openDeskOn(home);
  return () => {
    desk.close();
  };
});
afterAll(() => {
  scratch.remove();
});

const refusal = (call: Promise<unknown>): Promise<unknown> =>
  call.then(
    () => 'opened',
    (error: unknown) => (error instanceof ORPCError ? (error.data as unknown) : error),
  );

/** Whether another process is kept from writing the file. */
function lockedAgainstOthers(file: string): boolean {
  const script = `import Sqlite from 'better-sqlite3';
    try { new Sqlite(${JSON.stringify(file)}, { timeout: 50 }).exec('BEGIN IMMEDIATE'); }
    catch (error) { process.exitCode = error.code.startsWith('SQLITE_BUSY') ? 3 : 1; }`;
  const ended = spawnSync(process.execPath, ['--input-type=module', '-e', script]);
  if (ended.status !== 0 && ended.status !== 3) throw new Error(ended.stderr.toString());
  return ended.status === 3;
}

describe('another cellar on the desk', () => {
  it('is home, for the first time, after a look at the sample: the program makes its own folder', () => {
    const dataFolder = join(scratch.folder, 'nothing-here-yet');
    const app = compose({ dataFolder, demo: true });
    app.desk.openHome();
    expect(app.cellarPath.startsWith(dataFolder)).toBe(true);
    expect(existsSync(app.cellarPath)).toBe(true);
    app.close();
  });

  it('is opened by its whole path and begun only when that is asked for', async () => {
    const file = join(scratch.folder, 'second.undercroft');
    expect(await refusal(desk.client.cellar.open({ file, begin: false }))).toEqual({
      type: 'NoSuchFile',
      file,
    });
    expect(existsSync(file)).toBe(false);
    const about = await desk.client.cellar.open({ file, begin: true });
    expect(about).toMatchObject({ file, begun: false });
    expect((await desk.client.cellar.openHome()).file).toBe(home);
    expect((await desk.client.cellar.open({ file, begin: false })).file).toBe(file);
  });

  it('a path that is not whole, or a file that is no cellar, leaves the open one open', async () => {
    await begun(desk);
    const letter = join(scratch.folder, 'letter.txt');
    writeFileSync(letter, 'Dear cellar');
    expect(await refusal(desk.client.cellar.open({ file: 'cellar.undercroft', begin: true }))).toMatchObject({
      type: 'BadPath',
    });
    expect(await refusal(desk.client.cellar.open({ file: letter, begin: true }))).toMatchObject({
      type: 'NotACellar',
    });
    expect(await desk.client.cellar.about()).toMatchObject({ file: home, begun: true });
  });

  it('named by another path is the same cellar, and stays locked against other programs', async () => {
    await begun(desk);
    const other = join(scratch.folder, `other-${count}.undercroft`);
    await desk.client.cellar.open({ file: other, begin: true });
    await desk.client.cellar.openHome();
    for (const [name, make] of [
      ['linked', symlinkSync],
      ['twin', linkSync],
    ] as const) {
      const file = join(scratch.folder, `${name}-${count}.undercroft`);
      make(home, file);
      expect(await desk.client.cellar.open({ file, begin: false })).toMatchObject({ file: home });
      expect(lockedAgainstOthers(home)).toBe(true);
    }
    const second = openDeskOn(other);
    expect(await refusal(second.client.cellar.open({ file: home, begin: false }))).toEqual({
      ...{ type: 'InUse', file: home },
    });
    expect(lockedAgainstOthers(home)).toBe(true);
    second.close();
  });

  it('the sample is a copy that is thrown away, and what a killed program left is swept up', async () => {
    const left = join(tmpdir(), 'undercroft-sample-999999999-left');
    mkdirSync(left, { recursive: true });
    const sample = await desk.client.cellar.openSample();
    expect(sample.isSample).toBe(true);
    expect(existsSync(left)).toBe(false);
    await desk.client.cellar.openHome();
    expect(existsSync(sample.file)).toBe(false);
  });

  it('a copy is one plain file that opens, and nothing is written over', async () => {
    await begun(desk);
    const file = join(scratch.folder, `copy-${count}.undercroft`);
    const steps = await desk.client.cellar.saveCopy({ file });
    for (let step = await steps.next(); step.done !== true; step = await steps.next());
    expect(readdirSync(scratch.folder).filter((name) => name.startsWith(`copy-${count}`))).toHaveLength(1);
    expect((await desk.client.cellar.open({ file, begin: false })).entryCount).toBe(4);
    await desk.client.cellar.openHome();
    const again = async () => {
      const next = await desk.client.cellar.saveCopy({ file });
      return next.next();
    };
    expect(await refusal(again())).toEqual({ type: 'AlreadyThere', file });
  });

  it('a copy that is stopped leaves nothing behind', async () => {
    await begun(desk);
    const file = join(scratch.folder, 'stopped.undercroft');
    const stop = new AbortController();
    const steps = await desk.client.cellar.saveCopy({ file }, { signal: stop.signal });
    stop.abort();
    await refusal(
      (async () => {
        for (let step = await steps.next(); step.done !== true; step = await steps.next());
      })(),
    );
    expect(readdirSync(scratch.folder).filter((name) => name.startsWith('stopped'))).toEqual([]);
  });
});
