import BetterSqlite from 'better-sqlite3';
import { ORPCError } from '@orpc/client';
import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { NOTHING_READ, type ActDraft } from '#core/ledger/act.ts';
import {
  begun,
  DAY,
  jar,
  LITRE,
  must,
  NOW,
  openDeskOn,
  scratchFolder,
  type TestDesk,
} from '../desk-for-tests.ts';

const scratch = scratchFolder();
let desk: TestDesk;
let file: string;
let count = 0;
beforeEach(() => {
  file = join(scratch.folder, `ledger-${(count += 1)}.undercroft`);
  desk = openDeskOn(file);
});
afterEach(() => {
  desk.close();
});
afterAll(() => {
  scratch.remove();
});

async function refusalOf(call: Promise<unknown>): Promise<{ code: string; data: unknown }> {
  try {
    await call;
  } catch (error) {
    if (error instanceof ORPCError) return { code: error.code as string, data: error.data as unknown };
    throw error;
  }
  throw new Error('the call was answered');
}

describe('writing', () => {
  it('the same request sent twice writes once and answers the same', async () => {
    const { vesselId } = await begun(desk);
    const requestId = randomUUID();
    const draw: ActDraft = { kind: 'drawOff', vesselId, volumeUl: LITRE, purpose: 'supper' };
    const first = await desk.post(draw, null, requestId);
    const second = await desk.post(draw, null, requestId);
    expect(second.entry).toEqual(first.entry);
    expect(second.rows[0]?.volumeUl).toBe(3 * LITRE);
    expect(
      (await desk.client.ledger.entries({ about: null, beforeSequence: null, limit: 50 })).entries[0]
        ?.entryId,
    ).toBe(first.entry.entryId);
  });

  it('a request that asks for something else than it did before is refused, and nothing is written', async () => {
    const { vesselId } = await begun(desk);
    const requestId = randomUUID();
    const drawn = await desk.post(
      { kind: 'drawOff', vesselId, volumeUl: LITRE, purpose: '' },
      null,
      requestId,
    );
    const { entryId } = drawn.entry;
    for (const call of [
      desk.post({ kind: 'drawOff', vesselId, volumeUl: 2 * LITRE, purpose: '' }, null, requestId),
      desk.post({ kind: 'discard', vesselId, volumeUl: LITRE, reason: '' }, null, requestId),
      desk.post({ kind: 'drawOff', vesselId, volumeUl: LITRE, purpose: '' }, NOW - DAY, requestId),
      desk.client.ledger.undo({ requestId }),
      desk.client.ledger.strike({ requestId, entryId }),
    ]) {
      await expect(call).rejects.toMatchObject({
        ...{ code: 'REFUSED', data: { type: 'AlreadyTaken', field: 'requestId', value: requestId } },
      });
    }
    expect((await desk.client.cellar.about()).entryCount).toBe(5);
    const retold = randomUUID();
    const restating = (volumeUl: number) =>
      desk.client.ledger.restate({
        ...{ requestId: retold, reason: '' },
        corrections: [
          { entryId, happenedAtMs: null, act: { kind: 'drawOff', vesselId, volumeUl, purpose: '' } },
        ],
      });
    const once = await restating(2 * LITRE);
    expect((await restating(2 * LITRE)).entry).toEqual(once.entry);
    await expect(restating(3 * LITRE)).rejects.toMatchObject({ data: { type: 'AlreadyTaken' } });
    await desk.client.ledger.undo({ requestId: randomUUID() });
    const struck = randomUUID();
    await desk.client.ledger.strike({ requestId: struck, entryId });
    expect((await desk.client.ledger.strike({ requestId: struck, entryId })).entry.struck).toBe(false);
    const begins = randomUUID();
    const jarToAdd = jar();
    expect((await desk.post(jarToAdd, null, begins)).entry).toEqual(
      (await desk.post(jarToAdd, null, begins)).entry,
    );
  });

  it('decides on what the book will hold: a fact that is there but undefined is none', async () => {
    const { vesselId } = await begun(desk);
    const facts = { recipient: undefined } as object;
    expect(await refusalOf(desk.post({ kind: 'tellFacts', vesselId, facts }))).toMatchObject({
      ...{ code: 'REFUSED', data: { type: 'NothingToAdd' } },
    });
    await desk.post({ kind: 'tellFacts', vesselId, facts: { ...facts, concentrated: false } });
    expect(await soundness(desk)).toEqual({ sound: true, faults: [] });
  });

  it('half a character is refused by its field', async () => {
    await begun(desk);
    const refused = await refusalOf(desk.post({ kind: 'addPlace', name: 'a\ud800b', note: '' }));
    expect(refused).toMatchObject({ code: 'BAD_REQUEST', data: { issues: [{ path: ['act', 'name'] }] } });
    await desk.post({ kind: 'addPlace', name: 'cellar 🫙', note: '' });
    expect(await soundness(desk)).toEqual({ sound: true, faults: [] });
  });

  it('keeps what was typed beside what was understood', async () => {
    const { vesselId } = await begun(desk);
    const posted = await desk.client.ledger.post({
      ...{
        requestId: randomUUID(),
        happenedAtMs: NOW - DAY,
        typed: { gravity: '1,048', temperature: '68F' },
      },
      act: {
        kind: 'recordReading',
        vesselId,
        values: { ...NOTHING_READ, gravitySg: 1.048, temperatureCelsius: 20 },
      },
    });
    expect(posted.entry.typed).toEqual({ gravity: '1,048', temperature: '68F' });
    expect(posted.entry).toMatchObject({ happenedAtMs: NOW - DAY, writtenAtMs: NOW });
  });

  it('gives numbers, letters and codes in order, and a permanent number is never given twice', async () => {
    const { shelfId } = await begun(desk);
    const second = await desk.write('addVessel', jar());
    const third = await desk.write('addVessel', jar({ shelfId, position: 3 }));
    expect([second.number, third.number]).toEqual([2, 3]);
    await desk.post({ kind: 'retireVessel', vesselId: second.vesselId, reason: 'cracked' });
    expect((await desk.write('addVessel', jar())).number).toBe(4);
    const batch = await desk.write('startBatch', must(third.vesselId, 1, 'Äpfel & Mût'));
    expect(batch.code).toBe('AM-26-002');
  });

  it('names the batch of a reading in the line of the book', async () => {
    const { vesselId } = await begun(desk);
    const posted = await desk.post({ kind: 'recordReading', vesselId, values: { ...NOTHING_READ, ph: 3.4 } });
    expect(posted.entry.names[vesselId]).toBe('Apple must (A1)');
  });
});

describe('undo, redo and striking', () => {
  it('survive a restart, and a new act ends redo', async () => {
    const { vesselId } = await begun(desk);
    await desk.post({ kind: 'drawOff', vesselId, volumeUl: LITRE, purpose: '' });
    await desk.client.ledger.undo({ requestId: randomUUID() });
    desk.close();
    desk = openDeskOn(file);
    const state = await desk.client.ledger.undoState();
    expect([state.undo?.act.kind, state.redo?.reversed?.act.kind]).toEqual(['startBatch', 'drawOff']);
    const redone = await desk.client.ledger.redo({ requestId: randomUUID() });
    expect(redone.rows[0]?.volumeUl).toBe(3 * LITRE);
    await desk.client.ledger.undo({ requestId: randomUUID() });
    await desk.post({ kind: 'note', about: { kind: 'vessel', vesselId }, text: 'clear' });
    expect((await desk.client.ledger.undoState()).redo).toBeNull();
    expect(await refusalOf(desk.client.ledger.redo({ requestId: randomUUID() }))).toMatchObject({
      ...{ code: 'REFUSED', data: { type: 'NothingToRedo' } },
    });
  });

  it('undo everything back to an empty shelf, and redo it all', async () => {
    const { vesselId } = await begun(desk);
    const today = { startMs: NOW - DAY / 2, endMs: NOW + DAY / 2 };
    const before = await desk.client.shelves.overview({ grouping: 'place', today });
    let undone = 0;
    while ((await desk.client.ledger.undoState()).undo !== null) {
      await desk.client.ledger.undo({ requestId: randomUUID() });
      undone += 1;
    }
    expect(await desk.client.shelves.places()).toEqual([]);
    for (; undone > 0; undone -= 1) await desk.client.ledger.redo({ requestId: randomUUID() });
    expect(await desk.client.shelves.overview({ grouping: 'place', today })).toEqual(before);
    expect((await desk.client.shelves.vessel({ vesselId })).row.batchName).toBe('Apple must');
  });

  it('a struck reading leaves the ticket, and its line stays in the book', async () => {
    const { vesselId, batchId } = await begun(desk);
    const reading = (ph: number, day: number) =>
      desk.post(
        { kind: 'recordReading', vesselId, values: { ...NOTHING_READ, gravitySg: ph } },
        NOW - day * DAY,
      );
    const wrong = await reading(1.48, 3);
    await reading(1.047, 2);
    const struck = await desk.client.ledger.strike({ requestId: randomUUID(), entryId: wrong.entry.entryId });
    expect(struck.rows[0]?.headline).toMatchObject({ sg: 1.047 });
    const { entries } = await desk.client.ledger.entries({
      about: { kind: 'batch', batchId },
      beforeSequence: null,
      limit: 20,
    });
    expect(entries.find((e) => e.entryId === wrong.entry.entryId)?.struck).toBe(true);
    expect((await desk.client.book.leaf({ batchId })).readings).toHaveLength(1);
  });
});

describe('the file itself', () => {
  it('refuses to change or delete a line of the book', async () => {
    await begun(desk);
    desk.close();
    const db = new BetterSqlite(file);
    expect(() => db.exec(`UPDATE entry SET typed = '{}'`)).toThrow('never changed');
    expect(() => db.exec('DELETE FROM entry')).toThrow('never deleted');
    db.close();
    desk = openDeskOn(file);
  });

  it('a full disk refuses the act by name and loses nothing', async () => {
    const { vesselId } = await begun(desk);
    desk.close();
    desk = openDeskOn(file);
    const db = sqliteOf(desk);
    const pages = db.pragma('page_count', { simple: true }) as number;
    db.pragma(`max_page_count = ${pages}`);
    const text = 'x'.repeat(3900);
    const note: ActDraft = { kind: 'note', about: { kind: 'vessel', vesselId }, text };
    let refused: { code: string; data: unknown } | null = null;
    for (let i = 0; i < 60 && refused === null; i += 1) {
      refused = await desk.post(note).then(
        () => null,
        (error: unknown) => {
          if (error instanceof ORPCError) return { code: error.code as string, data: error.data as unknown };
          throw error;
        },
      );
    }
    expect(refused).toMatchObject({ code: 'NOT_WRITTEN', data: { type: 'DiskFull' } });
    db.pragma('max_page_count = 1000000');
    await desk.post({ kind: 'note', about: { kind: 'vessel', vesselId }, text: 'room again' });
    expect(await soundness(desk)).toEqual({ sound: true, faults: [] });
  });
});

async function soundness(d: TestDesk): Promise<{ sound: boolean; faults: unknown[] }> {
  const steps = await d.client.cellar.check();
  for (let step = await steps.next(); ; step = await steps.next()) {
    if (step.done === true) return { sound: step.value.sound, faults: step.value.faults };
  }
}

/** The open file behind a desk: the tests alone reach past the services. */
function sqliteOf(d: TestDesk): BetterSqlite.Database {
  return d.app.desk.services.session.cellar.sqlite;
}
