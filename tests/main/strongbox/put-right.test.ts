import { ORPCError } from '@orpc/client';
import { existsSync, mkdirSync, readFileSync, readdirSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import type { Progress } from '#core/contract/cellar.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { begun, jar, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

// A cellar that cannot be opened at the start: the program says why and puts it right, and nothing of the old file is lost.

const scratch = scratchFolder();
afterAll(() => {
  scratch.remove();
});

let count = 0;
let home: string;
beforeEach(() => {
  home = join(scratch.folder, String((count += 1)), 'cellar.undercroft');
});

/** A cellar with a backup, and a line written after it. */
async function kept(): Promise<{ backup: string; entries: number }> {
  mkdirSync(join(home, '..'));
  const desk = openDeskOn(home);
  await begun(desk);
  const { backup } = await ended(await desk.client.strongbox.backUp());
  await desk.write('addVessel', jar({ name: 'Since the backup' }));
  const { entryCount } = await desk.client.cellar.about();
  desk.close();
  return { backup: backup.file, entries: entryCount };
}

async function ended<T>(steps: { next(): Promise<IteratorResult<Progress, T>> }): Promise<T> {
  for (;;) {
    const step = await steps.next();
    if (step.done === true) return step.value;
  }
}

const refusalOf = (call: Promise<unknown>): Promise<unknown> =>
  call.then(
    () => 'done',
    (error: unknown) => (error instanceof ORPCError ? (error.data as unknown) : error),
  );

/** Writes over the file from there on, as a failing disk does. */
function spoil(from: number, bytes: number): Buffer {
  const content = readFileSync(home);
  content.fill(0xa5, from, from + bytes);
  writeFileSync(home, content);
  return content;
}

const around = () => readdirSync(join(home, '..')).filter((name) => name.startsWith('cellar.'));

describe('a cellar that cannot be opened at the start', () => {
  it.each([
    ['its beginning was written over', () => spoil(0, 100), 'NotACellar'],
    ['its first page was written over behind the header', () => spoil(100, 3000), 'Damaged'],
    ['it is cut off', () => (truncateSync(home, 9000), readFileSync(home)), 'Damaged'],
  ] as const)('is said why when %s, and left as it is', async (_how, harm, type) => {
    await kept();
    const harmed = harm();
    const desk = openDeskOn(home);
    expect(await desk.client.cellar.about()).toMatchObject({
      ...{ begun: false, isSample: false, entryCount: 0, unopened: { type, file: home } },
    });
    desk.close();
    expect(readFileSync(home).equals(harmed)).toBe(true);
    expect(around()).toEqual(['cellar.undercroft']);
  });

  it('takes no writing in what stands in for it', async () => {
    await kept();
    spoil(0, 100);
    const desk = openDeskOn(home);
    const begin = desk.client.cellar.begin({
      ...{ name: 'Lost', houseRules: HOUSE_RULES_AT_FIRST, shelves: null },
    });
    await expect(begin).rejects.toMatchObject({ code: 'NOT_WRITTEN' });
    await expect(desk.write('addVessel', jar())).rejects.toMatchObject({ code: 'NOT_WRITTEN' });
    expect(await desk.client.strongbox.standing()).toBeNull();
    desk.close();
  });

  it('has a backup put in its place, and is kept whole under another name', async () => {
    const { backup, entries } = await kept();
    const harmed = spoil(0, 100);
    writeFileSync(`${home}-wal`, 'the last lines');
    const desk = openDeskOn(home);
    const done = await ended(
      await desk.client.strongbox.putRight({ by: 'backup', file: backup, passphrase: null }),
    );
    expect(done.about).toMatchObject({ file: home, begun: true, unopened: null, entryCount: entries - 1 });
    expect(done.backup).toMatchObject({ counts: { entries: entries - 1 } });
    expect(readFileSync(done.aside).equals(harmed)).toBe(true);
    expect(readFileSync(`${done.aside}-wal`, 'utf8')).toBe('the last lines');
    await desk.write('addVessel', jar({ name: 'Written again' }));
    desk.close();
    const again = openDeskOn(home);
    expect(await again.client.cellar.about()).toMatchObject({ unopened: null, entryCount: entries });
    again.close();
  });

  it('has what can be read of it put in its place, the lines since the backup too', async () => {
    const { entries } = await kept();
    spoil(0, 100);
    const desk = openDeskOn(home);
    const { about, salvaged, aside } = await ended(await desk.client.strongbox.putRight({ by: 'salvage' }));
    expect(about).toMatchObject({ file: home, begun: true, unopened: null, entryCount: entries });
    expect(salvaged).toMatchObject({ file: aside, target: home, lines: { saved: entries, lost: 0 } });
    desk.close();
  });

  it('is left as it is when the backup is no good, or the work is stopped', async () => {
    const { backup } = await kept();
    const harmed = spoil(0, 100);
    const bad = `${backup}.bad.undercroft-backup`;
    const sealed = readFileSync(backup);
    sealed[5000] = (sealed[5000] ?? 0) ^ 1;
    writeFileSync(bad, sealed);
    const desk = openDeskOn(home);
    const asked = { by: 'backup', file: bad, passphrase: null } as const;
    expect(
      await refusalOf(desk.client.strongbox.putRight(asked).then((steps) => ended(steps))),
    ).toMatchObject({ type: 'PartsDamaged' });
    const stop = new AbortController();
    const steps = await desk.client.strongbox.putRight(
      { by: 'backup', file: backup, passphrase: null },
      { signal: stop.signal },
    );
    await steps.next();
    stop.abort();
    await expect(ended(steps)).rejects.toThrow();
    await expect.poll(around).toEqual(['cellar.undercroft']);
    expect(readFileSync(home).equals(harmed)).toBe(true);
    expect((await desk.client.cellar.about()).unopened).not.toBeNull();
    desk.close();
  });

  it('of a newer version is left for the newer program', async () => {
    await kept();
    const raise = new BetterSqlite(home);
    raise.pragma('user_version = 4000');
    raise.close();
    const desk = openDeskOn(home);
    expect((await desk.client.cellar.about()).unopened).toMatchObject({
      ...{ type: 'NewerVersion', fileVersion: 4000 },
    });
    desk.close();
  });

  it('in which a check finds faults is closed, and put right from what can be read', async () => {
    const { entries } = await kept();
    const harm = new BetterSqlite(home);
    harm.unsafeMode(true);
    harm.pragma('writable_schema = ON');
    harm.prepare(`UPDATE vessel SET capacity_ul = capacity_ul + 1`).run();
    harm.close();
    const desk = openDeskOn(home);
    expect((await ended(await desk.client.cellar.check())).sound).toBe(false);
    expect(await desk.client.strongbox.standing()).toMatchObject({ unsound: true });
    expect(await desk.client.strongbox.standAside()).toMatchObject({
      ...{ begun: false, unopened: { type: 'Damaged', file: home } },
    });
    // It can be opened again as it is.
    expect(await desk.client.cellar.open({ file: home, begin: false })).toMatchObject({
      unopened: null,
      begun: true,
    });
    await desk.client.strongbox.standAside();
    const { about } = await ended(await desk.client.strongbox.putRight({ by: 'salvage' }));
    expect(about).toMatchObject({ file: home, unopened: null, entryCount: entries });
    expect((await ended(await desk.client.cellar.check())).sound).toBe(true);
    expect(await desk.client.strongbox.standing()).toMatchObject({ unsound: false });
    expect(await refusalOf(desk.client.strongbox.standAside())).toMatchObject({ detail: 'NO_FAULT_FOUND' });
    desk.close();
  });

  it('that was named by a slip is refused at once', () => {
    const { folder } = scratch;
    const letter = join(folder, `letter-${count}.txt`);
    writeFileSync(letter, 'Dear cellar');
    expect(() => openDeskOn(letter)).toThrow(/is not an Undercroft cellar/u);
  });

  it('is nothing to put right while a cellar is open', async () => {
    const { backup } = await kept();
    const desk: TestDesk = openDeskOn(home);
    const asked = { by: 'backup', file: backup, passphrase: null } as const;
    expect(
      await refusalOf(desk.client.strongbox.putRight(asked).then((steps) => ended(steps))),
    ).toMatchObject({ detail: 'NOTHING_UNOPENED' });
    desk.close();
    expect(existsSync(home)).toBe(true);
  });
});
