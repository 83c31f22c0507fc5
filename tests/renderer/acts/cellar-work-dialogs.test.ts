import { screen, within } from '@testing-library/svelte';
import { describe, expect, test, vi } from 'vitest';

import type { BatchId, ShelfId, VesselId } from '#core/ledger/ids.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { DAY, jar, LITRE, must, NOW } from '../../main/desk-for-tests.ts';
import type { Hands } from './acts-desk.ts';
import { dialogsOnADesk } from './dialogs-on-a-desk.ts';

vi.mock('#renderer/backend/call.ts', () => import('./client-of-desk.ts'));

let at: { shelfId: ShelfId; vesselId: VesselId; batchId: BatchId };
let me: Hands;

const desk = dialogsOnADesk((given) => {
  ({ at, me } = given);
});
const empty = async (name: string, litres = 5): Promise<VesselId> =>
  (await desk().write('addVessel', jar({ name, capacityUl: litres * LITRE }), NOW - 20 * DAY)).vesselId;
const valueOf = (label: string): string => (me.field(label) as HTMLInputElement).value;

describe('a split', () => {
  test('goes in equal parts into several vessels, with the plan shown first', async () => {
    const [tall, squat, small] = [
      await empty('Tall jar'),
      await empty('Squat jar'),
      await empty('Small jar'),
    ];
    await me.ask({ kind: 'split', fromVesselId: at.vesselId });
    await me.type('Left behind as lees', '100 ml');
    await me.choose('Part 1: into', 'tall', /Tall jar/);
    await me.choose('Part 2: into', 'squat', /Squat jar/);
    await me.press('One more part');
    await me.choose('Part 3: into', 'small', /Small jar/);
    await me.press('In equal parts');
    expect([1, 2, 3].map((part) => valueOf(`Part ${part}: how much`))).toEqual(['1.3 L', '1.3 L', '1.3 L']);
    await me.said(/3.9.L in 3 parts, 100.ml as lees; nothing stays/);
    await me.said(/100.ml left behind as lees/);
    await me.pick('Part 2: stage', 'maturing');
    await me.press('Carry out');
    const act = await me.written('split');
    expect(act.leesUl).toBe(100_000);
    expect(act.parts.map(({ toVesselId, volumeUl }) => [toVesselId, volumeUl])).toEqual([
      [tall, 1_300_000],
      [squat, 1_300_000],
      [small, 1_300_000],
    ]);
    expect(act.parts[1]?.toStage).toBe('maturing');
  });

  test('fills each in turn, gives the rest, and takes a part away', async () => {
    const one = await empty('First jug', 1);
    const two = await empty('Second jug', 2);
    const three = await empty('Third jug', 9);
    await me.ask({ kind: 'split', fromVesselId: at.vesselId, toVesselIds: [one, two, three] });
    await within(me.dialog()).findByDisplayValue(/Third jug/);
    await me.press('Fill each');
    expect([1, 2, 3].map((part) => valueOf(`Part ${part}: how much`))).toEqual(['1 L', '2 L', '1 L']);
    await me.press('Take part 1 away');
    await me.press(/^The rest as part 2$/);
    expect([1, 2].map((part) => valueOf(`Part ${part}: how much`))).toEqual(['2 L', '2 L']);
    await me.press('Carry out');
    expect((await me.written('split')).parts.map(({ toVesselId }) => toVesselId)).toEqual([two, three]);
  });

  test('that asks for too much is refused under the part, with the text kept and the way out', async () => {
    const one = await empty('First jug');
    const two = await empty('Second jug');
    await me.ask({ kind: 'split', fromVesselId: at.vesselId, toVesselIds: [one, two] });
    await within(me.dialog()).findByDisplayValue(/Second jug/);
    await me.type('Part 1: how much', '3 L');
    await me.type('Part 2: how much', '3 L');
    await me.press('Carry out');
    const summary = await me.summary();
    expect(summary.textContent).toMatch(/Part 2: how much: Vessel 1 holds 4.L; the parts come to 6.L/);
    expect(me.field('Part 2: how much').getAttribute('aria-invalid')).toBe('true');
    expect(valueOf('Part 2: how much')).toBe('3 L');
    await me.press('Use 1 L');
    await me.press('Carry out');
    expect((await me.written('split')).parts.map(({ volumeUl }) => volumeUl)).toEqual([3_000_000, 1_000_000]);
  });

  test('says of the very part that its vessel is too small, and keeps a draft', async () => {
    const small = await empty('Small jar', 1);
    const big = await empty('Big jar', 9);
    await me.ask({ kind: 'split', fromVesselId: at.vesselId, toVesselIds: [big, small] });
    await within(me.dialog()).findByDisplayValue(/Small jar/);
    await me.type('Part 1: how much', '1 L');
    await me.type('Part 2: how much', '2 L');
    await me.press('Carry out');
    expect((await me.summary()).textContent).toMatch(/Part 2: how much: Vessel 2 has room for 1.L/);
    acts.close();
    acts.open({ kind: 'split', fromVesselId: at.vesselId, toVesselIds: [big, small] });
    await screen.findByText(/what you typed before/);
    expect(valueOf('Part 2: how much')).toBe('2 L');
  });
});

describe('a part of its own', () => {
  test('is what it was parted from until said otherwise, also in a draft', async () => {
    const one = await empty('First jug');
    await me.ask({ kind: 'split', fromVesselId: at.vesselId, toVesselIds: [one] });
    await within(me.dialog()).findByDisplayValue(/First jug/);
    await within(me.dialog()).findByDisplayValue(/Apple must/);
    const group = within(me.dialog()).getByRole('group', { name: 'Part 1: it is' });
    within(group).getByRole('radio', { name: 'A batch of its own' }).click();
    await me.type('Part 1: name of the new batch', 'Young must');
    acts.close();
    acts.open({ kind: 'split', fromVesselId: at.vesselId, toVesselIds: [one] });
    await screen.findByText(/what you typed before/);
    expect((me.field('Part 1: what it is') as HTMLSelectElement).value).toBe('fruitVinegar');
    await me.press('Take part 2 away');
    await me.type('Part 1: how much', '1 L');
    await me.press('Carry out');
    expect((await me.written('split')).parts).toMatchObject([
      { toVesselId: one, newBatch: { name: 'Young must', ferment: 'fruitVinegar' } },
    ]);
  });
});

describe('a blend', () => {
  test('shows the shares of the result before it is carried out', async () => {
    const second = await empty('Second jar');
    await desk().write('startBatch', must(second, 2, 'Pear must'), NOW - 10 * DAY);
    const big = await empty('Big jar', 10);
    await me.ask({ kind: 'blend', fromVesselIds: [at.vesselId, second], toVesselId: big });
    await within(me.dialog()).findByDisplayValue(/Pear must/);
    await me.press('All of each');
    expect([valueOf('How much, 1'), valueOf('How much, 2')]).toEqual(['4 L', '2 L']);
    await me.said(/Together 6.L/);
    const plan = within(me.dialog()).getByRole('region', { name: 'Plan' });
    await within(plan).findByText(/2\/3/);
    expect(plan.textContent.replaceAll(/\s+/gu, ' ')).toMatch(/2\/3 Apple must, 1\/3 Pear must/);
    await me.mark('A batch of its own');
    await me.type('Name of the new batch', 'House blend');
    await me.press('Carry out');
    const act = await me.written('blend');
    expect(act.newBatch).toMatchObject({ name: 'House blend', ferment: 'fruitVinegar' });
    const { origins } = await desk().client.book.leaf({ batchId: act.newBatch?.batchId ?? at.batchId });
    expect(origins.map(({ name, tokens, ofTokens }) => [name, tokens * 3 === ofTokens * 2])).toEqual([
      ['Apple must', true],
      ['Pear must', false],
    ]);
  });

  test('into one of those chosen pours the others into it', async () => {
    const second = await empty('Second jar', 9);
    await desk().write('startBatch', must(second, 2, 'Pear must'), NOW - 10 * DAY);
    await me.ask({ kind: 'blend', fromVesselIds: [at.vesselId, second] });
    await within(me.dialog()).findByDisplayValue(/Pear must/);
    await me.press('All of each');
    await me.choose('Into', 'pear', /Pear must/);
    await me.said(/It joins what stands there/);
    await me.press('Carry out');
    expect(await me.written('blend')).toMatchObject({
      ...{ toVesselId: second, newBatch: null },
      parts: [{ fromVesselId: at.vesselId, volumeUl: 4_000_000 }],
    });
  });
});

describe('a barrel', () => {
  test('gives a share and is filled up again', async () => {
    const young = await empty('Young jar');
    await desk().write('startBatch', must(young, 3, 'Young must'), NOW - 5 * DAY);
    const bottleJar = await empty('Old jar');
    await me.ask({ kind: 'drawAndRefill', vesselId: at.vesselId });
    await me.press('1/4');
    await me.said(/1.L is drawn/);
    await me.choose('What is drawn goes into', 'old jar', /Old jar/);
    await me.choose('Refilled from', 'young', /Young must/);
    await me.press('As much as is drawn');
    await me.said(/3\/4/);
    await me.press('Carry out');
    expect(await me.written('drawAndRefill')).toMatchObject({
      ...{ vesselId: at.vesselId, drawnUl: 1_000_000, toVesselId: bottleJar },
      ...{ fromVesselId: young, refillUl: 1_000_000 },
    });
  });

  test('names what was asked for when it is refused', async () => {
    const young = await empty('Young jar');
    await desk().write('startBatch', must(young, 1, 'Young must'), NOW - 5 * DAY);
    await me.ask({ kind: 'drawAndRefill', vesselId: at.vesselId });
    await me.type('Share drawn', '150 %');
    await me.press('Carry out');
    expect((await me.summary()).textContent).toMatch(/Share drawn: A share lies between nothing and all/);
    await me.type('Share drawn', '1/2');
    await me.choose('Refilled from', 'young', /Young must/);
    await me.type('Refilled with', '2 L');
    await me.press('Carry out');
    expect((await me.summary()).textContent).toMatch(/Refilled with: Vessel 2 holds 1.L/);
    await me.press('Use 1 L');
    await me.press('Carry out');
    expect(await me.written('drawAndRefill')).toMatchObject({ drawnUl: 2_000_000, toVesselId: null });
  });
});

describe('a barrel whose share does not fit', () => {
  test('says how much would, without offering it as a share', async () => {
    const tiny = await empty('Tiny jar', 0.5);
    await me.ask({ kind: 'drawAndRefill', vesselId: at.vesselId });
    await me.press('1/2');
    await me.choose('What is drawn goes into', 'tiny', /Tiny jar/);
    const young = await empty('Young jar');
    await desk().write('startBatch', must(young, 3, 'Young must'), NOW - 5 * DAY);
    await me.choose('Refilled from', 'young', /Young must/);
    await me.press('As much as is drawn');
    await me.press('Carry out');
    expect((await me.summary()).textContent).toMatch(/Share drawn: Vessel 2 has room for 500.ml/);
    expect(within(me.dialog()).queryByRole('button', { name: /^Use / })).toBeNull();
    await me.mark('A volume');
    await me.type('Volume drawn', '1 L');
    await me.press('Carry out');
    await me.press('Use 500 ml');
    await me.type('Refilled with', '500 ml');
    await me.press('Carry out');
    expect(await me.written('drawAndRefill')).toMatchObject({ drawnUl: 500_000, toVesselId: tiny });
  });
});

describe('samples, filters and vessels', () => {
  test('a sample is taken and planned', async () => {
    await me.ask({ kind: 'sample', vesselId: at.vesselId });
    await me.said(/100.ml taken as a sample/);
    await me.mark('Tasting');
    await me.press('Carry out');
    expect(await me.written('sample')).toMatchObject({ volumeUl: 100_000, purpose: 'tasting' });
  });

  test('a filter that takes all is refused under its field', async () => {
    await me.ask({ kind: 'filter', vesselId: at.vesselId });
    await me.pick('How', 'paper');
    await me.type('Lost on the way', '4 L');
    await me.press('Carry out');
    expect((await me.summary()).textContent).toMatch(/Lost on the way: Vessel 1 holds 4.L/);
    await me.type('Lost on the way', '50 ml');
    await me.press('Carry out');
    expect(await me.written('filter')).toMatchObject({ how: 'paper', lossUl: 50_000 });
  });

  test('a cleaned vessel rests and says so until it is used', async () => {
    const vesselId = await empty('Tall jar');
    await me.ask({ kind: 'cleanVessel', vesselId });
    await me.mark('Sanitised');
    await me.type('Rests until', 'soon');
    await me.press('Keep it');
    expect((await me.summary()).textContent).toMatch(/Rests until: “soon” is not read as a day to come/);
    await me.press('1 week');
    await me.press('Keep it');
    await me.written('cleanVessel');
    const detail = await desk().client.shelves.vessel({ vesselId });
    expect(detail.row).toMatchObject({ cleanedHow: 'sanitised', holder: '' });
    expect(detail.row.restUntilMs).toBeGreaterThan(NOW + 5 * DAY);
    await desk().write('startBatch', must(vesselId, 1, 'Pear must'));
    await desk().write('drawOff', { kind: 'drawOff', vesselId, volumeUl: LITRE, purpose: '' });
    const used = await desk().client.shelves.vessel({ vesselId });
    expect(used.row).toMatchObject({ stage: 'empty', cleanedAtMs: null, restUntilMs: null });
  });

  test('a vessel with something in it is not cleaned, and says why', async () => {
    await me.ask({ kind: 'cleanVessel', vesselId: at.vesselId });
    await me.press('Keep it');
    expect((await me.summary()).textContent).toMatch(/It holds 4.L. Move that out first/);
  });

  test('a vessel is lent, passed on and taken back', async () => {
    await me.ask({ kind: 'lendVessel', vesselId: at.vesselId });
    await within(me.dialog()).findByLabelText('Who has it');
    await me.press('Lend it');
    expect((await me.summary()).textContent).toMatch(/Who has it: Say who has it/);
    await me.type('Who has it', 'the neighbour');
    await me.press('Lend it');
    expect(await me.written('lendVessel')).toMatchObject({ holder: 'the neighbour' });
    expect((await desk().client.shelves.vessel({ vesselId: at.vesselId })).row.holder).toBe('the neighbour');
    acts.open({ kind: 'lendVessel', vesselId: at.vesselId });
    await screen.findByText('the neighbour');
    await me.press('It is back');
    expect(await me.written('lendVessel')).toMatchObject({ holder: '' });
  });
});

describe('bottles', () => {
  const bottled = async () => {
    const fill = { kind: 'bottle', vesselId: at.vesselId, lossUl: 0, note: '' } as const;
    const draft = { ...fill, bottles: 4, bottleUl: 500_000 };
    const { entry } = await desk().post(draft, NOW - DAY);
    return entry.entryId;
  };

  test('are given to somebody, and no more than are left', async () => {
    const lotId = await bottled();
    await me.ask({ kind: 'bottles', batchId: at.batchId, lotId, how: 'given' });
    await me.said(/4 of 4 left, 500.ml each/);
    await me.type('How many', '9');
    await me.press('Carry out');
    expect((await me.summary()).textContent).toMatch(/To whom: Say to whom they were given/);
    await me.type('To whom', 'the neighbour');
    await me.press('Carry out');
    expect((await me.summary()).textContent).toMatch(/How many: 4 of this lot are left, and 9 are asked for/);
    await me.press('Use 4');
    await me.press('Carry out');
    expect(await me.written('takeBottles')).toMatchObject({ bottles: 4, how: 'given' });
    expect((await desk().client.book.leaf({ batchId: at.batchId })).lots).toMatchObject([
      { entryId: lotId, bottles: 4, left: 0 },
    ]);
  });

  test('are emptied back into a vessel, with the plan shown', async () => {
    const lotId = await bottled();
    const jug = await empty('Big jug');
    await me.ask({ kind: 'bottles', batchId: at.batchId, lotId, how: 'returned' });
    await me.type('How many', '2');
    await me.choose('Emptied into', 'jug', /Big jug/);
    await me.said(/1.L out of bottles/);
    await me.press('Carry out');
    expect(await me.written('returnBottles')).toMatchObject({ bottles: 2, toVesselId: jug, toStage: null });
  });
});
