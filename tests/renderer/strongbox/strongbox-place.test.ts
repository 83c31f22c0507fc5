import { cleanup, configure, fireEvent, render, screen, waitFor, within } from '@testing-library/svelte';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import type { VesselId } from '#core/ledger/ids.ts';
import { cellar } from '#renderer/cellar/cellar-state.svelte.ts';
import { houseRules } from '#renderer/house-rules/house-rules-state.svelte.ts';
import { bringingIn } from '#renderer/strongbox/bring-in-state.svelte.ts';
import { takingOut } from '#renderer/strongbox/take-out-state.svelte.ts';
import StrongboxView from '#renderer/strongbox/StrongboxView.svelte';
import { begun, openDeskOn, scratchFolder, type TestDesk } from '../../main/desk-for-tests.ts';
import '../jsdom-parts.ts';

const open: { desk: TestDesk | null } = { desk: null };
vi.mock('#renderer/backend/call.ts', () => ({
  client: new Proxy(
    {},
    { get: (_, capability) => Reflect.get(open.desk?.client ?? {}, capability) as unknown },
  ),
}));

// All the way to the file and back; a busy computer takes its time.
vi.setConfig({ testTimeout: 60_000 });
configure({ asyncUtilTimeout: 15_000 });
const scratch = scratchFolder();
let count = 0;
let vesselId: VesselId;
const saved: { name: string; text: Promise<string> }[] = [];
const kept: Blob[] = [];

beforeAll(() => {
  URL.createObjectURL = (blob) => `blob:${kept.push(blob as Blob) - 1}`;
  URL.revokeObjectURL = () => undefined;
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    const blob = kept[Number(this.href.replace('blob:', ''))];
    if (blob !== undefined) saved.push({ name: this.download, text: textOf(blob) });
  });
});
beforeEach(async () => {
  saved.length = 0;
  open.desk = openDeskOn(join(scratch.folder, `${(count += 1)}.undercroft`));
  ({ vesselId } = await begun(open.desk));
  await cellar.load();
  bringingIn.clear();
  takingOut.forget();
  render(StrongboxView);
});
afterEach(async () => {
  cleanup();
  await waitFor(() => {
    expect(bringingIn.busy).toBe(false);
  });
  open.desk?.close();
});
afterAll(() => {
  scratch.remove();
});

function textOf(blob: Blob): Promise<string> {
  return new Promise((resolve) => {
    const reader = new FileReader();
    reader.onload = () => {
      resolve(reader.result as string);
    };
    reader.readAsText(blob);
  });
}

const desk = (): TestDesk => {
  if (open.desk === null) throw new Error('no desk');
  return open.desk;
};
const card = (name: string) => within(screen.getByRole('region', { name }));
const out = () => card('Take out');
const inward = () => card('Bring in readings');
/** Chooses a line of a drop-down once it is there. */
async function choose(label: string, value: string): Promise<void> {
  const box = await screen.findByRole<HTMLSelectElement>('combobox', { name: label });
  await waitFor(() => {
    expect([...box.options].map((option) => option.value)).toContain(value);
  });
  await fireEvent.change(box, { target: { value } });
}
const paste = (text: string) =>
  fireEvent.input(screen.getByRole('textbox', { name: /paste the rows/ }), { target: { value: text } });
const press = async (name: string | RegExp) => fireEvent.click(await screen.findByRole('button', { name }));
const says = (text: string | RegExp) =>
  waitFor(() => {
    expect(screen.getAllByText(text).length).toBeGreaterThan(0);
  });
const readings = (): number =>
  desk()
    .app.desk.services.session.cellar.sqlite.prepare('SELECT COUNT(*) FROM reading')
    .pluck()
    .get() as number;

const PLAIN = 'date,vessel,pH\n2026-11-03,A1,3.41\n2026-11-04,A1,3.40\n';

describe('taking out', () => {
  test('all tables go into a new folder beside the cellar, as it is proposed', async () => {
    const field: HTMLInputElement = out().getByRole('textbox', { name: 'The new folder it goes into' });
    expect(field.value).toMatch(/cellar tables \d{4}-\d\d-\d\d$/);
    await press('Save it there');
    await says(/^Saved:/);
    expect(readdirSync(field.value)).toContain('readings.csv');
    await press('Save it there');
    await says(/is already there and was not overwritten/);
  });

  test('one table is handed to the window with or without its mark', async () => {
    await waitFor(() => {
      expect(out().getByRole('option', { name: /^Vessels, as CSV \(1 row\)$/ })).toBeTruthy();
    });
    await choose('What', 'vessels');
    await fireEvent.click(out().getByRole('checkbox', { name: 'Mark it as UTF-8 for spreadsheets' }));
    await press('Download it');
    await says(/^Handed to the window as vessels /);
    expect(saved[0]?.name).toMatch(/^vessels \d{4}-\d\d-\d\d\.csv$/);
    expect(await saved[0]?.text).toMatch(/^"id","number"/);
  });

  test('the whole book goes where it is told to, and nowhere is asked about', async () => {
    await choose('What', 'book');
    const field: HTMLInputElement = out().getByRole('textbox', { name: 'Where it goes' });
    await fireEvent.input(field, { target: { value: ' ' } });
    await press('Save it there');
    await says('Say where it goes.');
    const file = join(scratch.folder, `book-${count}.json`);
    await fireEvent.input(field, { target: { value: file } });
    await press('Save it there');
    await says(/^Saved:/);
    expect(JSON.parse(readFileSync(file, 'utf8'))).toMatchObject({ manifest: { cellarName: 'Test cellar' } });
  });
});

describe('bringing in', () => {
  test('pasted rows are shown as understood, come in, and go back by one press', async () => {
    await paste(PLAIN);
    await says('2 rows to bring in.');
    const rows = within(inward().getByRole('region', { name: 'The first rows as understood' }));
    expect(rows.getAllByText('comes in')).toHaveLength(2);
    await press('Bring in 2 readings');
    await says(/^2 readings brought in\. Undo takes all of them back/);
    expect(readings()).toBe(2);
    expect(cellar.undoState.undo).toMatchObject({ together: 2 });
    await press('Take back 2 readings');
    await says(/2 readings from pasted rows, taken back$/);
    expect(readings()).toBe(0);
  });

  test('what is not sure is asked, and settled by choosing', async () => {
    await paste('day;temp;TA\n03/11/2026;68;5,2\n');
    await says(/^Some dates can be read with the day or the month first/);
    expect(screen.getByRole<HTMLButtonElement>('button', { name: /^Bring in 0/ }).disabled).toBe(true);
    await choose('Dates', 'dayFirst');
    await choose('Vessel of all rows', vesselId);
    await choose('Unit of “temp”', '°F');
    await choose('Unit of “TA”', 'g/L');
    await says(/^Say which acid the acidity is counted as/);
    await choose('Acidity is counted as', 'acetic');
    await says('1 row to bring in.');
    await press('Bring in 1 reading');
    await says(/^1 reading brought in/);
  });

  test('a file is read, its name kept, and rows left out can be saved with their reasons', async () => {
    const text = 'date,vessel,SG\n2026-11-03,A1,1.010\n2026-11-04,A1,1.480\n2026-11-05,Z9,=1+1\n';
    const file = new File([text], 'my log.csv');
    // The window of the tests has no way to read a file whole.
    Object.defineProperty(file, 'arrayBuffer', {
      value: () => Promise.resolve(new TextEncoder().encode(text).buffer),
    });
    await fireEvent.change(screen.getByLabelText(/A file of comma-separated values/), {
      target: { files: [file] },
    });
    await says('1 row to bring in, 1 in doubt, 1 that cannot come in.');
    await press('Save the rows left out as CSV');
    expect(saved[0]?.name).toBe('rows not brought in.csv');
    const table = await saved[0]?.text;
    expect(table).toContain('3,"Gravity: “1.480” is outside 0.98 to 1.2 SG.');
    expect(table).toContain(`"'=1+1"`);
    await fireEvent.click(screen.getByRole('checkbox', { name: 'Bring in line 3 all the same' }));
    await says('2 rows to bring in, 1 that cannot come in.');
    await press('Bring in 2 readings');
    await says(/2 readings from my log\.csv/);
    await press('Put this table away');
    expect(screen.queryByRole('region', { name: 'The first rows as understood' })).toBeNull();
  });

  test('bytes that are no UTF-8 are read as Windows-1252, and that is said', async () => {
    const file = new File(['x'], 'old.csv');
    const bytes = Uint8Array.from(Buffer.from('date,vessel,taste\n2026-11-03,A1,caf\u00e9\n', 'latin1'));
    Object.defineProperty(file, 'arrayBuffer', { value: () => Promise.resolve(bytes.buffer) });
    await fireEvent.drop(screen.getByRole('group', { name: 'The table' }), {
      dataTransfer: { files: [file] },
    });
    await says(/was read as Windows-1252/);
    await says(/tasted: café/);
  });

  test('a table that is too large is not sent', async () => {
    await paste('x'.repeat(1_900_000));
    await says(/larger than 1\.8 MB/);
    expect(bringingIn.looked).toBeNull();
  });

  test('a column can be left out or be something else', async () => {
    await paste(PLAIN);
    await says('2 rows to bring in.');
    await choose('What “pH” is', '');
    await says('Say which column holds what was read.');
    await choose('What “pH” is', 'taste');
    await says('2 rows to bring in.');
    await fireEvent.click(screen.getByRole('checkbox', { name: 'The first row holds the headings' }));
    await says('Say which column tells when each reading was taken.');
  });

  test('is looked over anew when the book changes meanwhile', async () => {
    await paste(PLAIN);
    await says('2 rows to bring in.');
    await press('Bring in 2 readings');
    await says(/^2 readings brought in/);
    await paste(PLAIN);
    await says('0 rows to bring in, 2 in the book already.');
    await cellar.undo();
    await says('2 rows to bring in.');
  });
});

test('the copy and the check lie in House Rules, one press away', async () => {
  await press(/^Save a copy/);
  expect(houseRules.wantedField).toBe('save-copy-file');
  await press('Open another cellar');
  expect(houseRules.wantedField).toBe('open-cellar-file');
  await press('Check this cellar');
  expect(houseRules).toMatchObject({ open: true, wantedField: null });
  houseRules.open = false;
});
