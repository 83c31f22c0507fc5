import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { fillDisk, smallDisk } from '../../demo/soak/full-disk.ts';
import { contentDigest, faultsOf } from '../../demo/soak/whole-cellar.ts';
import { chanceFrom } from '../../demo/load-story.ts';
import { begun, jar, NOW, openDeskOn, scratchFolder } from '../main/desk-for-tests.ts';

const scratch = scratchFolder();
const disk = smallDisk(join(scratch.folder, 'disk'));
afterAll(() => {
  disk?.remove();
  scratch.remove();
});

describe('a cellar whose file is no longer where it was opened', () => {
  it('takes no more lines, says why, and goes on once it is back', async () => {
    const folder = join(scratch.folder, 'stick');
    mkdirSync(folder);
    const desk = openDeskOn(join(folder, 'cellar.undercroft'));
    await begun(desk);
    const before = contentDigest(desk.app.desk.services.session.cellar.sqlite);
    renameSync(folder, `${folder} taken out`);
    const gone = { code: 'NOT_WRITTEN', defined: true, data: { type: 'Gone', detail: 'CELLAR_GONE' } };
    await expect(desk.post(jar({}))).rejects.toMatchObject(gone);
    await expect(desk.client.ledger.undo({ requestId: crypto.randomUUID() })).rejects.toMatchObject(gone);
    mkdirSync(folder);
    writeFileSync(join(folder, 'cellar.undercroft'), 'another file under its name');
    await expect(desk.post(jar({}))).rejects.toMatchObject(gone);
    expect(contentDigest(desk.app.desk.services.session.cellar.sqlite)).toBe(before);
    rmSync(folder, { recursive: true });
    renameSync(`${folder} taken out`, folder);
    await desk.post(jar({}));
    expect(await faultsOf(desk.app.desk.services)).toEqual([]);
    desk.close();
  });
});

describe('a disk that is full', () => {
  it.skipIf(disk === null)(
    'is told as such by everything that writes; nothing is half done, and all goes on once there is room',
    async () => {
      if (disk === null) return;
      const report = await fillDisk(disk, 20_261_128, 4);
      expect(report).toMatchObject({ untyped: [], halfDone: [], notAgain: [], notSound: [] });
      expect(report.refused).toBeGreaterThan(8);
      expect(report.done).toBeGreaterThan(4);
    },
    120_000,
  );

  it('refuses an act when the file may grow no further, and writes it when it may', async () => {
    const desk = openDeskOn(join(scratch.folder, 'bounded.undercroft'));
    const { vesselId } = await begun(desk);
    const { sqlite } = desk.app.desk.services.session.cellar;
    const before = contentDigest(sqlite);
    const long = { kind: 'note', about: { kind: 'vessel', vesselId }, text: 'bubbles '.repeat(490) } as const;
    sqlite.pragma(`max_page_count = ${Number(sqlite.pragma('page_count', { simple: true }))}`);
    const full = { code: 'NOT_WRITTEN', data: { type: 'DiskFull' } };
    await expect(desk.post(long)).rejects.toMatchObject(full);
    expect(contentDigest(sqlite)).toBe(before);
    sqlite.pragma('max_page_count = 100000');
    await desk.post(long);
    expect(await faultsOf(desk.app.desk.services)).toEqual([]);
    desk.close();
  });
});

describe('a clock that is set', () => {
  it('back or forward by years leaves a sound book, in the order it was written', async () => {
    const chance = chanceFrom(20_261_128);
    let now = NOW;
    const file = join(scratch.folder, 'clock.undercroft');
    let desk = openDeskOn(file, () => now);
    const { vesselId } = await begun(desk);
    const written: string[] = [];
    for (let step = 0; step < 60; step += 1) {
      now = Date.UTC(1971 + Math.floor(chance() * 200), 3, 1) + Math.floor(chance() * 1e9);
      try {
        written.push((await desk.post(jar({ name: `Jar ${step}` }))).entry.entryId);
        if (step % 5 === 0) {
          const act = { kind: 'drawOff', vesselId, volumeUl: 1000, purpose: '' } as const;
          written.push((await desk.post(act)).entry.entryId);
          written.push((await desk.client.ledger.undo({ requestId: crypto.randomUUID() })).entry.entryId);
        }
      } catch (error) {
        // A draw before the batch began is refused by name; nothing else may be.
        expect(error).toMatchObject({ code: 'REFUSED', data: { type: 'BeforeItBegan' } });
      }
      if (step % 20 === 19) {
        desk.close();
        desk = openDeskOn(file, () => now);
      }
    }
    const { book } = desk.app.desk.services.session;
    const inOrder = book.page(0, 1000).map(({ id }) => id as string);
    expect(new Set(inOrder).size).toBe(inOrder.length);
    expect(inOrder.filter((id) => written.includes(id))).toEqual(written);
    expect(await faultsOf(desk.app.desk.services)).toEqual([]);
    desk.close();
  });
});
