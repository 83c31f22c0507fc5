import { fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import type { BatchId, EntryId, VesselId } from '#core/ledger/ids.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { hashOf } from '#renderer/navigation/destination.ts';
import {
  begun,
  DAY,
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
  backend: {},
}));
const { default: PedigreeView } = await import('#renderer/pedigree/PedigreeView.svelte');

const scratch = scratchFolder();
let count = 0;
let at: { vesselId: VesselId; batchId: BatchId };
let cask: VesselId;
let lotId: EntryId;
let me: Hands;
const desk = (): TestDesk => {
  if (open.desk === null) throw new Error('no desk');
  return open.desk;
};

beforeAll(() => {
  teachDialogs();
  vi.stubGlobal(
    'CSSStyleSheet',
    class {
      replaceSync(): void {}
    },
  );
  Object.defineProperty(document, 'adoptedStyleSheets', { value: [], writable: true, configurable: true });
});
beforeEach(async () => {
  localStorage.clear();
  open.desk = openDeskOn(join(scratch.folder, `${(count += 1)}.undercroft`));
  at = await begun(open.desk);
  cask = (await desk().write('addVessel', jar(), NOW - 20 * DAY)).vesselId;
  await desk().post(
    {
      ...{ kind: 'transfer', fromVesselId: at.vesselId, toVesselId: cask, volumeUl: 2 * LITRE, leesUl: 0 },
      ...{ newBatch: { name: 'Second apple', ferment: 'fruitVinegar' }, toStage: null },
    },
    NOW - 10 * DAY,
  );
  const bottled = await desk().post(
    { kind: 'bottle', vesselId: cask, bottles: 2, bottleUl: 500_000, lossUl: 0, note: '' },
    NOW - 5 * DAY,
  );
  lotId = bottled.entry.entryId;
  me = hands(open.desk);
});
afterEach(() => {
  acts.close();
  open.desk?.close();
});
afterAll(() => {
  scratch.remove();
  vi.unstubAllGlobals();
});

describe('what it touched', () => {
  const show = () =>
    render(PedigreeView, { of: { kind: 'batch', batchId: at.batchId }, direction: 'onward' });

  test('lists each thing by its step with links, amounts and what is left', async () => {
    show();
    const list = await screen.findByRole('list', { name: 'Step by step' });
    expect(within(list).getByRole('heading', { name: /^1 step on/u })).toBeTruthy();
    expect(within(list).getByRole('heading', { name: /^2 steps on/u })).toBeTruthy();
    expect(list.textContent.replaceAll('\u00A0', ' ')).toContain('2 bottles of 500 ml left');
    const cellarLink = within(list)
      .getAllByRole('link')
      .find((link) => link.getAttribute('href') === hashOf({ place: 'shelves', vesselId: cask }));
    expect(cellarLink).toBeTruthy();
    expect(screen.getByText('It touched 2 others.')).toBeTruthy();
    expect(document.querySelectorAll('svg path.step')).toHaveLength(2);
    expect(
      [...document.querySelectorAll('.drawing a')].every((a) => a.getAttribute('tabindex') === '-1'),
    ).toBe(true);
  });

  test('all of it is kept apart in one act, with what was unticked left in use', async () => {
    show();
    await fireEvent.click(await screen.findByRole('button', { name: /^Keep all of these apart…/u }));
    const request = acts.request;
    if (request === null) throw new Error('no form');
    await me.ask(request);
    await me.said(/2 vessels and 1 lot of bottles will be kept apart/);
    await me.press('Keep them apart');
    await me.said(/Say why, in three letters or more/);
    const boxes = within(me.dialog()).getAllByRole('checkbox');
    await fireEvent.click(boxes[0] as HTMLElement);
    await me.said(/Left out, this stays in use/);
    await me.type('Why', 'smells of nail varnish');
    await me.press('Keep them apart');
    const act = await me.written('quarantine');
    expect(act).toMatchObject({
      ...{ vesselIds: [cask], lotIds: [lotId], reason: 'smells of nail varnish' },
      root: { kind: 'batch', batchId: at.batchId },
    });
    const traced = await desk().client.pedigree.trace({ of: { kind: 'lot', lotId }, direction: 'onward' });
    expect(traced.nodes[0]?.keptApartFor).toBe('smells of nail varnish');
  });

  test('with nothing ticked it is refused with a sentence', async () => {
    const of = { kind: 'lot', lotId } as const;
    const pedigree = await desk().client.pedigree.trace({ of, direction: 'onward' });
    await me.ask({ kind: 'keepApart', of, pedigree });
    await fireEvent.click(within(me.dialog()).getByRole('checkbox'));
    await me.type('Why', 'cloudy');
    await me.press('Keep them apart');
    await me.said(/Nothing is ticked\. Tick what is to be kept apart/);
  });

  test('a thing that is gone is said to be gone', async () => {
    render(PedigreeView, { of: { kind: 'lot', lotId: at.batchId as string as EntryId }, direction: 'back' });
    await waitFor(() => screen.getByText(/not in the book any more/u));
  });
});

describe('bottles that are kept apart', () => {
  test('are so by themselves when they are filled from Quarantine, and it is said before and after', async () => {
    await desk().post({ kind: 'changeStage', vesselId: cask, stage: 'quarantine', reason: 'threads' }, NOW);
    await me.ask({ kind: 'bottle', vesselId: cask });
    await me.said(/The bottles are marked as kept apart/);
    const bottle = {
      kind: 'bottle',
      vesselId: cask,
      bottles: 1,
      bottleUl: 100_000,
      lossUl: 0,
      note: '',
    } as const;
    const { entry } = await desk().post(bottle, NOW);
    const batchId = (await desk().client.shelves.vessel({ vesselId: cask })).row.batchId as BatchId;
    acts.open({ kind: 'bottles', batchId, lotId: entry.entryId, how: 'returned' });
    await screen.findByText('They were filled from a vessel that stood in Quarantine.');
    await me.said(/It stands in Quarantine then/);
  });

  test('are not opened without a caution, and are released for a reason', async () => {
    const root = { kind: 'lot', lotId } as const;
    await desk().post({ kind: 'quarantine', root, vesselIds: [], lotIds: [lotId], reason: 'haze' }, NOW);
    const batchId = (await desk().client.shelves.vessel({ vesselId: cask })).row.batchId as BatchId;
    await me.ask({ kind: 'bottles', batchId, lotId, how: 'opened' });
    await me.said(/These bottles are kept apart/);
    await me.said(/^haze$/);
    const lot = (await desk().client.book.leaf({ batchId })).lots[0];
    if (lot === undefined) throw new Error('no lot');
    acts.open({ kind: 'release', lot });
    await screen.findByRole('dialog', { name: 'Release bottles' });
    await me.type('Why they are sound', 'cleared, titrated again');
    await me.press('Release them');
    expect(await me.written('releaseBottles')).toMatchObject({ lotId, reason: 'cleared, titrated again' });
    expect((await desk().client.book.leaf({ batchId })).lots[0]?.keptApartFor).toBe('');
  });
});
