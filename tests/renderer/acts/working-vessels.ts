import { within, fireEvent } from '@testing-library/svelte';
import { NOTHING_READ, type ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { DAY, jar, must, NOW, type TestDesk } from '../../main/desk-for-tests.ts';
import type { Hands } from './acts-desk.ts';

/** Within the minute in which a test began. */
export const isJustNow = (ms: number | null | undefined): boolean =>
  typeof ms === 'number' && Math.abs(ms - NOW) < 60_000;

/** Presses one of several answers under a question. */
export async function answer(me: Hands, question: string | RegExp, says: string): Promise<void> {
  const group = await within(me.dialog()).findByRole('group', { name: question });
  await fireEvent.click(within(group).getByRole('radio', { name: says }));
}

/** Vinegar at work in a jar of its own. */
export async function vinegarIn(desk: TestDesk, name = 'Plum vinegar'): Promise<VesselId> {
  const { vesselId } = await desk.write('addVessel', jar({ name }), NOW - 40 * DAY);
  await desk.write('startBatch', must(vesselId, 4, name), NOW - 39 * DAY);
  const seed = { cultureId: null, fromVesselId: null, volumeUl: 0, what: 'raw vinegar' } as const;
  await desk.write('seed', { kind: 'seed', vesselId, ...seed, toStage: 'vinegar' }, NOW - 30 * DAY);
  return vesselId;
}

/** Cider that has worked under a water lock, with gravities read so many days ago. */
export async function ciderIn(
  desk: TestDesk,
  readings: readonly (readonly [sg: number, daysAgo: number])[],
): Promise<VesselId> {
  const { vesselId } = await desk.write(
    'addVessel',
    jar({ silhouette: 'demijohn', closure: 'airlock', name: 'Cider' }),
    NOW - 40 * DAY,
  );
  const begin = { ...(must(vesselId, 4, 'Kingston cider') as object), ferment: 'cider' } as ActDraft;
  await desk.write('startBatch', begin, NOW - 39 * DAY);
  await desk.write(
    'pitchYeast',
    { kind: 'pitchYeast', vesselId, cultureId: null, yeast: 'wild', massUg: null },
    NOW - 38 * DAY,
  );
  for (const [gravitySg, daysAgo] of readings) {
    const values = {
      ...NOTHING_READ,
      ...{ gravitySg, gravityInstrument: 'hydrometer' as const, gravityCalibrationCelsius: 20 },
      ...{ temperatureCelsius: 20 },
    };
    await desk.write('recordReading', { kind: 'recordReading', vesselId, values }, NOW - daysAgo * DAY);
  }
  return vesselId;
}

/** Red cabbage in brine, eight days old. */
export async function krautIn(desk: TestDesk): Promise<VesselId> {
  const { vesselId } = await desk.write('addVessel', jar({ silhouette: 'crock' }), NOW - 9 * DAY);
  const begin = must(vesselId, 3, 'Red kraut') as object;
  const act = { ...begin, ferment: 'brinedVegetables', stage: 'lactic' } as ActDraft;
  await desk.write('startBatch', act, NOW - 8 * DAY);
  return vesselId;
}
