import { ORPCError } from '@orpc/client';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { NOTHING_READ } from '#core/ledger/act.ts';
import { ROTATION_AT_FIRST } from '#core/strongbox/rotation.ts';
import type { Progress } from '#core/contract/cellar.ts';
import type { StrongboxSettings } from '#core/contract/strongbox.ts';
import { ended } from './backups-for-tests.ts';
import { begun, DAY, jar, LITRE, NOW, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

const scratch = scratchFolder();
let folder: string;
let desk: TestDesk;
let ids: Awaited<ReturnType<typeof begun>>;
let now = NOW;
let count = 0;
beforeEach(async () => {
  folder = join(scratch.folder, `box-${(count += 1)}`);
  mkdirSync(folder);
  now = NOW;
  desk = openDeskOn(join(folder, 'home.undercroft'), () => now);
  ids = await begun(desk);
  return () => {
    desk.close();
  };
});
afterAll(() => {
  scratch.remove();
});

const FIRST: StrongboxSettings = {
  ...{ folders: [], onClosing: true, daily: true, encrypt: false, keep: ROTATION_AT_FIRST },
};
const box = () => desk.client.strongbox;

interface Steps<T> {
  next(): Promise<IteratorResult<Progress, T>>;
}
/** Follows long work; what was refused comes back as what it says. */
async function done<T>(asked: Promise<Steps<T>>): Promise<T> {
  const steps = await asked;
  for (;;) {
    const step = await steps.next();
    if (step.done === true) return step.value;
  }
}
async function refused(asked: Promise<Steps<unknown>>): Promise<unknown> {
  try {
    await done(asked);
  } catch (error) {
    if (error instanceof ORPCError) return error.data;
    throw error;
  }
  throw new Error('it was not refused');
}

describe('backing up', { timeout: 300_000 }, () => {
  it('goes to every folder, tells of a missing one, and is known afterwards', async () => {
    const stick = join(folder, 'stick');
    const gone = join(folder, 'gone');
    mkdirSync(stick);
    const before = await box().state();
    expect(before).toMatchObject({ last: null, linesSince: 4, passphraseHeld: false });
    const settled = await box().settle({ ...FIRST, folders: [stick, gone, stick] });
    expect(settled.folders.map(({ state }) => state)).toEqual(['ready', 'ready', 'missing']);
    const report = await done(box().backUp());
    expect(report.elsewhere).toMatchObject([
      { folder: stick, refusal: null },
      { folder: gone, refusal: { type: 'FolderMissing' } },
    ]);
    expect(readdirSync(stick)).toEqual(['Test cellar 2026-11-25 12.00.00 by hand.undercroft-backup']);
    expect(await box().state()).toMatchObject({ linesSince: 0, last: { reason: 'byHand', entries: 4 } });
    expect(await box().list()).toMatchObject([
      { ofThisCellar: true, encrypted: false, self: { reason: 'byHand', entries: 4 } },
      { ofThisCellar: true, folder: stick },
    ]);
  });

  it('sends nothing readable out while the passphrase is missing, and opens with it', async () => {
    const stick = join(folder, 'stick');
    mkdirSync(stick);
    await box().settle({ ...FIRST, folders: [stick], encrypt: true });
    const without = await done(box().backUp());
    expect(without.elsewhere).toMatchObject([{ refusal: { type: 'PassphraseNeeded' } }]);
    expect(readdirSync(stick)).toEqual([]);
    now += 60_000;
    await box().holdPassphrase({ passphrase: 'seven damp corks' });
    await done(box().backUp());
    const [name = ''] = readdirSync(stick);
    expect(name).toBe('Test cellar 2026-11-25 12.01.00 by hand.undercroft-backup.age');
    const file = join(stick, name);
    const listed = (await box().list()).find((one) => one.file === file);
    expect(listed).toMatchObject({ encrypted: true, ofThisCellar: true, self: { reason: 'byHand' } });
    expect(await refused(box().lookInside({ file, passphrase: null }))).toMatchObject({
      type: 'PassphraseNeeded',
    });
    const inside = await done(box().lookInside({ file, passphrase: 'seven damp corks' }));
    expect(inside.relation).toEqual({ type: 'same' });
    const kept =
      readFileSync(join(folder, 'strongbox.json'), 'utf8') +
      readFileSync(join(folder, 'strongbox-history.jsonl'), 'utf8');
    expect(kept).not.toContain('corks');
  });

  it('keeps by the rotation, and never drops what was made by hand or is not of this cellar', async () => {
    await box().settle({ ...FIRST, keep: { allOfDays: 1, days: 1, weeks: 0, months: 0 } });
    await done(box().backUp());
    const own = join(folder, 'backups');
    writeFileSync(join(own, 'letters.undercroft-backup'), 'not a backup');
    const { strongbox } = desk.app;
    for (let day = 1; day <= 3; day += 1) {
      now += DAY;
      await desk.post(jar({}));
      await ended(strongbox.backUp('daily'));
    }
    expect(readdirSync(own).sort()).toEqual([
      ...['Test cellar 2026-11-25 12.00.00 by hand.undercroft-backup'],
      ...['Test cellar 2026-11-28 12.00.00 daily.undercroft-backup', 'letters.undercroft-backup'],
    ]);
    // The clock is set back a year: a backup made then goes by its own date, and takes the newest away from nothing.
    now -= 365 * DAY;
    await ended(strongbox.backUp('daily'));
    expect(readdirSync(own)).toContain('Test cellar 2026-11-28 12.00.00 daily.undercroft-backup');
  });

  it('is due when a day has passed and something was written, and not twice', async () => {
    const { strongbox } = desk.app;
    expect(strongbox.due()).toBe('daily');
    await done(box().backUp());
    expect(strongbox.due()).toBeNull();
    now += DAY;
    expect(strongbox.due()).toBeNull();
    await desk.post(jar({}));
    expect(strongbox.due()).toBe('daily');
    now = NOW - 5 * DAY;
    expect(strongbox.due()).toBe('daily');
    await box().settle({ ...FIRST, daily: false, onClosing: false });
    expect(strongbox.due()).toBeNull();
    expect(strongbox.closingIsDue()).toBe(false);
  });

  it('is due for House Rules, a name or label layouts alone, and for nothing else in them', async () => {
    const { strongbox } = desk.app;
    await done(box().backUp());
    now += DAY;
    const about = await desk.client.cellar.about();
    await desk.client.houseRules.settle(about.houseRules);
    expect((await box().state()).besideBookChanged).toBe(false);
    await desk.client.houseRules.settle({ ...about.houseRules, pantry: true });
    expect(strongbox.due()).toBe('daily');
    expect(strongbox.closingIsDue()).toBe(true);
    expect(await box().state()).toMatchObject({ linesSince: 0, besideBookChanged: true });
    await done(box().backUp());
    expect(strongbox.closingIsDue()).toBe(false);
    await desk.client.cellar.rename({ name: 'Orchard cellar' });
    expect(strongbox.closingIsDue()).toBe(true);
  });

  it('proves anew after seven days what has not changed, so that the rail stays calm', async () => {
    const { strongbox } = desk.app;
    await done(box().backUp());
    now += 6 * DAY;
    expect(strongbox.due()).toBeNull();
    now += DAY;
    expect(strongbox.due()).toBe('daily');
    expect(strongbox.closingIsDue()).toBe(false);
  });

  it('tells the rail when the last was, that one failed, and what is not plugged in', async () => {
    const stick = join(folder, 'stick');
    mkdirSync(stick);
    await box().settle({ ...FIRST, folders: [stick] });
    expect(await box().standing()).toEqual({
      lastAtMs: null,
      begunAtMs: NOW,
      failed: false,
      missing: [],
      unsound: false,
    });
    const { backup } = await done(box().backUp());
    rmSync(stick, { recursive: true });
    expect(await box().standing()).toMatchObject({ lastAtMs: NOW, failed: false, missing: [stick] });
    // A backup that is no longer there is none.
    rmSync(backup.file);
    expect(await box().standing()).toMatchObject({ lastAtMs: null });
    rmSync(join(folder, 'backups'), { recursive: true });
    writeFileSync(join(folder, 'backups'), 'a file in its way');
    await refused(box().backUp());
    expect(await box().standing()).toMatchObject({ failed: true });
    await desk.client.cellar.openSample();
    expect(await box().standing()).toBeNull();
  });

  it('makes none of a cellar whose book is empty', async () => {
    mkdirSync(join(folder, 'empty'));
    const empty = openDeskOn(join(folder, 'empty', 'empty.undercroft'), () => now);
    const { houseRules } = await empty.client.cellar.about();
    await empty.client.cellar.begin({ name: 'Empty', houseRules, shelves: null });
    expect(empty.app.strongbox.due()).toBeNull();
    expect(empty.app.strongbox.closingIsDue()).toBe(false);
    expect(await empty.client.strongbox.standing()).toBeNull();
    empty.close();
  });

  it('tells of a folder of its own that cannot be written, and keeps that in its history', async () => {
    rmSync(join(folder, 'backups'), { recursive: true, force: true });
    writeFileSync(join(folder, 'backups'), 'a file in its way');
    expect(await refused(box().backUp())).toMatchObject({ type: expect.any(String) as string });
    expect((await box().state()).history[0]).toMatchObject({ kind: 'backup', file: null });
  });

  it('comes before readings are brought in', async () => {
    const text = 'date,vessel,pH\n2026-11-03,A1,3.41\n';
    const settled = {
      ...{
        separator: null,
        decimalMark: null,
        dateOrder: null,
        headings: true,
        columns: null,
        vesselId: null,
      },
      ...{ acidityAs: null, gravityInstrument: null, accepted: [], source: 'pasted rows' },
    };
    const requestId = crypto.randomUUID();
    await done(desk.client.exchange.bringIn({ requestId, text, settled }));
    expect((await box().state()).last).toMatchObject({ reason: 'beforeImport', entries: 4 });
  });
});

describe('restoring', { timeout: 60_000 }, () => {
  it('shows the difference, restores, and there is a way back', async () => {
    const { backup } = await done(box().backUp());
    await desk.post({ kind: 'recordReading', vesselId: ids.vesselId, values: { ...NOTHING_READ, ph: 3.4 } });
    await desk.post(jar({}));
    const inside = await done(box().lookInside({ file: backup.file, passphrase: null }));
    expect(inside).toMatchObject({
      ...{ relation: { type: 'earlier', linesSince: 2 }, now: { counts: { vessels: 2, readings: 1 } } },
      batches: [{ here: 'same', readingsMissingHere: 0 }],
    });
    const restored = await done(box().restore({ file: backup.file, passphrase: null }));
    expect(restored.about.vesselCount).toBe(1);
    const back = await done(box().lookInside({ file: restored.safety.file, passphrase: null }));
    expect(back.relation).toEqual({ type: 'later', linesMore: 2 });
    expect(back.batches).toMatchObject([{ here: 'differs', readingsMissingHere: 1 }]);
    expect(
      (await done(box().restore({ file: restored.safety.file, passphrase: null }))).about.vesselCount,
    ).toBe(2);
    const kinds = (await box().state()).history.map(({ kind }) => kind);
    expect(kinds).toEqual(['restore', 'backup', 'restore', 'backup', 'backup']);
  });

  it('opens a backup beside, and tells one of another cellar or a book that parted', async () => {
    const { backup } = await done(box().backUp());
    const other = join(folder, 'other.undercroft');
    const opened = await done(box().openBeside({ file: backup.file, passphrase: null, target: other }));
    expect(opened.about.file).toBe(other);
    await desk.post(jar({}));
    const parted = await done(box().backUp());
    await desk.client.cellar.open({ file: join(folder, 'home.undercroft'), begin: false });
    await desk.post(jar({}));
    const inside = await done(box().lookInside({ file: parted.backup.file, passphrase: null }));
    expect(inside.relation).toEqual({ type: 'parted' });
    const again = openDeskOn(join(folder, 'third.undercroft'));
    await begun(again);
    await desk.client.cellar.about();
    const there = await again.client.strongbox.lookInside({ file: backup.file, passphrase: null });
    for (;;) {
      const step = await there.next();
      if (step.done !== true) continue;
      expect(step.value.relation).toEqual({ type: 'otherCellar' });
      break;
    }
    again.close();
  });

  it('refuses what is damaged, and nothing was changed', async () => {
    const { backup } = await done(box().backUp());
    const file = join(folder, 'spoilt.undercroft-backup');
    copyFileSync(backup.file, file);
    const bytes = readFileSync(file);
    bytes[6000] = (bytes[6000] ?? 0) ^ 1;
    writeFileSync(file, bytes);
    for (const asked of [
      box().restore({ file, passphrase: null }),
      box().verify({ file, passphrase: null }),
      box().openBeside({ file, passphrase: null, target: join(folder, 'new.undercroft') }),
    ]) {
      expect(await refused(asked)).toMatchObject({ type: 'PartsDamaged', file, damagedParts: 1 });
    }
    expect(existsSync(join(folder, 'new.undercroft'))).toBe(false);
    expect((await desk.client.cellar.about()).entryCount).toBe(4);
  });
});

describe('bringing back one batch', { timeout: 60_000 }, () => {
  it('writes it anew as one step, with its readings, and one Undo takes it back', async () => {
    const values = { ...NOTHING_READ, gravitySg: 1.048, gravityInstrument: null };
    await desk.post({ kind: 'recordReading', vesselId: ids.vesselId, values }, NOW - 30 * DAY);
    const { backup } = await done(box().backUp());
    const { vesselId: intoVesselId } = await desk.write('addVessel', jar({ capacityUl: 10 * LITRE }));
    const asked = { file: backup.file, passphrase: null, batchId: ids.batchId, fromVesselId: ids.vesselId };
    const note = 'Brought back from a backup.';
    const requestId = crypto.randomUUID();
    const brought = await done(box().bringBackBatch({ ...asked, intoVesselId, note, requestId }));
    expect(brought).toMatchObject({ readings: 1, readingsLeft: 0, posted: { entry: { together: 2 } } });
    const detail = await desk.client.shelves.vessel({ vesselId: intoVesselId });
    expect(JSON.stringify(detail)).toContain('Apple must');
    // The same request again writes nothing more.
    const lines = (await desk.client.cellar.about()).entryCount;
    await done(box().bringBackBatch({ ...asked, intoVesselId, note, requestId }));
    expect((await desk.client.cellar.about()).entryCount).toBe(lines);
    await desk.client.ledger.undo({ requestId: crypto.randomUUID() });
    expect(desk.app.desk.services.session.records.get('fill', intoVesselId)).toBeNull();
  });

  it('is refused into a vessel that holds something, or for what is not there', async () => {
    const { backup } = await done(box().backUp());
    const asked = { file: backup.file, passphrase: null, batchId: ids.batchId, fromVesselId: ids.vesselId };
    const into = { ...asked, intoVesselId: ids.vesselId, note: '' };
    expect(await refused(box().bringBackBatch({ ...into, requestId: crypto.randomUUID() }))).toMatchObject({
      type: 'VesselNotEmpty',
    });
    const batchId = crypto.randomUUID() as typeof ids.batchId;
    expect(await refused(box().bringBackBatch({ ...into, batchId, requestId: crypto.randomUUID() }))).toEqual(
      { what: 'batch', id: batchId },
    );
  });
});

describe('what is told', { timeout: 60_000 }, () => {
  it('lists folders and backups, and no other file', async () => {
    mkdirSync(join(folder, 'synced'));
    mkdirSync(join(folder, '.hidden'));
    writeFileSync(join(folder, 'diary.txt'), 'private');
    await done(box().backUp());
    const listed = await box().folders({ folder });
    expect(listed).toMatchObject({
      folder,
      parent: dirname(folder),
      folders: ['backups', 'synced'],
      backups: [],
    });
    expect((await box().folders({ folder: join(folder, 'backups') })).backups).toHaveLength(1);
    for (const wrong of ['diary', join(folder, 'none'), join(folder, 'diary.txt'), `${folder}\0`]) {
      await expect(box().folders({ folder: wrong })).rejects.toMatchObject({ code: 'BACKUP_REFUSED' });
    }
  });

  it('has checks on opening and in full in its history, and diagnostics without anything private', async () => {
    await desk.app.strongbox.checkOpened();
    await done(desk.client.cellar.check());
    const { history } = await box().state();
    expect(history).toMatchObject([
      { kind: 'check', how: 'full', sound: true },
      { kind: 'check', how: 'onOpening', sound: true, entries: 4, faults: [] },
    ]);
    await done(box().backUp());
    const { text } = await box().diagnostics();
    expect(JSON.parse(text)).toMatchObject({ versions: { backupFormat: 1 }, linesByKind: { startBatch: 1 } });
    for (const word of ['Test cellar', 'Apple must', 'Pantry', folder]) expect(text).not.toContain(word);
  });
});
