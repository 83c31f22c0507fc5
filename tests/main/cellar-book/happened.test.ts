import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { join } from 'node:path';
import { begun, DAY, LITRE, NOW, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

let scratch: ReturnType<typeof scratchFolder>;
let desk: TestDesk;
let first: Awaited<ReturnType<typeof begun>>;

beforeEach(async () => {
  scratch = scratchFolder();
  desk = openDeskOn(join(scratch.folder, 'happened.undercroft'));
  first = await begun(desk);
});
afterEach(() => {
  desk.close();
  scratch.remove();
});

const START = NOW - 20 * DAY;
const bounds = [0, 1, 2, 3].map((n) => START + n * DAY);
const draw = (atMs: number, reason: string) =>
  desk.post({ kind: 'discard', vesselId: first.vesselId, volumeUl: LITRE / 100, reason }, atMs);
const happened = (limit = 50) => desk.client.ledger.happened({ boundsMs: bounds, limit });
const reasons = async (limit?: number) =>
  (await happened(limit)).entries.map(({ act }) => (act.kind === 'discard' ? act.reason : act.kind));

describe('what happened on some days', () => {
  it('is counted by the day it happened, whenever it was written, and told in the order of time', async () => {
    await draw(START + 2 * DAY, 'first moment of the third');
    await draw(START + 5, 'first day');
    await draw(START + 3 * DAY, 'after them');
    await draw(START - 1, 'before them');
    const { counts, more } = await happened();
    expect(counts).toEqual([1, 0, 1]);
    expect(more).toBe(false);
    expect(await reasons()).toEqual(['first day', 'first moment of the third']);
  });

  it('counts all lines and gives no more than are asked for', async () => {
    await draw(START + 5, 'a');
    await draw(START + 6, 'b');
    expect(await happened(1)).toMatchObject({ counts: [2, 0, 0], more: true });
    expect(await happened(0)).toMatchObject({ counts: [2, 0, 0], entries: [], more: true });
  });

  it('leaves out what was taken back, and the line that took it back', async () => {
    const { entry } = await draw(START + 5, 'wrong jar');
    await desk.client.ledger.strike({ requestId: crypto.randomUUID(), entryId: entry.entryId });
    expect((await happened()).counts).toEqual([0, 0, 0]);
  });

  it('lists a line told anew on the day it now has', async () => {
    const { entry } = await draw(START + 5, 'a day early');
    await desk.client.ledger.restate({
      requestId: crypto.randomUUID(),
      corrections: [
        {
          entryId: entry.entryId,
          act: { kind: 'discard', vesselId: first.vesselId, volumeUl: LITRE / 100, reason: 'a day early' },
          happenedAtMs: START + DAY + 5,
        },
      ],
      reason: 'it was the day after',
    });
    expect((await happened()).counts).toEqual([0, 1, 0]);
  });

  it('refuses edges that are no days', async () => {
    await expect(desk.client.ledger.happened({ boundsMs: [START, START], limit: 1 })).rejects.toThrow();
  });
});
