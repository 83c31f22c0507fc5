import { ORPCError } from '@orpc/client';
import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { NOTHING_READ, type ActDraft } from '#core/ledger/act.ts';
import type { EntryId } from '#core/ledger/ids.ts';
import { rebuildProjections } from '#main/cellar/rebuild-projections.ts';
import { begun, DAY, jar, LITRE, must, NOW, type TestDesk, deskForEach } from '../desk-for-tests.ts';

let desk: TestDesk;
deskForEach('restate', (opened) => {
  desk = opened;
});

async function refusal(call: Promise<unknown>): Promise<unknown> {
  try {
    await call;
  } catch (error) {
    if (error instanceof ORPCError) return error.data;
    throw error;
  }
  throw new Error('the call was answered');
}

const restate = (entryId: EntryId, act: ActDraft | null, happenedAtMs: number | null = null) => ({
  corrections: [{ entryId, act, happenedAtMs }],
  reason: 'read the wrong jar',
});

async function lastReport(): Promise<unknown> {
  const steps = await desk.client.cellar.check();
  for (let step = await steps.next(); ; step = await steps.next()) if (step.done === true) return step.value;
}

/** A jar of must, of which a litre was moved on and a part of that again, and a third jar that stands empty. */
async function story() {
  const { vesselId: first } = await begun(desk);
  const second = (await desk.write('addVessel', jar(), NOW - 38 * DAY)).vesselId;
  const third = (await desk.write('addVessel', jar(), NOW - 38 * DAY)).vesselId;
  const pour = (from: typeof first, to: typeof first, litres: number): ActDraft => ({
    ...{ kind: 'transfer', fromVesselId: from, toVesselId: to, volumeUl: litres * LITRE },
    ...{ leesUl: 0, newBatch: null, toStage: null },
  });
  const moved = (await desk.post(pour(first, second, 1), NOW - 20 * DAY)).entry.entryId;
  const onward = (await desk.post(pour(second, third, 0.5), NOW - 10 * DAY)).entry.entryId;
  return { first, second, third, pour, moved, onward };
}

describe('telling an earlier line anew', () => {
  it('is shown before it is carried out, and then is what was shown', async () => {
    const { first, second, pour, moved } = await story();
    const asked = restate(moved, pour(first, second, 2));
    const plan = await desk.client.ledger.planRestate(asked);
    expect(plan.retoldCount).toBe(1);
    expect(plan.vessels.map(({ beforeUl, afterUl }) => [beforeUl / LITRE, afterUl / LITRE])).toEqual(
      expect.arrayContaining([
        [3, 2],
        [0.5, 1.5],
      ]),
    );
    const { rows, entry } = await desk.client.ledger.restate({ requestId: randomUUID(), ...asked });
    expect(rows.map(({ vesselId, volumeUl }) => [vesselId, volumeUl / LITRE])).toEqual(
      expect.arrayContaining([
        [first, 2],
        [second, 1.5],
      ]),
    );
    expect(entry.act.kind).toBe('restate');
    const line = await desk.client.ledger.entry({ entryId: moved });
    expect(line).toMatchObject({
      act: { volumeUl: LITRE },
      restated: {
        ...{ act: { volumeUl: 2 * LITRE }, happenedAtMs: NOW - 20 * DAY },
        ...{ correctedAtMs: NOW, reason: 'read the wrong jar' },
      },
    });
    expect(await lastReport()).toMatchObject({ sound: true, faults: [] });
  });

  it('names what could not have been, and changes nothing', async () => {
    const { first, third, pour, moved, onward } = await story();
    const asked = restate(moved, pour(first, third, 1));
    const refused = {
      type: 'RestateImpossible',
      refusals: [{ entryId: onward, error: { type: 'VesselEmpty' } }],
    };
    expect(await refusal(desk.client.ledger.planRestate(asked))).toMatchObject(refused);
    const written = desk.client.ledger.restate({ requestId: randomUUID(), ...asked });
    expect(await refusal(written)).toMatchObject(refused);
    expect((await desk.client.ledger.entry({ entryId: moved })).restated).toBeNull();
    const both = {
      ...asked,
      corrections: [...asked.corrections, { entryId: onward, act: null, happenedAtMs: null }],
    };
    const { rows } = await desk.client.ledger.restate({ requestId: randomUUID(), ...both });
    expect(rows.find(({ vesselId }) => vesselId === third)?.volumeUl).toBe(LITRE);
    expect(await desk.client.ledger.entry({ entryId: onward })).toMatchObject({
      struck: true,
      takenBack: { atMs: NOW, reason: 'read the wrong jar' },
    });
  });

  it('keeps the ids and codes that a line gave out', async () => {
    const { vesselId, batchId } = await begun(desk);
    const { entries } = await desk.client.ledger.entries({
      about: { kind: 'batch', batchId },
      beforeSequence: null,
      limit: 5,
    });
    const start = entries[0];
    if (start?.act.kind !== 'startBatch') throw new Error('no start');
    await desk.client.ledger.restate({
      requestId: randomUUID(),
      ...restate(start.entryId, must(vesselId, 3.5, 'Pear must')),
    });
    const leaf = await desk.client.book.leaf({ batchId });
    expect(leaf).toMatchObject({ name: 'Pear must', code: start.act.code, startedUl: 3.5 * LITRE });
  });

  it('is undone as one, sent twice writes once, and a rebuild gives the same cellar', async () => {
    const { first, second, pour, moved } = await story();
    const request = { requestId: randomUUID(), ...restate(moved, pour(first, second, 2)) };
    const once = await desk.client.ledger.restate(request);
    expect((await desk.client.ledger.restate(request)).entry).toEqual(once.entry);
    rebuildProjections(desk.app.desk.services.session);
    expect(await lastReport()).toMatchObject({ sound: true, faults: [] });
    const { rows } = await desk.client.ledger.undo({ requestId: randomUUID() });
    expect(rows.find(({ vesselId }) => vesselId === second)?.volumeUl).toBe(0.5 * LITRE);
    expect((await desk.client.ledger.entry({ entryId: moved })).restated).toBeNull();
    expect(await lastReport()).toMatchObject({ sound: true, faults: [] });
  });

  it('tells of each line why it was corrected, also when a later correction takes it along', async () => {
    const { first, second, third, pour, moved, onward } = await story();
    const tell = (entryId: EntryId, act: ActDraft, reason: string) =>
      desk.client.ledger.restate({
        ...{ requestId: randomUUID(), reason },
        corrections: [{ entryId, act, happenedAtMs: null }],
      });
    await tell(onward, pour(second, third, 0.25), 'the small jug');
    await tell(moved, pour(first, second, 2), 'the large jug');
    const reasons = await Promise.all(
      [onward, moved].map(async (entryId) => (await desk.client.ledger.entry({ entryId })).restated?.reason),
    );
    expect(reasons).toEqual(['the small jug', 'the large jug']);
  });

  it('stands in the days of what it speaks of, a note included', async () => {
    const { first } = await story();
    const about = { kind: 'vessel', vesselId: first } as const;
    const noted = await desk.post({ kind: 'note', about, text: 'smells of pears' }, NOW - DAY);
    const { entry } = await desk.client.ledger.restate({
      requestId: randomUUID(),
      ...restate(noted.entry.entryId, { kind: 'note', about, text: 'smells of apples' }),
    });
    const { entries } = await desk.client.ledger.entries({ about, beforeSequence: null, limit: 1 });
    expect(entries[0]?.entryId).toBe(entry.entryId);
  });

  it('moved to another vessel stands in the days of both, and of both batches, until it is taken back', async () => {
    const { vesselId: first, batchId } = await begun(desk);
    const second = (await desk.write('addVessel', jar(), NOW - 38 * DAY)).vesselId;
    const { batchId: other } = await desk.write('startBatch', must(second, 2, 'Pear must'), NOW - 37 * DAY);
    const read = (vesselId: typeof first): ActDraft => ({
      ...{ kind: 'recordReading', vesselId },
      values: { ...NOTHING_READ, taste: 'smells of pears' },
    });
    const { entryId } = (await desk.post(read(first), NOW - 5 * DAY)).entry;
    const standsIn = async (): Promise<boolean[]> =>
      Promise.all(
        [
          { kind: 'vessel', vesselId: first } as const,
          { kind: 'vessel', vesselId: second } as const,
          { kind: 'batch', batchId } as const,
          { kind: 'batch', batchId: other } as const,
        ].map(async (about) => {
          const { entries } = await desk.client.ledger.entries({ about, beforeSequence: null, limit: 20 });
          const sequences = entries.map(({ sequence }) => sequence);
          expect(sequences).toEqual([...new Set(sequences)].toSorted((a, b) => b - a));
          return entries.some((entry) => entry.entryId === entryId);
        }),
      );
    expect(await standsIn()).toEqual([true, false, true, false]);
    await desk.client.ledger.restate({ requestId: randomUUID(), ...restate(entryId, read(second)) });
    expect(await standsIn()).toEqual([true, true, true, true]);
    await desk.client.ledger.undo({ requestId: randomUUID() });
    expect(await standsIn()).toEqual([true, false, true, false]);
  });

  it('is refused for a line of the future', async () => {
    const { first, second, pour, moved } = await story();
    const asked = restate(moved, pour(first, second, 2), NOW + 3 * DAY);
    expect(await refusal(desk.client.ledger.planRestate(asked))).toMatchObject({ type: 'InTheFuture' });
  });
});

describe('words that could not be read back', () => {
  it('are refused in a reason as in every text, and the book stays readable', async () => {
    const { first, second, pour, moved } = await story();
    const { book } = desk.app.desk.services.session;
    const lines = book.count();
    for (const reason of ['half \ud800 pair', 'a \u0000 byte']) {
      const asked = { requestId: randomUUID(), ...restate(moved, pour(first, second, 2)), reason };
      await expect(desk.client.ledger.restate(asked)).rejects.toMatchObject({ code: 'BAD_REQUEST' });
      // Past the contract it is a fault, and nothing is written.
      const { ledger } = desk.app.desk.services;
      expect(() => ledger.restate(asked.requestId, asked)).toThrow();
    }
    expect(book.count()).toBe(lines);
    expect(await lastReport()).toMatchObject({ sound: true, entries: lines });
  });
});
