import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import { join } from 'node:path';
import { tick } from 'svelte';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import type { EntryRow } from '#core/contract/ledger.ts';
import type { ActDraft } from '#core/ledger/act.ts';
import type { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';
import ActDialogs from '#renderer/acts/ActDialogs.svelte';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import CorrectionDialogs from '#renderer/corrections/CorrectionDialogs.svelte';
import { corrections } from '#renderer/corrections/corrections-state.svelte.ts';
import {
  DAY,
  begun,
  jar,
  LITRE,
  NOW,
  openDeskOn,
  scratchFolder,
  type TestDesk,
} from '../../main/desk-for-tests.ts';
import { hands, teachDialogs, type Hands } from '../acts/acts-desk.ts';

const open: { desk: TestDesk | null } = { desk: null };
vi.mock('#renderer/backend/call.ts', () => ({
  client: new Proxy(
    {},
    { get: (_, capability) => Reflect.get(open.desk?.client ?? {}, capability) as unknown },
  ),
}));

const scratch = scratchFolder();
let count = 0;
let at: { vesselId: VesselId; batchId: BatchId };
let me: Hands;

beforeAll(teachDialogs);
beforeEach(async () => {
  localStorage.clear();
  open.desk = openDeskOn(join(scratch.folder, `${(count += 1)}.undercroft`));
  at = await begun(open.desk);
  me = hands(open.desk);
});
afterEach(() => {
  acts.close();
  corrections.close();
  corrections.striking = null;
  open.desk?.close();
});
afterAll(() => {
  scratch.remove();
});

const desk = (): TestDesk => {
  if (open.desk === null) throw new Error('no desk');
  return open.desk;
};
const line = (entryId: EntryId): Promise<EntryRow> => desk().client.ledger.entry({ entryId });
const empty = async (name: string): Promise<VesselId> =>
  (await desk().write('addVessel', jar({ name }), NOW - 38 * DAY)).vesselId;
const held = async (vesselId: VesselId): Promise<number> =>
  (await desk().client.shelves.vessel({ vesselId })).row.volumeUl / LITRE;
const pour = (fromVesselId: VesselId, toVesselId: VesselId, litres: number): ActDraft => ({
  ...{ kind: 'transfer', fromVesselId, toVesselId, volumeUl: litres * LITRE, leesUl: 0 },
  ...{ newBatch: null, toStage: null },
});

/** A jar of which a litre went into a second, and half of that into a third. */
async function story() {
  const [second, third] = [await empty('Tall jar'), await empty('Squat jar')];
  const moved = (await desk().post(pour(at.vesselId, second, 1), NOW - 20 * DAY)).entry.entryId;
  const onward = (await desk().post(pour(second, third, 0.5), NOW - 10 * DAY)).entry.entryId;
  return { second, third, moved, onward };
}

async function show(): Promise<void> {
  await cellar.load();
  render(ActDialogs);
  render(CorrectionDialogs);
}

async function correct(entryId: EntryId): Promise<void> {
  await show();
  await corrections.correct(await line(entryId));
  await tick();
}

const sheet = (): Promise<HTMLElement> =>
  screen.findByRole('dialog', { name: 'What this correction changes' });
const close = async (): Promise<void> => {
  const foot = within(await screen.findByRole('dialog')).getByRole('contentinfo');
  await fireEvent.click(within(foot).getByRole('button', { name: 'Close' }));
};
const planned = (): Promise<HTMLElement[]> => me.said(/later line/);
const gone = (): Promise<void> =>
  waitFor(() => {
    expect(screen.queryByRole('dialog')).toBeNull();
  });
const valueOf = (label: string): string => (me.field(label) as HTMLInputElement).value;
const plain = (element: HTMLElement): string => element.textContent.replaceAll(/[\s\u00A0]+/gu, ' ');

describe('a line put right', () => {
  test('in its own form, planned, and written only when it is carried out', async () => {
    const { second, moved } = await story();
    await correct(moved);
    await screen.findByRole('dialog', { name: 'Correct: transfer' });
    await me.said(/The line of 2026-11-05 12:00 says/);
    expect([valueOf('How much'), valueOf('When')]).toEqual(['1 L', '2026-11-05 12:00']);
    await me.press('Show what changes');
    await me.said(/Nothing is changed yet/);
    await me.type('How much', '2 L');
    await me.press('Show what changes');
    const plan = await sheet();
    await within(plan).findByText('One later line follows from it and is told anew.');
    expect(plain(plan)).toMatch(/Tall jar\) ?500 ml now, then→ 1.5 L/u);
    expect(await held(second)).toBe(0.5);
    await fireEvent.input(within(plan).getByLabelText(/^Why/u), { target: { value: 'read the wrong mark' } });
    await me.press('Carry out');
    await gone();
    expect(await held(second)).toBe(1.5);
    expect((await line(moved)).restated).toMatchObject({ reason: 'read the wrong mark' });
    expect(Object.keys(localStorage).filter((key) => key.includes('draft'))).toEqual([]);
  });

  test('on another day, with everything else as it was', async () => {
    const { moved } = await story();
    await correct(moved);
    await me.type('When', '2026-11-02 09:30');
    await me.press('Show what changes');
    await sheet();
    await screen.findByText('No vessel holds more or less than before.');
    await me.press('Carry out');
    await gone();
    expect((await line(moved)).restated).toMatchObject({
      ...{ happenedAtMs: Date.UTC(2026, 10, 2, 9, 30), act: { volumeUl: LITRE } },
    });
  });

  test('in another vessel, where its form takes the vessel for given', async () => {
    const { second, third } = await story();
    const act: ActDraft = { kind: 'drawOff', vesselId: second, volumeUl: 100_000, purpose: 'for a salad' };
    const drawn = (await desk().post(act, NOW - DAY)).entry.entryId;
    await correct(drawn);
    await me.choose('In which vessel', 'squat', /vessel 3/);
    await me.press('Show what changes');
    await sheet();
    await planned();
    await me.press('Carry out');
    await gone();
    expect([await held(second), await held(third)]).toEqual([0.5, 0.4]);
  });

  test('that cannot be filled in again: a small form asks its vessel, its time and its amounts', async () => {
    const heat: ActDraft = { kind: 'heat', vesselId: at.vesselId, reachedCelsius: 56, minutes: 20, note: '' };
    const heated = (await desk().post(heat, NOW - DAY)).entry.entryId;
    await correct(heated);
    await screen.findByRole('dialog', { name: 'Correct: a line' });
    await me.type('How hot it became', '65 C');
    await me.press('Show what changes');
    await sheet();
    await planned();
    await me.press('Carry out');
    await gone();
    expect((await line(heated)).restated?.act).toEqual({ ...heat, reachedCelsius: 65 });
  });
});

describe('a later line that could not have been', () => {
  async function toTheWrongJar(): Promise<Awaited<ReturnType<typeof story>>> {
    const told = await story();
    await correct(told.moved);
    await me.choose('Into', 'squat', /vessel 3/);
    await me.press('Show what changes');
    await sheet();
    await me.said(/Told so, this line could not have been/);
    return told;
  }

  test('is named with its reason, and nothing is written', async () => {
    const { moved, second } = await toTheWrongJar();
    const plan = await sheet();
    expect(plain(plan)).toMatch(/2026-11-15 500 ml moved from .*Tall jar.* into Squat jar/u);
    expect(plain(plan)).toMatch(/is empty/u);
    await me.press('Carry out');
    await me.said(/Nothing is written: this has to be settled first/);
    expect((await line(moved)).restated).toBeNull();
    expect(await held(second)).toBe(0.5);
  });

  test('is taken back along with it', async () => {
    const { second, third, onward } = await toTheWrongJar();
    await me.press(/^Take this line back too/);
    await me.said(/Taken back\./);
    await planned();
    await me.press('Carry out');
    await gone();
    expect([await held(second), await held(third)]).toEqual([0, 1]);
    expect(await line(onward)).toMatchObject({ struck: true, takenBack: { reason: '' } });
  });

  test('is corrected along with it, in its own form, or left as it was after all', async () => {
    const { second, third, onward } = await toTheWrongJar();
    await me.press(/^Correct this one too/);
    await screen.findByRole('dialog', { name: 'Correct: transfer' });
    await me.choose('From', 'squat', /vessel 3/);
    await me.choose('Into', 'tall', /vessel 2/);
    await me.press('Show what changes');
    await sheet();
    await me.press(/^Leave it as it was/);
    await me.said(/could not have been/);
    await me.press(/^Correct this one too/);
    await me.choose('From', 'squat', /vessel 3/);
    await me.choose('Into', 'tall', /vessel 2/);
    await me.press('Show what changes');
    await me.said(/No later line changes with it/);
    await me.press('Carry out');
    await gone();
    expect([await held(second), await held(third)]).toEqual([0.5, 0.5]);
    expect((await line(onward)).restated?.act).toMatchObject({ fromVesselId: third, toVesselId: second });
  });
});

describe('a line that cannot have been as it is told', () => {
  test('is asked about first, and what would fall with it only counted', async () => {
    const { moved, second } = await story();
    await correct(moved);
    await me.type('How much', '9 L');
    await me.press('Show what changes');
    await me.said(/this line itself could not have been/);
    await me.said(/One later line falls with it/);
    expect(within(await sheet()).queryByRole('button', { name: /^Take this line back too/u })).toBeNull();
    await me.press(/^Change it…/);
    await screen.findByRole('dialog', { name: 'Correct: transfer' });
    expect(valueOf('How much')).toBe('9 L');
    await me.type('How much', '2 L');
    await me.press('Show what changes');
    await planned();
    await me.press('Carry out');
    await gone();
    expect(await held(second)).toBe(1.5);
  });
});

describe('what is not carried out', () => {
  test('never opens after it was shut, however late its form would have been ready', async () => {
    const { moved } = await story();
    await show();
    const row = await line(moved);
    const opening = corrections.correct(row);
    corrections.close();
    await opening;
    const other = corrections.edit(row);
    corrections.close();
    await other;
    await tick();
    expect([acts.request, screen.queryByRole('dialog')]).toEqual([null, null]);
  });

  test('is there again when the line is corrected the next time', async () => {
    const { moved } = await story();
    await correct(moved);
    await me.type('How much', '1.5 L');
    await close();
    await gone();
    cleanup();
    await correct(moved);
    await me.said(/what you typed before/);
    expect(valueOf('How much')).toBe('1.5 L');
    await me.press('Show what changes');
    await fireEvent.input(within(await sheet()).getByLabelText(/^Why/u), { target: { value: 'a guess' } });
    await close();
    await gone();
    cleanup();
    await correct(moved);
    await me.said(/the correction you began before/);
    expect(within(await sheet()).getByLabelText<HTMLTextAreaElement>(/^Why/u).value).toBe('a guess');
    await me.press(/^Change…/);
    expect(valueOf('How much')).toBe('1.5 L');
    await me.type('How much', '2 L');
    await me.press('Show what changes');
    await me.said(/2.L moved/);
    await planned();
    await me.press('Carry out');
    await gone();
    expect((await line(moved)).restated?.act).toMatchObject({ volumeUl: 2 * LITRE });
  });

  test('is thrown away by starting afresh', async () => {
    const { moved } = await story();
    await correct(moved);
    await me.type('How much', '1.5 L');
    await me.press('Show what changes');
    await sheet();
    await close();
    await gone();
    cleanup();
    await correct(moved);
    await me.press('Start afresh');
    await screen.findByRole('dialog', { name: 'Correct: transfer' });
    expect(valueOf('How much')).toBe('1 L');
  });
});

describe('striking', () => {
  test('a line on which nothing rests strikes it plainly', async () => {
    const { onward } = await story();
    await show();
    corrections.striking = await line(onward);
    await screen.findByRole('dialog', { name: 'Strike this line?' });
    await me.press('Strike it');
    await gone();
    expect((await line(onward)).struck).toBe(true);
  });

  test('a line on which others rest offers to take it back with what follows', async () => {
    const { moved, onward, third } = await story();
    await show();
    corrections.striking = await line(moved);
    await me.press('Strike it');
    await me.said(/A later line rests on this one/);
    await me.press('Show what would follow');
    await sheet();
    await me.said(/this line could not have been/);
    await me.press(/^Take this line back too/);
    await planned();
    await me.press('Carry out');
    await gone();
    expect([(await line(moved)).struck, (await line(onward)).struck, await held(third)]).toEqual([
      true,
      true,
      0,
    ]);
  });

  test('a correction takes all of it back', async () => {
    const { moved, second } = await story();
    const { entry } = await desk().client.ledger.restate({
      ...{ requestId: crypto.randomUUID(), reason: '' },
      corrections: [{ entryId: moved, act: pour(at.vesselId, second, 2), happenedAtMs: null }],
    });
    await show();
    corrections.striking = await line(entry.entryId);
    await screen.findByRole('dialog', { name: 'Take this correction back?' });
    await me.press('Take it back');
    await gone();
    expect((await line(moved)).restated).toBeNull();
    expect(await held(second)).toBe(0.5);
  });
});
