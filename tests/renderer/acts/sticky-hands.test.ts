import { fireEvent, within } from '@testing-library/svelte';
import { describe, expect, test, vi } from 'vitest';

import type { ShelfId, VesselId } from '#core/ledger/ids.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { jar } from '../../main/desk-for-tests.ts';
import type { Hands } from './acts-desk.ts';
import { dialogsOnADesk } from './dialogs-on-a-desk.ts';

vi.mock('#renderer/backend/call.ts', () => import('./client-of-desk.ts'));

let at: { shelfId: ShelfId; vesselId: VesselId };
let me: Hands;

const desk = dialogsOnADesk((given) => {
  ({ at, me } = given);
});
const empty = async (name: string): Promise<VesselId> =>
  (await desk().write('addVessel', jar({ name }))).vesselId;
const textOf = (label: string | RegExp): string => (me.field(label) as HTMLInputElement).value;
const lastTwo = async () =>
  (await desk().client.ledger.entries({ about: null, beforeSequence: null, limit: 2 })).entries.map(
    ({ act }) => act,
  );

describe('a crock of vegetables', () => {
  test('is asked for its weights on the first day, hears of the salt, and tells them with the start', async () => {
    const crock = await empty('Old crock');
    await me.ask({ kind: 'startBatch', vesselId: crock });
    await me.type('Name', 'White cabbage');
    await me.pick('What it is', 'brinedVegetables');
    await me.type('How much', '1.5 L');
    await me.said(/Salt counts as a part of vegetables, water and salt together/);
    await me.type('How much do the vegetables weigh?', '1 kg');
    await me.type('How much water went in?', '0 g');
    await me.type('How much salt went in?', '8 g');
    await me.said(/under 1\.5.%|too little salt/i);
    await me.type('How much salt went in?', '26 g');
    await me.said(/Rule VEG-03: .*2\.5/);
    await me.press('Start it');
    expect(await me.written('tellFacts')).toMatchObject({
      vesselId: crock,
      facts: { salting: { saltGrams: 26, vegetableGrams: 1000, waterGrams: 0 } },
    });
    expect((await lastTwo())[1]).toMatchObject({ kind: 'startBatch', ferment: 'brinedVegetables' });
  });

  test('weighed by nobody is started all the same, and nothing is told', async () => {
    await me.ask({ kind: 'startBatch', vesselId: await empty('Old crock') });
    await me.type('Name', 'White cabbage');
    await me.pick('What it is', 'brinedVegetables');
    await me.type('How much', '1.5 L');
    await me.press('Start it');
    expect(await me.written('startBatch')).toMatchObject({ ferment: 'brinedVegetables' });
  });

  test('with a weight that is none writes nothing', async () => {
    await me.ask({ kind: 'startBatch', vesselId: await empty('Old crock') });
    await me.type('Name', 'White cabbage');
    await me.pick('What it is', 'brinedVegetables');
    await me.type('How much', '1.5 L');
    await me.type('How much salt went in?', 'two spoons');
    await me.press('Start it');
    await within(await me.summary()).findByText(/is not read as a mass|is not read as a weight/);
    expect(await lastTwo()).not.toContainEqual(expect.objectContaining({ ferment: 'brinedVegetables' }));
  });
});

describe('a kombucha', () => {
  test('hears on its first day whether the starter is enough, and never that it is without a pH', async () => {
    const wide = await empty('Wide jar');
    await me.ask({ kind: 'startBatch', vesselId: wide });
    await me.type('Name', 'Black tea kombucha');
    await me.pick('What it is', 'kombucha');
    await me.type('How much', '1.5 L');
    await me.type('How much mature starter is in it?', '3');
    await me.mark('Yes');
    await me.said(/sours too slowly to hold mould off/);
    await me.type('How much mature starter is in it?', '12');
    await me.said(/No pH was measured when the tea was set/);
    await me.type('pH', '4.2');
    await me.pick('pH read with', 'meterToday');
    await me.said(/Rule KOM-03: mature starter makes 12\.0.% of the whole/);
    await me.press('Start it');
    expect(await me.written('tellFacts')).toMatchObject({
      facts: { starter: { percent: 12, mature: true } },
    });
  });
});

describe('a transfer by press and press', () => {
  test('begins in the one field that is still to be filled in, and says what it lacks', async () => {
    await me.ask({ kind: 'transfer', fromVesselId: at.vesselId, toVesselId: await empty('Tall jar') });
    expect(document.activeElement).toBe(me.field('How much'));
    await me.said(/^Still wanted: How much\.$/);
  });

  test('of all of it leaves the lees out that are told after it', async () => {
    await me.ask({ kind: 'transfer', fromVesselId: at.vesselId, toVesselId: await empty('Tall jar') });
    await me.press('All of it');
    expect(textOf('How much')).toBe('4 L');
    await me.type('Left behind as lees', '500 ml');
    expect(textOf('How much')).toBe('3.5 L');
    await me.type('How much', '2 L');
    await me.type('Left behind as lees', '300 ml');
    expect(textOf('How much')).toBe('2 L');
  });

  test('that makes a batch of its own takes over what it is', async () => {
    await me.ask({ kind: 'transfer', fromVesselId: at.vesselId, toVesselId: await empty('Tall jar') });
    await me.said(/^vessel 1, /);
    await me.mark('A batch of its own');
    expect((me.field('What it is') as HTMLSelectElement).value).not.toBe('');
  });
});

describe('a reading in the pantry', () => {
  test('shows its correction, and asks by which method a pH was read', async () => {
    await cellar.load();
    await cellar.settle({ ...cellar.rules, pantry: true });
    await me.ask({ kind: 'reading', vesselId: at.vesselId });
    await me.mark('Gravity');
    for (const key of ['1', 'point', '0', '3', '0']) await me.press(key);
    await me.said(/Without a sample temperature it is not corrected/);
    await me.mark('Temperature');
    await me.said(/of the sample/);
    for (const key of ['2', '6', '°C']) await me.press(key);
    await me.mark(/^Gravity/);
    await me.said(/Read at 26\.0.°C, it is 1\.03[12] at 20\.0.°C/);
    await me.mark('pH');
    for (const key of ['3', 'point', '4']) await me.press(key);
    await me.said(/No safety rule can use a pH without its method/);
    await me.pick('pH read with', 'meterToday');
    await me.press('Keep');
    expect(await me.written('recordReading')).toMatchObject({
      values: { gravitySg: 1.03, temperatureCelsius: 26, ph: 3.4, phMethod: 'meterToday' },
    });
    await cellar.settle({ ...cellar.rules, pantry: false });
  });
});

describe('a transfer in the pantry', () => {
  test('is filled in by presses alone, into the field pressed last', async () => {
    await cellar.load();
    await cellar.settle({ ...cellar.rules, pantry: true });
    await me.ask({ kind: 'transfer', fromVesselId: at.vesselId, toVesselId: await empty('Tall jar') });
    for (const key of ['3', 'L']) await me.press(key);
    expect(textOf('How much')).toBe('3 L');
    await fireEvent.focus(me.field('Left behind as lees'));
    for (const key of ['2', '0', '0', 'ml']) await me.press(key);
    expect(textOf('Left behind as lees')).toBe('200 ml');
    await me.press('Carry out');
    expect(await me.written('transfer')).toMatchObject({ volumeUl: 3_000_000, leesUl: 200_000 });
    await cellar.settle({ ...cellar.rules, pantry: false });
  });
});

describe('a bare number where a unit is needed', () => {
  test('is answered with what was typed and how to write it', async () => {
    await me.ask({ kind: 'drawOff', vesselId: at.vesselId });
    await me.type('How much', '5');
    await me.press('Carry out');
    await within(await me.summary()).findByText(/“5” of what\? Write the unit too, for instance 4\.5 L/);
  });
});
