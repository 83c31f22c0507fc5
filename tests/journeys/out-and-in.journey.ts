import { AxeBuilder } from '@axe-core/playwright';
import type { Locator, Page } from '@playwright/test';
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from './program.ts';
import { field, press, said, seeFocus } from './keeper.ts';

/** Taking the cellar out as tables and as a whole, and bringing readings in from a table. */

const card = (page: Page, name: string): Locator => page.getByRole('region', { name, exact: true });
const out = (page: Page): Locator => card(page, 'Take out');
const inward = (page: Page): Locator => card(page, 'Bring in readings');
const seeStatus = (within: Locator, words: RegExp | string): Promise<void> =>
  expect(within.getByRole('status')).toContainText(words);

/** Waits until the bar at the foot says so; the card has a status of its own. */
const seeDone = (page: Page, words: RegExp): Promise<void> =>
  expect(page.getByRole('status').last()).toHaveText(words);

async function toStrongbox(page: Page): Promise<void> {
  await expect(page.getByRole('grid')).toBeVisible();
  await page.keyboard.press('Control+7');
  await expect(page.getByRole('heading', { name: 'Strongbox', level: 1 })).toBeVisible();
  await expect(out(page)).toBeVisible();
}

test('by mouse: tables, the book, and a log with everything that can be wrong in it', async ({
  page,
  program,
}) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await toStrongbox(page);
  const folder = join(dirname(program.file), 'taken out');
  mkdirSync(folder);

  await test.step('all tables go into a new folder, and never over one', async () => {
    await press(out(page), 'Save it there');
    await expect(out(page).getByText('Say where it goes.')).toBeVisible();
    await field(out(page), 'The new folder it goes into').fill(join(folder, 'tables'));
    await press(out(page), 'Save it there');
    await seeStatus(out(page), /^Saved: /);
    expect(readdirSync(join(folder, 'tables'))).toContain('readings.csv');
    await press(out(page), 'Save it there');
    await expect(out(page).getByText(/is already there and was not overwritten/)).toBeVisible();
  });

  await test.step('one table and the whole book are handed to the window', async () => {
    await out(page).getByRole('combobox', { name: 'What' }).selectOption('readings');
    const table = page.waitForEvent('download');
    await press(out(page), 'Download it');
    const readings = await table;
    expect(readings.suggestedFilename()).toMatch(/^readings \d{4}-\d\d-\d\d\.csv$/);
    expect(readFileSync(await readings.path(), 'utf8')).toMatch(/^\uFEFF"id","vessel_id","vessel_number"/);
    await out(page).getByRole('combobox', { name: 'What' }).selectOption('book');
    const book = page.waitForEvent('download');
    await press(out(page), 'Download it');
    expect(JSON.parse(readFileSync(await (await book).path(), 'utf8'))).toHaveProperty('entries');
    await seeStatus(out(page), /^Handed to the window as cellar book/);
  });

  await test.step("the cellar's own readings are known again when they are brought in", async () => {
    await inward(page)
      .getByLabel('A file of comma-separated values, or drop it here')
      .setInputFiles(join(folder, 'tables', 'readings.csv'));
    await seeStatus(inward(page), /^0 rows to bring in, [\d,]+ in the book already\.\s*$/);
    await press(inward(page), 'Put this table away');
  });

  await test.step('what is not sure is asked, and nothing comes in before it is settled', async () => {
    const log = join(folder, 'log.csv');
    writeFileSync(
      log,
      'Date;Jar;SG;Temp\r\n20/11/2026;#1;1,012;20\r\n21/11/2026;#1;1,120;20\r\n22/11/2026;#1;1,011;68\r\n22/11/2026;Z99;1,010;19\r\n',
    );
    await inward(page).getByLabel('A file of comma-separated values, or drop it here').setInputFiles(log);
    await expect(inward(page).getByText(/Say which unit the column is in/)).toBeVisible();
    await expect(inward(page).getByRole('button', { name: /^Bring in 0/ })).toBeDisabled();
    await inward(page).getByRole('combobox', { name: 'Unit of “Temp”' }).selectOption('°C');
    await seeStatus(inward(page), /in doubt, 1 that cannot come in/);
    await expect(inward(page).getByText(/No vessel is called “Z99”/)).toBeVisible();
    await expect(inward(page).getByText(/It looks like °F taken for °C/)).toBeVisible();
  });

  await test.step('the rows left out can be kept, with why', async () => {
    const kept = page.waitForEvent('download');
    await press(inward(page), 'Save the rows left out as CSV');
    const rows = readFileSync(await (await kept).path(), 'utf8')
      .split('\r\n')
      .filter((row) => row !== '');
    expect(rows[0]).toBe('\uFEFF"line","reason","Date","Jar","SG","Temp"');
    expect(rows.at(-1)).toMatch(/^5,"No vessel is called “Z99”/);
  });

  await test.step('the rest comes in, and one Undo takes all of it back', async () => {
    await inward(page)
      .getByRole('checkbox', { name: /^Bring in line 4 all the same/ })
      .check();
    await press(inward(page), /^Bring in 3 readings/);
    await seeStatus(inward(page), /^3 readings brought in\. Undo takes all of them back/);
    await seeDone(page, /^3 readings brought in\.$/);
    await page.getByRole('button', { name: /^Undo/ }).last().click();
    await seeDone(page, /^Taken back: 3 readings brought in\.$/);
    await expect(inward(page).getByText(/readings from log\.csv, taken back$/)).toBeVisible();
    await page.keyboard.press('Control+Shift+Z');
    await expect(inward(page).getByRole('button', { name: /^Take back 3 readings/ })).toBeVisible();
    await press(inward(page), /^Take back/);
    await seeDone(page, /^Struck through: 3 readings brought in\.$/);
  });

  await test.step('nothing in the place stands in the way of a reader of screens', async () => {
    const { violations } = await new AxeBuilder({ page }).include('#main').analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
  });
});

test('by keys alone: paste, settle, bring in, take back', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await toStrongbox(page);
  const paste = inward(page).getByRole('textbox', { name: 'Or paste the rows, headings first' });
  const tabTo = async (wanted: Locator): Promise<void> => {
    for (let steps = 0; steps < 60; steps += 1) {
      if (await wanted.evaluate((element) => element === document.activeElement)) break;
      await page.keyboard.press('Tab');
    }
    await expect(wanted).toBeFocused();
    await seeFocus(page);
  };

  await tabTo(paste);
  await page.keyboard.insertText('day,vessel,pH\n10/11/2026,#1,3.41\n11/11/2026,#1,3.40\n');
  await expect(inward(page).getByText(/Say which comes first/)).toBeVisible();
  const dates = inward(page).getByRole('combobox', { name: 'Dates' });
  await tabTo(dates);
  await page.keyboard.type('Day');
  await page.keyboard.press('Enter');
  await seeStatus(inward(page), said('2 rows to bring in.'));
  const bring = inward(page).getByRole('button', { name: 'Bring in 2 readings' });
  await tabTo(bring);
  await page.keyboard.press('Enter');
  await seeDone(page, /^2 readings brought in\.$/);
  await page.keyboard.press('Escape');
  await inward(page).getByRole('heading', { name: 'Brought in before' }).scrollIntoViewIfNeeded();
  await page.keyboard.press('Control+z');
  await seeDone(page, /^Taken back: 2 readings brought in\.$/);

  await test.step('a backup is one key away', async () => {
    await tabTo(card(page, 'Back up').getByRole('button', { name: 'Back up now' }));
    await page.keyboard.press('Enter');
    await expect(card(page, 'Back up').getByText(/^Backed up and proven/)).toBeVisible({ timeout: 30_000 });
  });
});
