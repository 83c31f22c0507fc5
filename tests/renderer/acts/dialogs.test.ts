import { fireEvent, screen, waitFor, within } from '@testing-library/svelte';
import { describe, expect, test, vi } from 'vitest';

import type { BatchId, CultureId, PlaceId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { DAY, jar, LITRE, must, NOW } from '../../main/desk-for-tests.ts';
import type { Hands } from './acts-desk.ts';
import { dialogsOnADesk } from './dialogs-on-a-desk.ts';

vi.mock('#renderer/backend/call.ts', () => import('./client-of-desk.ts'));

let at: { shelfId: ShelfId; vesselId: VesselId; batchId: BatchId };
let me: Hands;

const desk = dialogsOnADesk((given) => {
  ({ at, me } = given);
});
const empty = async (over: Parameters<typeof jar>[0] = {}): Promise<VesselId> =>
  (await desk().write('addVessel', jar(over))).vesselId;
const oldBess = async (): Promise<{ cultureId: CultureId; jarId: VesselId }> => {
  const jarId = await empty({ name: 'Mother jar' });
  const standing = { vesselId: jarId, volumeUl: 2 * LITRE };
  const given = {
    name: 'Old Bess',
    sort: 'mother',
    source: '',
    note: '',
    parentCultureId: null,
    standing,
  } as const;
  return { cultureId: (await desk().write('addCulture', { kind: 'addCulture', ...given })).cultureId, jarId };
};

describe('a reading', () => {
  test('is kept from one chalked line, with the text as typed', async () => {
    await me.ask({ kind: 'reading', vesselId: at.vesselId });
    await me.type(/as you would chalk it/, '1,012 19C');
    await me.said(/gravity 1.012.SG; the comma is read as a decimal mark, 19.°C/);
    await me.press('Keep');
    expect(await me.written('recordReading')).toMatchObject({
      vesselId: at.vesselId,
      values: { gravitySg: 1.012, temperatureCelsius: 19 },
    });
    expect(await me.typed()).toEqual({ quick: '1,012 19C' });
  });

  test('says what is wrong, keeps what was typed, and takes either way out', async () => {
    await me.ask({ kind: 'reading', vesselId: at.vesselId });
    await me.type('Gravity', '1.48');
    await me.press('Keep');
    expect(document.activeElement).toBe(await me.summary());
    expect((me.field('Gravity') as HTMLInputElement).value).toBe('1.48');
    await me.press('Use 1.048');
    expect((me.field('Gravity') as HTMLInputElement).value).toBe('1.048');
    await me.type('Gravity', '1.48');
    await me.press('Keep 1.48');
    await me.said(/kept although it is outside/);
    await me.press('Keep');
    expect(await me.written('recordReading')).toMatchObject({ values: { gravitySg: 1.48 } });
  });

  test('leads from the summary to the field', async () => {
    await me.ask({ kind: 'reading' });
    await me.press('Keep');
    await fireEvent.click(within(await me.summary()).getByRole('link', { name: 'Vessel' }));
    expect(document.activeElement).toBe(me.field('Vessel'));
  });

  test('shows the working of a titration and keeps its result', async () => {
    await me.ask({ kind: 'reading', vesselId: at.vesselId });
    await me.type('Sodium hydroxide used', '8.3');
    await me.type('Its strength', '0.1 N');
    await me.type('Sample titrated', '1');
    await me.pick('Counted as', 'acetic');
    await me.said(/8.3 mL × 0.1 N × 60.05 ÷ \(10 × 1 mL\) = 4.98 g\/100 mL as acetic/);
    await me.press('Keep');
    expect((await me.written('recordReading')).values.acidityGramsPer100Ml).toBeCloseTo(4.984, 2);
  });

  test('warns that alcohol skews a refractometer once yeast has been at work', async () => {
    await desk().write('pitchYeast', {
      kind: 'pitchYeast',
      vesselId: at.vesselId,
      cultureId: null,
      yeast: 'wild',
      massUg: null,
    });
    await me.ask({ kind: 'reading', vesselId: at.vesselId });
    await me.type('Gravity', '8 Bx');
    await me.pick('Read with', 'refractometer');
    await me.said(/alcohol skews a refractometer/);
  });

  test('in the pantry needs single presses only', async () => {
    await cellar.load();
    await cellar.settle({ ...cellar.rules, pantry: true });
    await me.ask({ kind: 'reading', vesselId: at.vesselId });
    await me.mark('Temperature');
    for (const key of ['2', '1', 'point', '5', '°C']) await me.press(key);
    await me.mark('Gravity');
    for (const key of ['1', 'comma', '0', '1', '3', 'Take back the last sign', '2']) await me.press(key);
    await me.press('Keep');
    expect(await me.written('recordReading')).toMatchObject({
      values: { gravitySg: 1.012, temperatureCelsius: 21.5 },
    });
    acts.open({ kind: 'reading', vesselId: at.vesselId });
    expect(await screen.findByRole('radio', { name: 'Gravity' })).toHaveProperty('checked', true);
    await me.press('1');
    await me.press('Clear');
    await me.press('Every value and its method');
    await within(me.dialog()).findByLabelText('pH read with');
    await cellar.settle({ ...cellar.rules, pantry: false });
  });
});

describe('a batch', () => {
  test('is started with what was measured and what it may become', async () => {
    const vesselId = await empty({ name: 'Tall jar' });
    await me.ask({ kind: 'startBatch' });
    await me.type('Name', 'Windfall cider');
    await me.pick('What it is', 'cider');
    await me.choose('Into which vessel', 'tall', /Tall jar/);
    await me.press('Full');
    expect((me.field('How much') as HTMLInputElement).value).toBe('5 L');
    await me.type('How much', '5 qt');
    await me.type(/Sugar, as gravity or Brix/, '1.048');
    await me.type('Temperature of the sample', '24');
    await me.said(/May become about 6\.\d ± 0\.\d.% vol by plan/);
    await me.said(/it is 1.049 at 20.0.°C/);
    await me.type('Ingredient 1', 'Apples');
    await me.type('Amount of ingredient 1', '8 kg');
    await within(me.dialog()).findByLabelText(/^Ingredient 2/);
    await me.type('When', 'yesterday 18:00');
    await me.type('How much', '4.5 L');
    await me.press('Start it');
    expect(await me.written('startBatch')).toMatchObject({
      vesselId,
      name: 'Windfall cider',
      stage: 'waiting',
      volumeUl: 4.5 * LITRE,
      measured: { gravitySg: 1.048, temperatureCelsius: 24, volumeUl: null },
      ingredients: [{ name: 'Apples', amountTyped: '8 kg', massUg: 8_000_000_000 }],
    });
  });

  test('has its leaf changed, and an unchanged leaf writes nothing', async () => {
    const before = (await desk().client.cellar.about()).entryCount;
    await me.ask({ kind: 'editBatch', batchId: at.batchId });
    await waitFor(() => expect(me.field('Name')).toHaveProperty('value', 'Apple must'));
    await me.press('Keep');
    await waitFor(() => expect(screen.queryByRole('dialog')).toBeNull());
    expect((await desk().client.cellar.about()).entryCount).toBe(before);
    acts.open({ kind: 'editBatch', batchId: at.batchId });
    await me.type('Name', 'Russet must');
    await me.press('Keep');
    expect(await me.written('editBatch')).toMatchObject({ name: 'Russet must', ferment: 'fruitVinegar' });
  });

  test('takes a note', async () => {
    await me.ask({ kind: 'note', about: { kind: 'batch', batchId: at.batchId } });
    await me.press('Keep');
    await me.summary();
    await me.type('Note', 'Clear now.');
    await me.press('Keep');
    expect(await me.written('note')).toMatchObject({ text: 'Clear now.' });
  });
});

describe('liquid', () => {
  test('is transferred once the plan has been seen, and a double press writes once', async () => {
    const toVesselId = await empty({ name: 'Wide jar' });
    await me.ask({ kind: 'transfer', fromVesselId: at.vesselId });
    await me.choose('Into', 'wide', /Wide jar/);
    await me.type('Left behind as lees', '200 ml');
    await waitFor(() =>
      expect(me.field('From')).toHaveProperty('value', expect.stringContaining('Apple must')),
    );
    await me.press('All but the lees');
    expect((me.field('How much') as HTMLInputElement).value).toBe('3.8 L');
    await me.said(/200.ml left behind as lees\./);
    await me.mark('A batch of its own');
    await me.type('Name of the new batch', 'Apple wine');
    await me.pick('What it is', 'wine');
    await me.mark('Settling');
    const before = (await desk().client.cellar.about()).entryCount;
    const press = within(me.dialog()).getByRole('button', { name: 'Carry out' });
    void fireEvent.click(press);
    await fireEvent.click(press);
    expect(await me.written('transfer')).toMatchObject({
      toVesselId,
      volumeUl: 3.8 * LITRE,
      leesUl: 0.2 * LITRE,
      toStage: 'settling',
      newBatch: { name: 'Apple wine', ferment: 'wine' },
    });
    expect((await desk().client.cellar.about()).entryCount).toBe(before + 1);
  });

  test('poured onto something else is said to blend', async () => {
    const other = await empty();
    await desk().write('startBatch', must(other, 1, 'Pear must'));
    await me.ask({ kind: 'transfer', fromVesselId: at.vesselId, toVesselId: other });
    await me.said(/1.L of Pear must stands in there already/);
    expect(within(me.dialog()).queryByText('A batch of its own')).toBeNull();
  });

  test('that is not there is refused with the most that can go', async () => {
    const toVesselId = await empty({ capacityUl: 20 * LITRE });
    await me.ask({ kind: 'transfer', fromVesselId: at.vesselId, toVesselId });
    await me.type('How much', '9 L');
    await me.type('Left behind as lees', '500 ml');
    await me.press('Carry out');
    expect(await me.summary()).toHaveProperty(
      'textContent',
      expect.stringMatching(/At most 3.5.L can be poured off/),
    );
    expect((me.field('How much') as HTMLInputElement).value).toBe('9 L');
    await me.press('Use 3.5 L');
    await me.press('Carry out');
    expect(await me.written('transfer')).toMatchObject({ volumeUl: 3.5 * LITRE });
  });

  test('is drawn off', async () => {
    await me.ask({ kind: 'drawOff', vesselId: at.vesselId });
    await me.type('How much', '5');
    await me.press('Use 5 ml');
    await me.type('What for', 'the kitchen');
    await me.press('Carry out');
    expect(await me.written('drawOff')).toMatchObject({ volumeUl: 5000, purpose: 'the kitchen' });
  });

  test('is thrown out with a reason', async () => {
    await me.ask({ kind: 'discard', vesselId: at.vesselId });
    await me.press('All of it');
    await me.press('Carry out');
    await me.summary();
    await me.type('Why', 'mouldy');
    await me.press('Carry out');
    expect(await me.written('discard')).toMatchObject({ volumeUl: 4 * LITRE, reason: 'mouldy' });
  });

  test('is bottled, and nothing is promised of pressure', async () => {
    await me.ask({ kind: 'bottle', vesselId: at.vesselId });
    await me.said(/no sourced rule for sealing this in a bottle, so it cannot tell you/);
    await me.type('Lost on the way', '100 ml');
    await me.press('Use 5');
    await me.press('Carry out');
    expect(await me.written('bottle')).toMatchObject({ bottles: 5, bottleUl: 750_000, lossUl: 100_000 });
  });

  test('is added to', async () => {
    await me.ask({ kind: 'addTo', vesselId: at.vesselId });
    await me.pick('What', 'sugar');
    await me.type('How much', '500 g');
    await me.type('The level rises by', '300 ml');
    await me.press('Add it');
    expect(await me.written('addTo')).toMatchObject({
      what: 'sugar',
      volumeUl: 300_000,
      ingredient: { massUg: 500_000_000 },
    });
  });

  test('has its level settled', async () => {
    await me.ask({ kind: 'settleVolume', vesselId: at.vesselId });
    await me.type('What stands in it', '3.8 L');
    await me.mark('Spilled or lost');
    await me.press('Settle it');
    expect(await me.written('settleVolume')).toMatchObject({ volumeUl: 3.8 * LITRE, cause: 'loss' });
  });

  test('is moved on', async () => {
    await me.ask({ kind: 'changeStage', vesselId: at.vesselId });
    await me.mark('Vinegar ferment');
    await me.press('Move it on');
    expect(await me.written('changeStage')).toMatchObject({ stage: 'vinegar' });
  });
});

describe('cultures', () => {
  test('a mother is put to work from its own jar', async () => {
    const { cultureId, jarId } = await oldBess();
    await me.ask({ kind: 'seed', vesselId: at.vesselId });
    await me.pick('Culture', cultureId);
    await waitFor(() =>
      expect(me.field('Taken from the jar')).toHaveProperty('value', expect.stringContaining('Old Bess')),
    );
    await me.type('How much', '2 L');
    await me.said(/empties the jar of the culture/);
    await me.type('How much', '300 ml');
    await me.press('Carry out');
    expect(await me.written('seed')).toMatchObject({
      cultureId,
      fromVesselId: jarId,
      volumeUl: 300_000,
      toStage: 'vinegar',
    });
  });

  test('raw vinegar that was bought is put to work', async () => {
    await me.ask({ kind: 'seed', vesselId: at.vesselId });
    await me.said(/sulfited, heated or otherwise preserved holds no living mother/);
    await me.mark('Bought raw vinegar');
    await me.type('What was bought', 'raw cider vinegar');
    await me.type('How much', '200 ml');
    await me.press('Carry out');
    expect(await me.written('seed')).toMatchObject({ cultureId: null, what: 'raw cider vinegar' });
  });

  test('yeast is pitched', async () => {
    await me.ask({ kind: 'pitchYeast', vesselId: at.vesselId });
    await me.type('What is on the packet', 'wine yeast');
    await me.type('How much', '5 g');
    await me.press('Pitch it');
    expect(await me.written('pitchYeast')).toMatchObject({ yeast: 'wine yeast', massUg: 5_000_000 });
  });

  test('one is added, standing in a jar', async () => {
    const vesselId = await empty({ name: 'Small jar' });
    await me.ask({ kind: 'addCulture' });
    await me.type('Name', 'Young Bess');
    await me.type('Where it comes from', 'a friend');
    await me.choose('Stands in', 'small', /Small jar/);
    await me.type('How much of it', '1.5 L');
    await me.press('Add it');
    expect(await me.written('addCulture')).toMatchObject({
      sort: 'mother',
      standing: { vesselId, volumeUl: 1.5 * LITRE },
    });
  });

  test('one is described anew and fed', async () => {
    const { cultureId } = await oldBess();
    await me.ask({ kind: 'editCulture', cultureId });
    await waitFor(() => expect(me.field('Name')).toHaveProperty('value', 'Old Bess'));
    await me.type('Note', 'thick');
    await me.press('Keep');
    expect(await me.written('editCulture')).toMatchObject({ name: 'Old Bess', note: 'thick' });
    acts.open({ kind: 'feedCulture', cultureId });
    await me.type('What it was fed', '200 ml of cider');
    await me.press('Note it');
    expect(await me.written('feedCulture')).toMatchObject({ text: '200 ml of cider' });
  });
});

describe('places, shelves and vessels', () => {
  test('a place comes with its shelves', async () => {
    await me.ask({ kind: 'addPlace' });
    await me.type('Name', 'Shed');
    await me.type('Shelves in it', '2');
    await me.type('Places on each shelf', '5');
    await me.press('Add it');
    expect(await me.written('addShelf')).toMatchObject({ name: 'Shelf 2', positions: 5 });
    expect((await desk().client.shelves.places()).map(({ name }) => name)).toEqual(['Pantry', 'Shed']);
  });

  test('shelves are added and described', async () => {
    await me.ask({ kind: 'addShelf' });
    await me.type('Name of the shelf', 'Bench');
    await me.type('How many shelves', '3');
    await me.press('Add them');
    expect(await me.written('addShelf')).toMatchObject({ name: 'Bench 3', positions: 8 });
    acts.open({ kind: 'editShelf', shelfId: at.shelfId });
    await waitFor(() => expect(me.field('Places on it')).toHaveProperty('value', '8'));
    await me.type('Places on it', '0');
    await me.press('Keep');
    await me.press('Use 1');
    await me.press('Keep');
    expect(await me.written('editShelf')).toMatchObject({ positions: 1 });
  });

  test('a place is described', async () => {
    const placeId = (await desk().client.shelves.places())[0]?.placeId as PlaceId;
    await me.ask({ kind: 'editPlace', placeId });
    await waitFor(() => expect(me.field('Name')).toHaveProperty('value', 'Pantry'));
    await me.type('Name', 'Larder');
    await me.press('Keep');
    expect(await me.written('editPlace')).toMatchObject({ name: 'Larder' });
  });

  test('vessels alike are added side by side on the first free positions', async () => {
    await me.ask({ kind: 'addVessel' });
    await me.mark('Demijohn');
    expect((me.field('Holds, brim full') as HTMLInputElement).value).toBe('5 L');
    await waitFor(() => expect(me.field('Position')).toHaveProperty('value', '2'));
    await me.type('How many alike', '9');
    await me.press('Add them');
    await me.press('Use 7');
    await me.type('How many alike', '2');
    await me.press('Add them');
    expect(await me.written('addVessel')).toMatchObject({
      silhouette: 'demijohn',
      closure: 'airlock',
      shelfId: at.shelfId,
      position: 3,
    });
  });

  test('one is described, moved, closed otherwise and retired', async () => {
    const vesselId = await empty();
    await me.ask({ kind: 'editVessel', vesselId });
    await me.type('Name of its own', 'Blue jar');
    await me.press('Keep');
    expect(await me.written('editVessel')).toMatchObject({ name: 'Blue jar', capacityUl: 5 * LITRE });

    acts.open({ kind: 'moveVessel', vesselId });
    await me.pick('On which shelf', at.shelfId);
    await waitFor(() => expect(me.field('Position')).toHaveProperty('value', '2'));
    await me.type('Position', '1');
    await me.press('Move it');
    expect(await me.summary()).toHaveProperty(
      'textContent',
      expect.stringContaining('Position 1 is taken by vessel 1'),
    );
    await me.type('Position', '4');
    await me.press('Move it');
    expect(await me.written('moveVessel')).toMatchObject({ shelfId: at.shelfId, position: 4 });

    acts.open({ kind: 'changeClosure', vesselId });
    await me.mark('Water lock');
    await me.press('Change it');
    expect(await me.written('changeClosure')).toMatchObject({ closure: 'airlock' });

    acts.open({ kind: 'retireVessel', vesselId });
    await me.type('Why', 'cracked');
    await me.press('Retire it');
    expect(await me.written('retireVessel')).toMatchObject({ reason: 'cracked' });
  });

  test('one that holds something is not retired', async () => {
    await me.ask({ kind: 'retireVessel', vesselId: at.vesselId });
    await me.press('Retire it');
    expect(await me.summary()).toHaveProperty('textContent', expect.stringMatching(/still holds 4.L/));
  });
});

describe('every form', () => {
  test('keeps what was typed as a draft until it is carried out or begun afresh', async () => {
    await me.ask({ kind: 'note', about: { kind: 'vessel', vesselId: at.vesselId } });
    await me.type('Note', 'half a thou');
    await fireEvent.click(
      within(me.dialog()).getAllByRole('button', { name: 'Close' }).at(-1) as HTMLElement,
    );
    await waitFor(() => expect(screen.queryByRole('dialog')).toBeNull());
    acts.open({ kind: 'note', about: { kind: 'vessel', vesselId: at.vesselId } });
    await waitFor(() => expect(me.field('Note')).toHaveProperty('value', 'half a thou'));
    await me.press('Start afresh');
    expect(me.field('Note')).toHaveProperty('value', '');
  });

  test('takes a time as it is said, and asks which day is meant', async () => {
    await me.ask({ kind: 'note', about: { kind: 'vessel', vesselId: at.vesselId } });
    await me.type('Note', 'racked');
    await me.type('When', '03/11/2026');
    await me.press('3 November 2026');
    await me.said(/^2026-11-03, \d+ days ago$/);
    await me.press('Keep');
    await me.written('note');
    const { entries } = await desk().client.ledger.entries({ about: null, beforeSequence: null, limit: 1 });
    expect(entries[0]).toMatchObject({ happenedAtMs: NOW - 22 * DAY, typed: { happenedAtMs: '2026-11-03' } });
  });

  test('says so when what it is about is gone', async () => {
    await me.ask({ kind: 'drawOff', vesselId: '019a0000-0000-7000-8000-000000000000' as VesselId });
    await me.said(/not in the cellar any more/);
  });

  test('keeps everything when the cellar cannot write', async () => {
    await me.ask({ kind: 'note', about: { kind: 'vessel', vesselId: at.vesselId } });
    await me.type('Note', 'kept');
    const post = vi.spyOn(cellar, 'post');
    post.mockResolvedValueOnce({ ok: false, fault: { code: 'DiskFull', message: 'The disk is full.' } });
    await me.press('Keep');
    expect(await me.summary()).toHaveProperty(
      'textContent',
      expect.stringContaining('The disk is full. Code: DiskFull'),
    );
    expect(me.field('Note')).toHaveProperty('value', 'kept');
    post.mockRestore();
    await me.press('Keep');
    expect(await me.written('note')).toMatchObject({ text: 'kept' });
  });
});
