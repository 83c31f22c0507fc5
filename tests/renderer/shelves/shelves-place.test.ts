import { fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import { tick } from 'svelte';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { join } from 'node:path';
import type { ShelfId, VesselId } from '#core/ledger/ids.ts';
import { acts } from '#renderer/acts/acts-state.svelte.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { nav } from '#renderer/navigation/navigation.svelte.ts';
import ShelvesView from '#renderer/shelves/ShelvesView.svelte';
import { shelves } from '#renderer/shelves/shelves-state.svelte.ts';
import ToolRowForTests from './ToolRowForTests.svelte';
import {
  begun,
  DAY,
  jar,
  LITRE,
  must,
  NOW,
  openDeskOn,
  scratchFolder,
  type TestDesk,
} from '../../main/desk-for-tests.ts';
import { lendShelfParts } from './shelf-parts.ts';

const open: { desk: TestDesk | null } = { desk: null };
vi.mock('#renderer/backend/call.ts', () => ({
  client: new Proxy(
    {},
    { get: (_, capability) => Reflect.get(open.desk?.client ?? {}, capability) as unknown },
  ),
}));

const scratch = scratchFolder();
let count = 0;
let desk: TestDesk;
let at: { shelfId: ShelfId; vesselId: VesselId };
let emptyId: VesselId;

beforeAll(lendShelfParts);
beforeEach(async () => {
  vi.useFakeTimers({ now: NOW, toFake: ['Date'] });
  localStorage.clear();
  desk = openDeskOn(join(scratch.folder, `${(count += 1)}.undercroft`));
  open.desk = desk;
  at = await begun(desk);
  emptyId = (await desk.write('addVessel', jar({ shelfId: at.shelfId, position: 3 }))).vesselId;
  shelves.group('place');
  shelves.draw('roomy');
  shelves.showAsTable(false);
  shelves.clearSelection();
  shelves.clearFilter();
  shelves.transferFrom = null;
  nav.replace({ place: 'shelves' });
});
afterEach(() => {
  acts.close();
  desk.close();
  vi.useRealTimers();
});
afterAll(() => {
  scratch.remove();
});

/** The place as the keeper meets it, all vessels read. */
async function see(): Promise<void> {
  await cellar.load();
  cellar.fileRevision += 1;
  render(ToolRowForTests);
  render(ShelvesView);
  await waitFor(() => {
    expect(shelves.isComplete).toBe(true);
    expect(shelves.overview).not.toBeNull();
  });
  await tick();
}

const grid = (): HTMLElement => screen.getByRole('grid');
const cell = (name: RegExp): HTMLElement => screen.getByRole('gridcell', { name });
const panel = () => within(screen.getByRole('complementary'));
const key = async (key: string, over: KeyboardEventInit = {}): Promise<void> => {
  await fireEvent.keyDown(document.activeElement ?? document.body, { key, ...over });
  await tick();
};

describe('the shelves', () => {
  test('are a grid that says how large it is and names every vessel and free place', async () => {
    await see();
    expect(grid().getAttribute('aria-rowcount')).toBe('1');
    expect(grid().getAttribute('aria-colcount')).toBe('8');
    expect(grid().getAttribute('aria-multiselectable')).toBe('true');
    expect(screen.getAllByRole('gridcell')).toHaveLength(8);
    expect(cell(/^Apple must, Waiting, 5 L jar, 80 % full, .*A1\.$/)).toBeTruthy();
    expect(cell(/^Vessel 2, Empty, 5 L jar\. A3\.$/)).toBeTruthy();
    expect(cell(/^A2, free\. Put a vessel here\.$/)).toBeTruthy();
    expect(screen.getByRole('rowheader').textContent).toMatch('Pantry');
  });

  test('have one tab stop, and arrows, Home and End move it', async () => {
    await see();
    const stop = (): string => document.querySelector('[role="gridcell"][tabindex="0"]')?.textContent ?? '';
    expect(document.querySelectorAll('[role="gridcell"][tabindex="0"]')).toHaveLength(1);
    cell(/^Apple must/).focus();
    await key('ArrowRight');
    expect(stop()).toMatch(/A2, free/);
    await key('End');
    expect(stop()).toMatch(/A8, free/);
    await key('Home');
    expect(stop()).toMatch(/Apple must/);
    expect(document.activeElement).toBe(cell(/^Apple must/));
  });

  test('jump to a name that is typed', async () => {
    await see();
    cell(/^Apple must/).focus();
    for (const letter of 'ves') await key(letter);
    expect(document.activeElement).toBe(cell(/^Vessel 2/));
  });

  test('press a vessel: it is chosen, and the panel tells it', async () => {
    await see();
    await fireEvent.click(cell(/^Apple must/));
    expect(cell(/^Apple must/).getAttribute('aria-selected')).toBe('true');
    expect(nav.current).toEqual({ place: 'shelves', vesselId: at.vesselId });
    expect(await panel().findByRole('heading', { name: 'Apple must' })).toBeTruthy();
    expect(panel().getByText(/80 % full/)).toBeTruthy();
  });

  test('press a free place: a vessel is put exactly there', async () => {
    await see();
    await fireEvent.click(cell(/^A2, free/));
    expect(acts.request).toEqual({ kind: 'addVessel', shelfId: at.shelfId, position: 2 });
  });

  test('Enter opens the leaf, Space adds to the selection, Esc takes it back', async () => {
    await see();
    cell(/^Apple must/).focus();
    await key('Home');
    await key(' ');
    cell(/^Vessel 2/).focus();
    await key(' ');
    expect(shelves.selected.size).toBe(2);
    expect(shelves.announcement).toBe('2 selected');
    expect(panel().getByRole('heading', { name: '2 vessels' })).toBeTruthy();
    await key('Escape');
    expect(shelves.selected.size).toBe(0);
    cell(/^Apple must/).focus();
    await key('Enter');
    expect(nav.current.place).toBe('leaf');
  });

  test('Ctrl+A chooses the shelf, then everything', async () => {
    await desk.write('addVessel', jar());
    await see();
    cell(/^Apple must/).focus();
    await key('a', { ctrlKey: true });
    expect(shelves.selected.size).toBe(2);
    await key('a', { ctrlKey: true });
    expect(shelves.selected.size).toBe(3);
  });

  test('an act is seen at once where the vessel stands, and undone again', async () => {
    await see();
    const result = await cellar.post({
      kind: 'moveVessel',
      vesselId: emptyId,
      shelfId: at.shelfId,
      position: 5,
    });
    expect(result.ok).toBe(true);
    await waitFor(() => {
      expect(cell(/^Vessel 2, Empty, 5 L jar\. A5\.$/)).toBeTruthy();
    });
    expect(cell(/^A3, free/)).toBeTruthy();
    await cellar.undo();
    await waitFor(() => {
      expect(cell(/^Vessel 2, Empty, 5 L jar\. A3\.$/)).toBeTruthy();
    });
  });

  test('a vessel that moves on changes its group', async () => {
    await see();
    shelves.group('stage');
    await waitFor(() => {
      expect(shelves.data.grouping).toBe('stage');
      expect(shelves.isComplete).toBe(true);
      expect(shelves.data.groups.map((group) => group.key)).toEqual(['empty', 'waiting']);
    });
    await cellar.post({ kind: 'changeStage', vesselId: at.vesselId, stage: 'held', reason: '' });
    await waitFor(() => {
      expect(shelves.data.groups.map((group) => group.key)).toEqual(['empty', 'held']);
      expect(shelves.data.spotOf(at.vesselId)).toEqual({ group: 1, slot: 0 });
    });
  });

  test('hundreds of vessels are read page by page, and few of them are in the page', async () => {
    for (let i = 0; i < 300; i++) await desk.write('addVessel', jar({ name: `Jar ${i}` }));
    await see();
    expect([...shelves.data.rows()]).toHaveLength(302);
    expect(screen.getAllByRole('gridcell').length).toBeLessThan(100);
    expect(Number(grid().getAttribute('aria-rowcount'))).toBeGreaterThan(30);
  }, 30_000);

  test('the address brings a vessel to the front', async () => {
    nav.replace({ place: 'shelves', vesselId: emptyId });
    await see();
    await waitFor(() => {
      expect(shelves.selected.has(emptyId)).toBe(true);
    });
    expect(document.activeElement).toBe(cell(/^Vessel 2/));
  });

  test('an address of a vessel that is gone says so', async () => {
    nav.replace({ place: 'shelves', vesselId: '01900000-0000-7000-8000-000000000000' as VesselId });
    await see();
    await waitFor(() => {
      expect(shelves.announcement).toMatch(/does not stand in this cellar/);
    });
  });

  test('a cellar without shelves says what belongs here and offers it', async () => {
    desk.close();
    desk = openDeskOn(join(scratch.folder, `${(count += 1)}.undercroft`));
    open.desk = desk;
    await see();
    expect(screen.getByText(/No shelf stands here yet/)).toBeTruthy();
    await fireEvent.click(screen.getByRole('button', { name: 'Add a place' }));
    expect(acts.request).toEqual({ kind: 'addPlace' });
    await fireEvent.click(screen.getByRole('button', { name: 'Add a shelf' }));
    expect(acts.request).toEqual({ kind: 'addShelf' });
  });

  test('a shelf with nothing says so and offers the one act', async () => {
    await cellar.load();
    const [place] = await desk.client.shelves.places();
    const placeId = place?.placeId;
    if (placeId === undefined) throw new Error('no place');
    const { shelfId } = await desk.write('addShelf', {
      kind: 'addShelf',
      placeId,
      name: 'low',
      positions: 4,
    });
    await see();
    await fireEvent.click(screen.getByRole('button', { name: /Nothing stands here yet/ }));
    expect(acts.request).toEqual({ kind: 'addVessel', shelfId, position: 1 });
    await fireEvent.click(screen.getByRole('button', { name: /Change shelf Pantry, low/ }));
    expect(acts.request).toEqual({ kind: 'editShelf', shelfId });
  });
});

describe('transfer', () => {
  const begin = async (): Promise<void> => {
    await see();
    cell(/^Apple must/).focus();
    shelves.moveTo({ group: 0, slot: 0 });
    await fireEvent.click(cell(/^Apple must/));
    await fireEvent.click(await panel().findByRole('button', { name: 'Transfer…' }));
  };

  test('press and press: a bar says what is going on, each vessel says whether it fits', async () => {
    await begin();
    expect(screen.getAllByText(/Press where it goes, or Esc/)[0]?.textContent).toMatch(
      /Transferring 4.L from Apple must/,
    );
    expect(cell(/^Vessel 2.*5 L free: transfer here\.$/)).toBeTruthy();
    await fireEvent.click(cell(/^Vessel 2/));
    expect(acts.request).toEqual({ kind: 'transfer', fromVesselId: at.vesselId, toVesselId: emptyId });
    expect(shelves.transferFrom).toBeNull();
  });

  test('the vessel itself is refused with a reason, and the choice goes on', async () => {
    await begin();
    await fireEvent.click(cell(/^Apple must/));
    expect(acts.request).toBeNull();
    expect(shelves.announcement).toBe('Apple must: The same vessel.');
    await fireEvent.click(cell(/^A2, free/));
    expect(shelves.announcement).toBe('No vessel stands there.');
    expect(shelves.transferFrom).not.toBeNull();
  });

  test('Tab goes to what suits, Enter takes it', async () => {
    await begin();
    cell(/^Apple must/).focus();
    await key('Tab');
    expect(document.activeElement).toBe(cell(/^Vessel 2/));
    await key('Enter');
    expect(acts.request).toEqual({ kind: 'transfer', fromVesselId: at.vesselId, toVesselId: emptyId });
  });

  test('begun from the panel it puts focus on the shelves, and lays nothing over them', async () => {
    await begin();
    await waitFor(() => {
      expect(grid().contains(document.activeElement)).toBe(true);
    });
    expect(shelves.drawerOpen).toBe(false);
  });

  test('goes by presses in the table too, and Esc puts it aside from anywhere', async () => {
    await begin();
    shelves.showAsTable(true);
    await tick();
    const table = within(screen.getByRole('region', { name: 'Vessels as a table' }));
    expect(table.getByText(/5.L free: transfer here/)).toBeTruthy();
    await fireEvent.keyDown(table.getByRole('button', { name: 'Vessel 2' }), { key: 'Escape' });
    expect(shelves.transferFrom).toBeNull();
    await fireEvent.click(table.getByRole('button', { name: 'Apple must' }));
    await fireEvent.click(await panel().findByRole('button', { name: 'Transfer…' }));
    await fireEvent.click(table.getByRole('button', { name: 'Vessel 2' }));
    expect(acts.request).toEqual({ kind: 'transfer', fromVesselId: at.vesselId, toVesselId: emptyId });
  });

  test('Esc or the button puts it aside and moves nothing', async () => {
    await begin();
    await fireEvent.click(screen.getByRole('button', { name: 'Put aside' }));
    expect(shelves.transferFrom).toBeNull();
    expect(shelves.announcement).toMatch(/Nothing was moved/);
  });
});

describe('the side panel', () => {
  const choose = async (name: RegExp): Promise<void> => {
    await see();
    await fireEvent.click(cell(name));
  };
  const press = async (name: string): Promise<void> => {
    await fireEvent.click(await panel().findByRole('button', { name }));
  };

  test('every button of a filled vessel opens its act', async () => {
    await choose(/^Apple must/);
    const vesselId = at.vesselId;
    const batchId = shelves.data.rowOf(vesselId)?.batchId;
    const opens: readonly [string, object][] = [
      ['Record a reading', { kind: 'reading', vesselId }],
      ['Move on', { kind: 'changeStage', vesselId }],
      ['Split…', { kind: 'split', fromVesselId: vesselId }],
      ['Blend…', { kind: 'blend', fromVesselIds: [vesselId] }],
      ['Draw and refill…', { kind: 'drawAndRefill', vesselId }],
      ['Taste…', { kind: 'taste', about: { kind: 'vessel', vesselId } }],
      ['Photos…', { kind: 'addPhotos', about: { kind: 'vessel', vesselId } }],
      ['Sample…', { kind: 'sample', vesselId }],
      ['Filter…', { kind: 'filter', vesselId }],
      ['Lend…', { kind: 'lendVessel', vesselId }],
      ['Note', { kind: 'note', about: { kind: 'batch', batchId } }],
      ['Pitch yeast', { kind: 'pitchYeast', vesselId }],
      ['Add a mother', { kind: 'seed', vesselId }],
      ['Add to it', { kind: 'addTo', vesselId }],
      ['Draw off', { kind: 'drawOff', vesselId }],
      ['Bottle', { kind: 'bottle', vesselId }],
      ['Discard', { kind: 'discard', vesselId }],
      ['Change cover', { kind: 'changeClosure', vesselId }],
      ['Move vessel', { kind: 'moveVessel', vesselId }],
      ['Edit vessel', { kind: 'editVessel', vesselId }],
    ];
    for (const [name, request] of opens) {
      await press(name);
      expect(acts.request).toEqual(request);
    }
    await press('Open leaf');
    expect(nav.current).toEqual({ place: 'leaf', batchId });
  });

  test('every button of an empty vessel opens its act, and none needs a filling', async () => {
    await choose(/^Vessel 2/);
    const vesselId = emptyId;
    const opens: readonly [string, object][] = [
      ['Start a batch', { kind: 'startBatch', vesselId }],
      ['Fill from…', { kind: 'transfer', toVesselId: vesselId }],
      ['Blend in it…', { kind: 'blend', toVesselId: vesselId }],
      ['Clean and rest…', { kind: 'cleanVessel', vesselId }],
      ['Photos…', { kind: 'addPhotos', about: { kind: 'vessel', vesselId } }],
      ['Note', { kind: 'note', about: { kind: 'vessel', vesselId } }],
      ['Change cover', { kind: 'changeClosure', vesselId }],
      ['Move vessel', { kind: 'moveVessel', vesselId }],
      ['Edit vessel', { kind: 'editVessel', vesselId }],
      ['Retire vessel', { kind: 'retireVessel', vesselId }],
    ];
    for (const [name, request] of opens) {
      await press(name);
      expect(acts.request).toEqual(request);
    }
    expect(panel().queryByRole('button', { name: 'Bottle' })).toBeNull();
    expect(panel().queryByRole('button', { name: 'Record a reading' })).toBeNull();
  });

  test('with sticky hands: the acts before the uses, what is due with its form, and a key of what stands there', async () => {
    await cellar.load();
    await cellar.settle({ ...cellar.rules, pantry: true });
    await choose(/^Apple must/);
    const record = await panel().findByRole('button', { name: 'Record a reading' });
    const uses = await panel().findByRole('heading', { name: 'What it may be used for' });
    expect(record.compareDocumentPosition(uses)).toBe(Node.DOCUMENT_POSITION_FOLLOWING);
    await press('Pitch…');
    expect(acts.request).toEqual({ kind: 'pitchYeast', vesselId: at.vesselId });
    acts.close();
    await press('Shut the side panel');
    const key = within(screen.getByRole('region', { name: 'Stage key' }));
    expect(
      key.getAllByRole('button').map((each) => each.textContent.replace(/[^A-Za-z ]/gu, '')),
    ).not.toContain('Quarantine');
    await cellar.settle({ ...cellar.rules, pantry: false });
    await waitFor(() => {
      expect(key.getByRole('button', { name: /^Quarantine/ })).toBeTruthy();
    });
  });

  test('tells of an empty vessel that it is clean, rests and is out, in the name too', async () => {
    const at = { vesselId: emptyId, note: '' } as const;
    await desk.post({ kind: 'cleanVessel', ...at, how: 'washed', restUntilMs: NOW + 5 * DAY }, NOW - 3 * DAY);
    await desk.post({ kind: 'lendVessel', ...at, holder: 'the neighbour' }, NOW - DAY);
    await choose(/^Vessel 2, Empty, 5 L jar, resting until .*30.*, with the neighbour\. A3\.$/);
    expect(cell(/^Vessel 2/).textContent).toMatch(/with the neighbour/);
    expect(await panel().findByText('washed 3 d ago')).toBeTruthy();
    expect(panel().getByText('until 2026-11-30')).toBeTruthy();
    expect(panel().getByText('the neighbour')).toBeTruthy();
    await press('Take it back…');
    expect(acts.request).toEqual({ kind: 'lendVessel', vesselId: emptyId });
  });

  test('several chosen are split or blended together', async () => {
    const other = (await desk.write('addVessel', jar({ shelfId: at.shelfId, position: 4 }))).vesselId;
    await choose(/^Apple must/);
    await fireEvent.click(cell(/^Vessel 2/), { ctrlKey: true });
    await fireEvent.click(cell(/^Vessel 3/), { ctrlKey: true });
    const split = { kind: 'split', fromVesselId: at.vesselId, toVesselIds: [emptyId, other] };
    await press('Split into 2…');
    expect(acts.request).toEqual(split);
    expect(panel().queryByRole('button', { name: /^Blend/ })).toBeNull();
    await desk.post(must(other, 2, 'Pear must'));
    acts.close();
    await cellar.load();
    cellar.fileRevision += 1;
    await waitFor(() => {
      expect(cell(/^Pear must/)).toBeTruthy();
    });
    await fireEvent.click(cell(/^Apple must/));
    await fireEvent.click(cell(/^Pear must/), { ctrlKey: true });
    await fireEvent.click(cell(/^Vessel 2/), { ctrlKey: true });
    await press('Blend 2…');
    expect(acts.request).toEqual({
      ...{ kind: 'blend', fromVesselIds: [at.vesselId, other], toVesselId: emptyId },
    });
  });

  test('a cover against the stage is told with its mend', async () => {
    await desk.post({ kind: 'changeStage', vesselId: at.vesselId, stage: 'yeast', reason: '' });
    await choose(/^Apple must, Yeast ferment, Held: open to air/);
    expect(await panel().findByText(/Close it with a water lock/)).toBeTruthy();
    const buttons = panel().getAllByRole('button', { name: 'Change cover' });
    await fireEvent.click(buttons[0] ?? document.body);
    expect(acts.request).toEqual({ kind: 'changeClosure', vesselId: at.vesselId });
  });

  test('a level that differs from the book is told with Settle', async () => {
    const nothing = {
      ...{ gravitySg: null, gravityInstrument: null, gravityCalibrationCelsius: null },
      ...{ temperatureCelsius: null, ph: null, phMethod: null, acidityGramsPer100Ml: null, acidityAs: null },
      ...{
        acidityMethod: null,
        acidityUncertainty: null,
        freeSulfiteMgPerL: null,
        alcoholPercentVolume: null,
      },
      taste: '',
    };
    await desk.post({
      kind: 'recordReading',
      vesselId: at.vesselId,
      values: { ...nothing, volumeUl: 3 * LITRE },
    });
    await choose(/^Apple must/);
    expect(await panel().findByText(/The level and the book differ/)).toBeTruthy();
    await press('Settle…');
    expect(acts.request).toEqual({ kind: 'settleVolume', vesselId: at.vesselId });
  });

  test('without a choice it lists what is late and due today, and leads there', async () => {
    await desk.post(must(emptyId, 3, 'Pear must'), NOW - 30 * DAY);
    await see();
    expect(panel().getByRole('heading', { name: 'Due now' })).toBeTruthy();
    await fireEvent.click(panel().getByRole('button', { name: /Pear must/ }));
    expect(await panel().findByRole('heading', { name: 'Pear must' })).toBeTruthy();
  });

  test('several: moved on together, and who could not is told with the reason', async () => {
    const third = await desk.write('addVessel', jar({ shelfId: at.shelfId, position: 4 }));
    await desk.post(must(third.vesselId, 2, 'Plum must'));
    await see();
    await fireEvent.click(cell(/^Apple must/));
    await fireEvent.click(cell(/^Plum must/), { ctrlKey: true });
    const stage = panel().getByLabelText('Move on to');
    await fireEvent.change(stage, { target: { value: 'settling' } });
    await fireEvent.click(panel().getByRole('button', { name: 'Move on 2' }));
    expect(await panel().findByText('Done for 2.')).toBeTruthy();
    await waitFor(() => {
      expect(cell(/^Plum must, Settling/)).toBeTruthy();
    });
  });

  test('several: a note without words is refused, one with words is kept on each', async () => {
    await see();
    shelves.selectGroup(0);
    await tick();
    await fireEvent.click(panel().getByRole('button', { name: 'Keep note on 2' }));
    expect(panel().getByText(/A note needs some words/)).toBeTruthy();
    await fireEvent.input(panel().getByLabelText('The same note for each'), {
      target: { value: 'moved the lamp' },
    });
    await fireEvent.click(panel().getByRole('button', { name: 'Keep note on 2' }));
    expect(await panel().findByText('Done for 2.')).toBeTruthy();
    const { entries } = await desk.client.ledger.entries({ about: null, beforeSequence: null, limit: 2 });
    expect(entries.map(({ act }) => (act.kind === 'note' ? act.text : ''))).toEqual([
      ...['moved the lamp', 'moved the lamp'],
    ]);
    await fireEvent.click(panel().getByRole('button', { name: 'Clear the selection' }));
    expect(shelves.selected.size).toBe(0);
  });
});

describe('the stage key', () => {
  test('filters by a press, says how many it found, and clears again', async () => {
    await see();
    await fireEvent.click(screen.getByRole('button', { name: /^Waiting/ }));
    expect(screen.getByRole('button', { name: /^Waiting/ }).getAttribute('aria-pressed')).toBe('true');
    expect(shelves.announcement).toBe('1 vessel in what is chosen');
    await fireEvent.click(screen.getByRole('button', { name: /^Held/ }));
    expect(screen.getByText(/No vessel is Held/)).toBeTruthy();
    await fireEvent.click(screen.getByRole('button', { name: 'Clear the filter' }));
    expect(shelves.filter.size).toBe(0);
  });
});

describe('the table', () => {
  test('has the same vessels, the same choice and the leaf', async () => {
    shelves.showAsTable(true);
    await see();
    const table = within(screen.getByRole('table'));
    expect(table.getAllByRole('row')).toHaveLength(4);
    await fireEvent.click(table.getByRole('button', { name: 'Apple must' }));
    expect(shelves.selected.has(at.vesselId)).toBe(true);
    await fireEvent.click(table.getByRole('link', { name: /leaf\s+of Apple must/ }));
    expect(nav.current.place).toBe('leaf');
  });

  test('shows two hundred at a time and more on demand', async () => {
    for (let i = 0; i < 220; i++) await desk.write('addVessel', jar({ name: `Jar ${i}` }));
    shelves.showAsTable(true);
    await see();
    await fireEvent.click(screen.getByRole('button', { name: 'Show 22 more' }));
    expect(screen.queryByRole('button', { name: /Show/ })).toBeNull();
    expect(screen.getByRole('button', { name: 'Jar 219' })).toBeTruthy();
  });
});

describe('the tools', () => {
  test('group, draw, size, table and add', async () => {
    await see();
    await fireEvent.click(screen.getByRole('radio', { name: 'Due' }));
    expect(shelves.grouping).toBe('due');
    await fireEvent.click(screen.getByRole('radio', { name: 'Close' }));
    expect(shelves.density).toBe('close');
    const zoom = shelves.zoom;
    await fireEvent.click(screen.getByRole('button', { name: 'Larger' }));
    expect(shelves.zoom).toBeCloseTo(zoom + 0.1, 9);
    await fireEvent.click(screen.getByRole('button', { name: 'Smaller' }));
    expect(shelves.zoom).toBeCloseTo(zoom, 9);
    await fireEvent.click(screen.getByRole('button', { name: 'As a table' }));
    expect(shelves.asTable).toBe(true);
    for (const [name, kind] of [
      ['A batch', 'startBatch'],
      ['A vessel', 'addVessel'],
      ['A shelf', 'addShelf'],
      ['A place', 'addPlace'],
      ['A mother, yeast or starter', 'addCulture'],
    ] as const) {
      await fireEvent.click(screen.getByRole('menuitem', { name, hidden: true }));
      expect(acts.request).toEqual({ kind });
    }
    await fireEvent.click(screen.getByRole('button', { name: 'Record a reading' }));
    expect(acts.request?.kind).toBe('reading');
  });
});
