import { cleanup, fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { join } from 'node:path';
import { BENCH } from '#core/reckonings/bench.ts';
import type { ReadingValues } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import BenchView from '#renderer/bench/BenchView.svelte';
import { EXAMPLES } from '#renderer/bench/examples.ts';
import { keptSheets } from '#renderer/bench/kept-sheets.svelte.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { nav } from '#renderer/navigation/navigation.svelte.ts';
import { sayReckoning } from '#renderer/words/reckoning-words.ts';
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
import { teachDialogs } from '../acts/acts-desk.ts';
import '../jsdom-parts.ts';

const open: { desk: TestDesk | null } = { desk: null };
vi.mock('#renderer/backend/call.ts', () => ({
  client: new Proxy(
    {},
    { get: (_, capability) => Reflect.get(open.desk?.client ?? {}, capability) as unknown },
  ),
}));

const scratch = scratchFolder();
let count = 0;
let vesselId: VesselId;
const faults: unknown[] = [];

const NOTHING: ReadingValues = {
  ...{ gravitySg: null, gravityInstrument: null, gravityCalibrationCelsius: null, temperatureCelsius: null },
  ...{ ph: null, phMethod: null, acidityGramsPer100Ml: null, acidityAs: null, acidityMethod: null },
  ...{ acidityUncertainty: null, volumeUl: null, freeSulfiteMgPerL: null, alcoholPercentVolume: null },
  taste: '',
};

beforeAll(() => {
  teachDialogs();
  vi.spyOn(console, 'error').mockImplementation((...said: unknown[]) => void faults.push(said));
});
beforeEach(async () => {
  localStorage.clear();
  faults.length = 0;
  open.desk = openDeskOn(join(scratch.folder, `${(count += 1)}.undercroft`));
  ({ vesselId } = await begun(open.desk));
});
afterEach(() => {
  cleanup();
  open.desk?.close();
  expect(faults).toEqual([]);
});
afterAll(() => {
  scratch.remove();
});

const desk = (): TestDesk => {
  if (open.desk === null) throw new Error('no desk');
  return open.desk;
};
const reading = (values: Partial<ReadingValues>, daysAgo: number) =>
  desk().write(
    'recordReading',
    { kind: 'recordReading', vesselId, values: { ...NOTHING, ...values } },
    NOW - daysAgo * DAY,
  );

async function bench(reckoning?: string, of?: VesselId): Promise<void> {
  await cellar.load();
  nav.current = { place: 'bench', reckoning, vesselId: of };
  render(BenchView);
  if (reckoning === undefined) return;
  await waitFor(() => {
    expect(document.getElementById('reckoning-name')?.textContent).toBe(sayReckoning(reckoning).name);
  });
}
const field = (label: string): HTMLInputElement =>
  screen.getByRole('textbox', { name: new RegExp(`^${label}(?: \\(may stay empty\\))?$`, 'u') });
const type = (label: string, text: string) => fireEvent.input(field(label), { target: { value: text } });
const answer = () => within(screen.getByRole('region', { name: 'Answer' }));
/** The paper holds the same words for the printer alone. */
const asked = () => within(screen.getByRole('region', { name: 'From' }));
const press = (name: string | RegExp) => fireEvent.click(screen.getByRole('button', { name }));

describe('working something out', () => {
  test.each(BENCH.map(({ id }) => id))(
    '%s opens, takes its example and shows all that comes out',
    async (id) => {
      await bench(id);
      await press('Show an example');
      await waitFor(() => {
        expect(answer().getAllByRole('definition').length).toBeGreaterThan(0);
      });
      expect(screen.getByRole('region', { name: 'The working' }).textContent).not.toContain('undefined');
      expect(document.body.textContent).not.toMatch(/NaN|undefined|\[object/u);
      const shown = Object.values(EXAMPLES[id] ?? {}).filter((text) => /^\d/u.test(text));
      for (const text of shown) expect(screen.getAllByDisplayValue(text).length).toBeGreaterThan(0);
      await press('Start afresh');
      expect(screen.getByRole('button', { name: 'Show an example' })).toBeTruthy();
    },
  );

  test('the answer follows the typing, and what is missing can be pressed', async () => {
    await bench('diluteToStrength');
    await fireEvent.click(answer().getByRole('link', { name: 'Acidity' }));
    expect(document.activeElement).toBe(field('Acidity'));
    await type('How much there is', '4.5 L');
    await type('Acidity', '6.4');
    expect(answer().getByText('831 ml')).toBeTruthy();
    await fireEvent.change(screen.getByRole('combobox', { name: 'Unit of Water to add, on the safe side' }), {
      target: { value: 'fl oz' },
    });
    expect(answer().getByText('28.1 fl oz')).toBeTruthy();
    const cautions = within(screen.getByRole('region', { name: 'Cautions' }));
    expect(cautions.getByText('Rule CAN-01')).toBeTruthy();
  });

  test('bad input is named in words and loses nothing', async () => {
    await bench('diluteToStrength');
    await type('How much there is', '4.5');
    await waitFor(() => expect(screen.getByText(/“4\.5” of what\? Write the unit too/u)).toBeTruthy());
    await press(/Use 4\.5 L/u);
    expect(field('How much there is').value).toBe('4.5 L');
    await type('Acidity', '64 %');
    await waitFor(() => expect(screen.getByText(/64 % .*Did you mean/u)).toBeTruthy());
    expect(field('Acidity').value).toBe('64 %');
    await type('Acidity', '4.1');
    expect(answer().getByText(/Add no water/u)).toBeTruthy();
  });

  test('a number outside its range says which range, at the field', async () => {
    await bench('titration');
    await type('Sample', '10 ml');
    await type('Strength of the hydroxide', '5');
    await type('Hydroxide used', '17');
    await waitFor(() => expect(screen.getByText(/5 lies outside 0\.001 to 2/u)).toBeTruthy());
    await type('Strength of the hydroxide', '0,5');
    expect(answer().getAllByRole('definition').length).toBeGreaterThan(2);
  });

  test('what is typed is still there after leaving and coming back', async () => {
    await bench('convertUnits');
    await type('Volume', '3 gal');
    cleanup();
    await bench('convertUnits');
    expect(field('Volume').value).toBe('3 gal');
  });

  test('the list finds, and Enter opens the first', async () => {
    nav.start();
    await bench();
    await fireEvent.input(screen.getByRole('searchbox', { name: 'Find a reckoning' }), {
      target: { value: 'titrat' },
    });
    expect(screen.getByText(/Enter opens Titration/u)).toBeTruthy();
    await fireEvent.keyDown(screen.getByRole('searchbox'), { key: 'Enter' });
    expect(nav.current).toMatchObject({ place: 'bench', reckoning: 'titration' });
    await fireEvent.input(screen.getByRole('searchbox'), { target: { value: 'zebra' } });
    expect(screen.getByText(/Nothing called “zebra”/u)).toBeTruthy();
  });

  test('a sheet is kept by name and laid out again', async () => {
    nav.start();
    await bench('convertUnits');
    await type('Volume', '3 gal');
    await press(/^Keep/u);
    await fireEvent.input(await screen.findByRole('textbox', { name: 'Name' }), {
      target: { value: 'Big pot' },
    });
    await fireEvent.submit(screen.getByRole('textbox', { name: 'Name' }));
    expect(keptSheets.sheets.map(({ name }) => name)).toEqual(['Big pot']);
    await type('Volume', '9 L');
    await press(/^Big pot/u);
    await waitFor(() => expect(field('Volume').value).toBe('3 gal'));
    await press('Take Big pot off the bench');
    await press('Lay it back');
    expect(keptSheets.sheets.map(({ name }) => name)).toEqual(['Big pot']);
  });

  test('Copy puts the whole on the clipboard', async () => {
    const written: string[] = [];
    Object.defineProperty(navigator, 'clipboard', {
      configurable: true,
      value: { writeText: (text: string) => void written.push(text) },
    });
    await bench('diluteToStrength');
    await press(/^Copy/u);
    expect(screen.getByText('There is no answer yet. Fill in the fields first.')).toBeTruthy();
    await press('Show an example');
    await press(/^Copy/u);
    await waitFor(() => expect(written).toHaveLength(1));
    const [text = ''] = written;
    for (const part of [
      'Dilute a vinegar',
      'How much there is: 4.5 L',
      '831 ml',
      'rule CAN-01',
      'The working',
      'Sources',
    ]) {
      expect(text).toContain(part);
    }
    Reflect.deleteProperty(navigator, 'clipboard');
  });
});

describe('for a vessel', () => {
  const stands = async (): Promise<void> => {
    await reading({ acidityGramsPer100Ml: 6.4, acidityAs: 'acetic', acidityMethod: 'burette' }, 2);
  };

  test('its readings fill the fields, with the day, and may be changed and put back', async () => {
    await stands();
    await bench('diluteToStrength', vesselId);
    await waitFor(() => expect(field('Acidity').value).toBe('6.4 % as acetic'));
    expect(field('How much there is').value).toBe('4 L');
    expect(asked().getByText('Read off this vessel, 2026-11-23, 2 d ago.')).toBeTruthy();
    expect(screen.getByRole<HTMLSelectElement>('combobox', { name: /^Measured by/u }).value).toBe(
      'taBurette',
    );
    await type('Acidity', '7 %');
    expect(asked().getByText(/What if: the vessel says 6\.4 % as acetic/u)).toBeTruthy();
    await press('Put it back, Acidity');
    expect(field('Acidity').value).toBe('6.4 % as acetic');
  });

  test('a reading from before something went in is called stale', async () => {
    await stands();
    await desk().post(
      {
        kind: 'addTo',
        vesselId,
        what: 'water',
        ingredient: { name: 'water', amountTyped: '200 ml', massUg: null },
        volumeUl: 200_000,
      },
      NOW - DAY,
    );
    await bench('diluteToStrength', vesselId);
    await waitFor(() => expect(asked().getByText(/Stale: something went in on 2026-11-24/u)).toBeTruthy());
    expect(
      screen.getByText('A reading this rests on is stale. Measure again before you carry it out.'),
    ).toBeTruthy();
  });

  test('the plan is shown, then carried out as one line that can be undone', async () => {
    await stands();
    await bench('diluteToStrength', vesselId);
    await waitFor(() => expect(field('How much').value).toBe('970 ml'));
    await waitFor(() => expect(screen.getByRole('region', { name: 'Plan' }).textContent).toContain('4.97'), {
      timeout: 3000,
    });
    await press('Add this water');
    await screen.findByText('Written into the book. Measure again.');
    const { entries } = await desk().client.ledger.entries({ about: null, beforeSequence: null, limit: 1 });
    expect(entries[0]?.act).toMatchObject({ kind: 'addTo', what: 'water', volumeUl: 970_000 });
    expect(entries[0]?.typed['amount']).toBe('970 ml');
    await cellar.undo();
    await waitFor(() => expect(screen.getByRole('button', { name: 'Add this water' })).toBeTruthy());
  });

  test('what does not fit is refused in words, and the amount stays', async () => {
    await stands();
    await bench('diluteToStrength', vesselId);
    await waitFor(() => expect(field('How much').value).toBe('970 ml'));
    await type('How much', '3 L');
    await press('Add this water');
    expect((await screen.findAllByText(/has room for 1\s?L; 3\s?L does not fit/u)).length).toBeGreaterThan(0);
    expect(field('How much').value).toBe('3 L');
  });

  test('sugar goes in by its weight, and the level rises by what it takes up', async () => {
    await reading(
      {
        gravitySg: 1.048,
        gravityInstrument: 'hydrometer',
        gravityCalibrationCelsius: 20,
        temperatureCelsius: 20,
      },
      1,
    );
    await bench('sugarToAdd', vesselId);
    await waitFor(() => expect(field('Gravity').value).toContain('1.048'));
    await type('Gravity wanted', '1.060');
    await waitFor(() => expect(field('How much').value).toMatch(/^1\d\d g$/u));
    expect(field('The level rises by').value).toMatch(/ml$/u);
    await press('Add this sugar');
    await screen.findByText('Written into the book. Measure again.');
    const { entries } = await desk().client.ledger.entries({ about: null, beforeSequence: null, limit: 1 });
    expect(entries[0]?.act).toMatchObject({ kind: 'addTo', what: 'sugar' });
    const act = entries[0]?.act;
    if (act?.kind !== 'addTo') throw new Error('another act');
    expect(act.ingredient.massUg).toBeGreaterThan(100_000_000);
    // Dissolved sucrose takes up about 0.62 mL a gram.
    expect(act.volumeUl / ((act.ingredient.massUg ?? 0) / 1e6)).toBeGreaterThan(500);
    expect(act.volumeUl / ((act.ingredient.massUg ?? 0) / 1e6)).toBeLessThan(750);
  });

  test('seeding takes a culture and its jar', async () => {
    const jarId = (await desk().write('addVessel', jar({ name: 'Mother jar' }))).vesselId;
    const added = await desk().write('addCulture', {
      ...{
        kind: 'addCulture',
        name: 'Old Bess',
        sort: 'mother',
        source: '',
        note: '',
        parentCultureId: null,
      },
      standing: { vesselId: jarId, volumeUl: 2 * LITRE },
    });
    await reading({ alcoholPercentVolume: 6 }, 1);
    await bench('seedMother', vesselId);
    await waitFor(() => expect(screen.getByDisplayValue('6 % vol')).toBeTruthy());
    await type('Seed, acidity', '5.4 %');
    await type('Base, acidity', '0.7 %');
    await screen.findByRole('option', { name: /Old Bess/u });
    await fireEvent.change(screen.getByRole('combobox', { name: 'Culture' }), {
      target: { value: added.cultureId },
    });
    await waitFor(() => expect(screen.getByDisplayValue(/not placed/u)).toBeTruthy());
    await press('Seed with this much');
    await screen.findByText('Written into the book. Measure again.');
    const { entries } = await desk().client.ledger.entries({ about: null, beforeSequence: null, limit: 1 });
    expect(entries[0]?.act).toMatchObject({
      kind: 'seed',
      vesselId,
      cultureId: added.cultureId,
      fromVesselId: jarId,
      toStage: 'vinegar',
    });
  });

  test('the check before sealing takes the two newest readings and the hours between', async () => {
    const gravity = {
      gravityInstrument: 'hydrometer',
      gravityCalibrationCelsius: 20,
      temperatureCelsius: 18,
    } as const;
    await reading({ gravitySg: 1.001, ...gravity }, 4);
    await reading({ gravitySg: 1, ...gravity }, 1);
    await bench('sealedBottle', vesselId);
    await waitFor(() => expect(screen.getByDisplayValue('1.001 SG')).toBeTruthy());
    expect(screen.getByDisplayValue('1 SG')).toBeTruthy();
    expect(screen.getByDisplayValue('72')).toBeTruthy();
    expect(screen.getByDisplayValue('24')).toBeTruthy();
  });

  test('without a reckoning it says what can be worked out for it', async () => {
    await stands();
    await bench(undefined, vesselId);
    const opening = await screen.findByRole('region', { name: 'Work something out for this vessel' });
    expect(await within(opening).findByRole('button', { name: /Dilute a vinegar/u })).toBeTruthy();
    const others = within(opening).getByText('The others');
    const dilute = within(opening).getByRole('button', { name: /Dilute a vinegar/u });
    const gravities = within(opening).getByRole('button', { name: /Alcohol from gravities/u });
    expect(others.compareDocumentPosition(dilute)).toBe(Node.DOCUMENT_POSITION_PRECEDING);
    expect(others.compareDocumentPosition(gravities)).toBe(Node.DOCUMENT_POSITION_FOLLOWING);
  });

  test('a vessel that is gone is said to be gone', async () => {
    await bench('diluteToStrength', '018f3a5c-7b1e-7c22-9d3f-0a1b2c3d4e5f' as VesselId);
    expect(await screen.findByText(/not in the cellar any more/u)).toBeTruthy();
    await type('How much there is', '1 L');
    await type('Acidity', '6');
    expect(answer().getAllByRole('definition').length).toBeGreaterThan(0);
  });
});

describe('harvest day', () => {
  test('lays the juice out over the vessels that stand empty and says what is short', async () => {
    await desk().write('addVessel', jar({ name: 'Tub', capacityUl: 20 * LITRE }));
    await desk().write('addVessel', jar({ name: 'Keg', capacityUl: 30 * LITRE }));
    const full = await desk().write('addVessel', jar({ name: 'Full one', capacityUl: 40 * LITRE }));
    await desk().post(must(full.vesselId, 30, 'Pear must'));
    await bench('expectedYield');
    await type('Fruit', '100 kg');
    const part = within(await screen.findByRole('region', { name: 'Into my empty vessels' }));
    // 100 kg of apples give 70 L at most (common practice); 50 L of vessels with a tenth left hold 45.
    await waitFor(() => expect(part.getByText(/^25\sL has no vessel/u)).toBeTruthy());
    expect(part.getAllByRole('listitem')).toHaveLength(2);
    expect(part.queryByText(/Full one/u)).toBeNull();
    await fireEvent.click(part.getByRole('radio', { name: /^the least/u }));
    expect(part.getByText(/^5\sL has no vessel/u)).toBeTruthy();
    await type('Fruit', '20 kg');
    expect(part.queryByText(/has no vessel/u)).toBeNull();
    expect(part.getAllByRole('listitem')).toHaveLength(1);
  });
});
