import { describe, expect, it } from 'vitest';
import type { ShelfRow } from '#core/contract/shelves.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { begun, DAY, jar, LITRE, must, NOW, type TestDesk, deskForEach } from '../desk-for-tests.ts';

let desk: TestDesk;
let vesselId: VesselId;
deskForEach('itself', async (opened) => {
  desk = opened;
  await begun(desk);
  vesselId = (await desk.write('addVessel', jar(), NOW - 40 * DAY)).vesselId;
});

const ticket = async (): Promise<ShelfRow> => (await desk.client.shelves.vessel({ vesselId })).row;
const clean = (atMs: number, restUntilMs: number | null = null) =>
  desk.post({ kind: 'cleanVessel', vesselId, how: 'washed', restUntilMs, note: '' }, atMs);

describe('the ticket of a vessel', () => {
  it('says when it was cleaned and until when it rests', async () => {
    expect(await ticket()).toMatchObject({ cleanedAtMs: null, cleanedHow: null, restUntilMs: null });
    await clean(NOW - 3 * DAY, NOW + 4 * DAY);
    expect(await ticket()).toMatchObject({
      ...{ cleanedAtMs: NOW - 3 * DAY, cleanedHow: 'washed', restUntilMs: NOW + 4 * DAY },
    });
  });

  it('is not that of a clean vessel once it has been used, also when it is empty again', async () => {
    await clean(NOW - 10 * DAY, NOW + 4 * DAY);
    await desk.post(must(vesselId, 1), NOW - 5 * DAY);
    expect(await ticket()).toMatchObject({ cleanedAtMs: null, restUntilMs: null });
    await desk.post({ kind: 'drawOff', vesselId, volumeUl: LITRE, purpose: '' }, NOW - 4 * DAY);
    expect(await ticket()).toMatchObject({ stage: 'empty', cleanedAtMs: null, restUntilMs: null });
    await clean(NOW - 2 * DAY);
    expect(await ticket()).toMatchObject({ cleanedAtMs: NOW - 2 * DAY, restUntilMs: null });
  });

  it('is that of a clean vessel again when its filling is undone', async () => {
    await clean(NOW - 10 * DAY);
    await desk.post(must(vesselId, 1), NOW - 5 * DAY);
    await desk.client.ledger.undo({ requestId: crypto.randomUUID() });
    expect(await ticket()).toMatchObject({ stage: 'empty', cleanedAtMs: NOW - 10 * DAY });
  });

  it('says who has it, with something in it too', async () => {
    await desk.post(must(vesselId, 1), NOW - 5 * DAY);
    await desk.post({ kind: 'lendVessel', vesselId, holder: 'the neighbour', note: '' }, NOW - DAY);
    expect(await ticket()).toMatchObject({ holder: 'the neighbour', volumeUl: LITRE });
    await desk.post({ kind: 'lendVessel', vesselId, holder: '', note: '' });
    expect(await ticket()).toMatchObject({ holder: '' });
  });
});
