import { randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { begun, DAY, jar, LITRE, NOW, type TestDesk, deskForEach } from '../desk-for-tests.ts';

let desk: TestDesk;
deskForEach('closure', (opened) => {
  desk = opened;
});

/** Since when the closure of a vessel has been due to be looked at, as its panel says. */
async function concernSinceMs(vesselId: VesselId): Promise<number | null> {
  const { due } = await desk.client.shelves.vessel({ vesselId });
  return due.find(({ why }) => why === 'closureAgainstStage')?.earliestMs ?? null;
}

const close = (vesselId: VesselId, closure: 'lid' | 'airlock' | 'cloth'): ActDraft => ({
  ...{ kind: 'changeClosure', vesselId, closure },
});

describe('a closure against the stage', () => {
  it('counts from the stage when the closure was there before', async () => {
    const { vesselId } = await begun(desk);
    await desk.post(close(vesselId, 'lid'), NOW - 30 * DAY);
    await desk.post({ kind: 'changeStage', vesselId, stage: 'vinegar', reason: '' }, NOW - 20 * DAY);
    expect(await concernSinceMs(vesselId)).toBe(NOW - 20 * DAY);
  });

  it('counts from the closure when that came later, and is over when it is changed back', async () => {
    const { vesselId } = await begun(desk);
    await desk.post({ kind: 'changeStage', vesselId, stage: 'vinegar', reason: '' }, NOW - 3 * DAY);
    expect(await concernSinceMs(vesselId)).toBeNull();
    const posted = await desk.post(close(vesselId, 'lid'), NOW - 2 * DAY);
    expect(posted.rows[0]?.due).toMatchObject({
      ...{ why: 'closureAgainstStage', earliestMs: NOW - 2 * DAY, latestMs: NOW - DAY },
    });
    expect(await concernSinceMs(vesselId)).toBe(NOW - 2 * DAY);
    await desk.post(close(vesselId, 'cloth'), NOW - DAY);
    expect(await concernSinceMs(vesselId)).toBeNull();
    await desk.client.ledger.undo({ requestId: randomUUID() });
    expect(await concernSinceMs(vesselId)).toBe(NOW - 2 * DAY);
  });

  it('does not begin anew when the vessel is described anew with the closure it has', async () => {
    const { vesselId } = await begun(desk);
    await desk.post({ kind: 'changeStage', vesselId, stage: 'vinegar', reason: '' }, NOW - 30 * DAY);
    await desk.post(close(vesselId, 'airlock'), NOW - 9 * DAY);
    const described = (closure: 'airlock' | 'lid'): ActDraft => ({
      ...{ kind: 'editVessel', vesselId, name: 'Blue jar', silhouette: 'jar', capacityUl: 5 * LITRE },
      ...{ mouth: 'wide', material: 'glass', closure, note: '' },
    });
    await desk.post(described('airlock'), NOW - 3 * DAY);
    expect(await concernSinceMs(vesselId)).toBe(NOW - 9 * DAY);
    await desk.post(described('lid'), NOW - DAY);
    expect(await concernSinceMs(vesselId)).toBe(NOW - DAY);
  });

  it('counts from the day the liquid came under it', async () => {
    const { vesselId } = await begun(desk);
    const lidded = await desk.write('addVessel', jar({ closure: 'lid' }), NOW - 35 * DAY);
    await desk.post({ kind: 'changeStage', vesselId, stage: 'vinegar', reason: '' }, NOW - 30 * DAY);
    await desk.post(
      {
        ...{ kind: 'transfer', fromVesselId: vesselId, toVesselId: lidded.vesselId, volumeUl: 2 * LITRE },
        ...{ leesUl: 0, toStage: null, newBatch: null },
      },
      NOW - 5 * DAY,
    );
    expect(await concernSinceMs(lidded.vesselId)).toBe(NOW - 5 * DAY);
  });
});
