import type { Database } from 'better-sqlite3';
import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import type { CheckReport } from '#core/contract/cellar.ts';
import { NOTHING_READ, type ActDraft } from '#core/ledger/act.ts';
import { rebuildProjections } from '#main/cellar/rebuild-projections.ts';
import { begun, jar, must, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

const scratch = scratchFolder();
let desk: TestDesk;
let count = 0;
beforeEach(async () => {
  desk = openDeskOn(join(scratch.folder, `check-${(count += 1)}.undercroft`));
  const { vesselId } = await begun(desk);
  await desk.post({ kind: 'note', about: { kind: 'vessel', vesselId }, text: 'clear' });
  return () => {
    desk.close();
  };
});
afterAll(() => {
  scratch.remove();
});

const sqlite = (): Database => desk.app.desk.services.session.cellar.sqlite;

/** Checks the cellar; `between` runs at each step, as another window's calls would. */
async function check(between: (what: string) => Promise<unknown> = () => Promise.resolve()) {
  const steps = await desk.client.cellar.check();
  for (;;) {
    const step = await steps.next();
    if (step.done === true) return step.value;
    await between(step.value.what);
  }
}
const types = (report: CheckReport): string[] => [...new Set(report.faults.map((f) => f.type))];

describe('a sound cellar', () => {
  it('is found sound', async () => {
    expect(await check()).toEqual({ sound: true, entries: 5, faults: [] });
  });

  it('is found sound with a reading whose details were all left empty', async () => {
    const { vesselId } = await desk.write('addVessel', jar());
    const measured = { ...NOTHING_READ, gravitySg: 1.048, detail: null };
    await desk.post({ ...must(vesselId), measured } as ActDraft);
    await desk.post({ kind: 'recordReading', vesselId, values: measured });
    await desk.client.ledger.undo({ requestId: randomUUID() });
    expect((await check()).faults).toEqual([]);
  });

  it('is found sound also when it is written to at every step', async () => {
    let written = 0;
    const report = await check(async () => {
      await desk.post(jar());
      written += 1;
    });
    expect(written).toBeGreaterThan(10);
    expect(report.faults).toEqual([]);
  });

  it('closed under a check ends the check, which never says that it is sound', async () => {
    const steps = await desk.client.cellar.check();
    await steps.next();
    await desk.client.cellar.openSample();
    await expect(
      (async () => {
        for (let step = await steps.next(); step.done !== true; step = await steps.next());
      })(),
    ).rejects.toThrow();
  });
});

describe('what was changed behind the back of the program is found', () => {
  it.each([
    ['a ticket taken away', 'DELETE FROM shelf_row', 'TicketDiffers'],
    ['a ticket that no longer says what stands there', `UPDATE shelf_row SET shown = '{}'`, 'TicketDiffers'],
    ['a record taken away', 'DELETE FROM stage_span', 'MissingFromTheShelf'],
    ['what a line speaks of', 'DELETE FROM entry_subject WHERE sequence = 4', 'DiffersFromTheBook'],
    ['what a line replaced', `UPDATE entry_image SET after_writer = 'x'`, 'DiffersFromTheBook'],
    ['the words of a note', `UPDATE line_words SET text = 'dull'`, 'DiffersFromTheBook'],
  ])('%s, and mended by a rebuild', async (_what, sql, type) => {
    sqlite().exec(sql);
    const report = await check();
    expect(report.sound).toBe(false);
    expect(types(report)).toEqual([type]);
    rebuildProjections(desk.app.desk.services.session);
    expect(await check()).toMatchObject({ sound: true });
  });

  it.each([
    ['a line out of balance', `UPDATE entry SET postings = '[]' WHERE sequence = 4`, 'DiffersFromTheBook'],
    [
      'a line whose postings do not add up',
      `UPDATE entry SET postings = '[{"account":"store","deltaUl":5}]' WHERE sequence = 2`,
      'CannotReplay',
    ],
    [
      'a line that cannot be read',
      `UPDATE entry SET act = '{"kind":"?"}' WHERE sequence = 5`,
      'CannotReplay',
    ],
    ['a line of another kind', `UPDATE entry SET kind = 'reverse' WHERE sequence = 5`, 'DiffersFromTheBook'],
    [
      'a line torn out',
      'DELETE FROM entry_subject; DELETE FROM entry_image; DELETE FROM entry WHERE sequence = 2',
      'CannotReplay',
    ],
  ])('%s: the rest is checked all the same', async (_what, sql, type) => {
    for (const name of ['entry_is_never_changed', 'entry_is_never_deleted']) {
      sqlite().exec(`DROP TRIGGER ${name}`);
    }
    sqlite().exec(sql);
    const report = await check();
    expect(report.sound).toBe(false);
    expect(report.entries).toBe(5);
    expect(types(report)).toContain(type);
  });
});
