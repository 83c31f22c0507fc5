import Database from 'better-sqlite3';
import type { Locator, Page } from '@playwright/test';
import { copyFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from './program.ts';
import {
  beginCellar,
  carryOut,
  choice,
  chooseOnShelf,
  field,
  fill,
  onShelf,
  press,
  putVessel,
  said,
  seeDone,
  segment,
  sheet,
} from './keeper.ts';

test.beforeEach(async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open();
  await beginCellar(page, { name: 'Orchard cellar', shelves: 1, positions: 4 });
  await putVessel(page, 'A1', { shape: 'Demijohn', holds: '5 L' });
  await press(await chooseOnShelf(page, /^Vessel 1/), 'Start a batch');
  const form = sheet(page, 'Start a batch');
  await field(form, 'Name').fill('Windfall cider');
  await choice(form, 'What it is').selectOption('Cider');
  await fill(form, {
    'How much': '4.5 L',
    'Sugar, as gravity or Brix': '1.048',
    'Temperature of the sample': '20 C',
  });
  await carryOut(form, 'Start it');
});

test('measures, theme and keys change what is shown, and nothing that is kept', async ({ page }) => {
  const vessel = onShelf(page, /^Windfall cider/);
  await expect(vessel).toHaveAccessibleName(/, 5 L demijohn, 90 % full, gravity 1\.048/);
  const before = (await vessel.locator('.visually-hidden').innerText()).trim();

  await test.step('US measures, Fahrenheit and Brix, on the shelf and in the book', async () => {
    await withRules(page, async (rules) => {
      await segment(rules, 'Volume', 'US gallons').check();
      await segment(rules, 'Warmth', '°F').check();
      await segment(rules, 'Gravity', '°Bx').check();
      await segment(rules, 'Dates in sentences', /^\d+ \p{L}+ \d{4}$/u).check();
      await expect(field(rules, 'Your hydrometer is marked for')).toHaveValue(said('68.0 °F'));
    });
    await expect(vessel).toHaveAccessibleName(/, 1\.32 gal demijohn, 90 % full, gravity 11\.9 °Bx/);
    await vessel.click();
    await page.keyboard.press('Enter');
    const days = page.getByRole('region', { name: 'Days' });
    await expect(days).toContainText(said('1.19 gal'));
    await days
      .getByText(/^\d\d:\d\d, details of/)
      .first()
      .click();
    await expect(days.getByText(said('How much: “4.5 L”')).or(days.getByText('4.5 L')).first()).toBeVisible();
    await page.keyboard.press('Alt+ArrowLeft');
  });

  await test.step('a bare number is read in the measures of the house, and any other may be typed', async () => {
    await vessel.click();
    await page.keyboard.press('r');
    const form = sheet(page, 'Record a reading');
    await fill(form, { 'Temperature of the sample': '70' });
    await expect(form.getByText(said('70 °F'))).toBeVisible();
    await fill(form, { 'Temperature of the sample': '21 C', Gravity: '1.046' });
    await expect(form.getByText(said('69.8 °F')).first()).toBeVisible();
    await page.keyboard.press('Escape');
  });

  await test.step('back to the first measures: the very same words', async () => {
    await withRules(page, async (rules) => {
      await segment(rules, 'Volume', 'Litres').check();
      await segment(rules, 'Warmth', '°C').check();
      await segment(rules, 'Gravity', 'SG').check();
    });
    await expect(vessel).toHaveAccessibleName(before);
  });

  await test.step('dark and light', async () => {
    for (const [theme, isDark] of [
      ['Dark', true],
      ['Light', false],
    ] as const) {
      await withRules(page, (rules) => segment(rules, 'Theme', theme).check());
      await expect.poll(() => page.evaluate(groundIsDark)).toBe(isDark);
    }
    await page.reload();
    await expect(vessel).toBeVisible();
    expect(await page.evaluate(groundIsDark)).toBe(false);
  });

  await test.step('single letters off and on', async () => {
    const reading = sheet(page, 'Record a reading');
    await withRules(page, (rules) => rules.getByRole('checkbox', { name: 'Single letters act' }).uncheck());
    await vessel.click();
    await page.keyboard.press('r');
    await expect(reading).toBeHidden();
    await page.keyboard.press('F1');
    await expect(
      sheet(page, 'Keys').getByText('Single letters are switched off in House Rules.'),
    ).toBeVisible();
    await page.keyboard.press('Escape');
    await withRules(page, (rules) => rules.getByRole('checkbox', { name: 'Single letters act' }).check());
    await vessel.click();
    await page.keyboard.press('r');
    await expect(reading).toBeVisible();
    await page.keyboard.press('Escape');
  });

  await test.step('the hydrometer’s mark and the name of the cellar, with their mistakes', async () => {
    await withRules(page, async (rules) => {
      const mark = field(rules, 'Your hydrometer is marked for');
      await type(mark, 'warm');
      await expect(
        rules.getByText('This is not read as a temperature. Type what the hydrometer says'),
      ).toBeVisible();
      await type(mark, '90 C');
      await expect(rules.getByText(said('A hydrometer is marked for 0 to 40 °C'))).toBeVisible();
      await type(mark, '60 F');
      await expect(mark).toHaveValue(said('15.6 °C'));
      const name = field(rules, 'Name');
      await type(name, ' ');
      await expect(rules.getByText('Say what the cellar is called.')).toBeVisible();
      await type(name, 'Mill cellar');
    });
    await expect(page.getByRole('navigation', { name: 'Places' })).toContainText('Mill cellar');
    await expect(page).toHaveTitle(/Undercroft/);
  });
});

test('a copy is saved and opened, the cellar is checked, and what is no cellar is told plainly', async ({
  page,
  program,
}) => {
  const folder = dirname(program.file);
  const copy = join(folder, 'copy.undercroft');

  await test.step('a copy, with its mistakes', async () => {
    await withRules(page, async (rules) => {
      const where = field(rules, 'Where the copy goes');
      const save = (file: string): Promise<void> => where.fill(file).then(() => press(rules, 'Save a copy'));
      for (const [file, says] of [
        ['', 'Say where the copy goes.'],
        [join(folder, 'no', 'such', 'copy.undercroft'), 'The folder of … is not there. Check the path'],
        [program.file, '…already there and was not overwritten. Choose another name.'],
      ] as const) {
        await save(file);
        await expect(rules.getByRole('region', { name: 'This cellar' })).toContainText(said(says));
        await expect(where).toHaveValue(file);
      }
      await save(copy);
      await expect(rules.getByRole('status').filter({ hasText: 'Saved:' })).toContainText(copy);
    });
    expect(existsSync(copy)).toBe(true);
  });

  await test.step('the check adds up', async () => {
    await withRules(page, async (rules) => {
      await press(rules, 'Check this cellar');
      await expect(
        rules.getByText(
          said('The file is whole, the … lines of the book add up, and the shelf is what the book says.'),
        ),
      ).toBeVisible();
    });
  });

  await test.step('the copy is opened and lives on its own', async () => {
    await open(page, copy);
    await expect(onShelf(page, /^Windfall cider, Waiting/)).toBeVisible();
    await press(await chooseOnShelf(page, /^Windfall cider/), 'Pitch yeast');
    const form = sheet(page, 'Pitch yeast');
    await field(form, 'What is on the packet').fill('Cider yeast');
    await carryOut(form, 'Pitch it');
    await seeDone(page, 'Pitched Cider yeast…');
    await open(page, program.file);
    await expect(onShelf(page, /^Windfall cider, Waiting/)).toBeVisible();
  });

  await test.step('the sample, and home again', async () => {
    await press(await rulesByKey(page), 'Look around the sample cellar');
    await expect(onShelf(page, /^Damson wine/)).toBeVisible();
    await press(page, 'Go back to your cellar');
    await expect(onShelf(page, /^Windfall cider, Waiting/)).toBeVisible();
  });

  await test.step('what cannot be opened says why, and is left as it is', async () => {
    const letter = join(folder, 'letter.undercroft');
    writeFileSync(letter, 'Dear cellar');
    const newer = join(folder, 'newer.undercroft');
    copyFileSync(copy, newer);
    const later = new Database(newer);
    later.pragma('user_version = 999');
    later.close();
    const torn = join(folder, 'torn.undercroft');
    writeFileSync(torn, readFileSync(copy).subarray(0, 6_000));
    for (const [file, says] of [
      ['', 'Type where the file lies, for instance /home/you/cellar.undercroft.'],
      ['letter.undercroft', 'cannot be used as the place of a file. Give the whole path'],
      [letter, 'is not an Undercroft cellar. It was left as it is.'],
      [newer, 'was written by a newer Undercroft (its version is 999; this program knows up to '],
      [torn, 'is damaged and was not opened, nor changed'],
      [join(folder, 'no', 'cellar.undercroft'), '…cellar.undercroft…'],
      [join(folder, 'nothing.undercroft'), 'Nothing lies at … Check the path, or begin a new cellar there.'],
      [folder, '…'],
    ] as const) {
      const kept = existsSync(file) && file !== folder ? readFileSync(file) : null;
      const rules = await rulesByKey(page);
      await field(rules, 'Where the file lies').fill(file);
      await press(rules, 'Open this cellar');
      const part = rules.getByRole('region', { name: 'This cellar' });
      await expect(part).toContainText(said(says));
      await expect(field(rules, 'Where the file lies')).toHaveAccessibleDescription(/\S/);
      await expect(field(rules, 'Where the file lies')).toHaveValue(file);
      if (kept !== null) expect(readFileSync(file).equals(kept)).toBe(true);
      await page.keyboard.press('Escape');
      await expect(rules).toBeHidden();
    }
    await expect(onShelf(page, /^Windfall cider, Waiting/)).toBeVisible();
    expect(existsSync(join(folder, 'nothing.undercroft'))).toBe(false);
  });
});

async function withRules(page: Page, change: (rules: Locator) => Promise<unknown>): Promise<void> {
  await page.keyboard.press('Control+,');
  const rules = sheet(page, 'House Rules');
  await expect(rules).toBeVisible();
  await change(rules);
  await page.keyboard.press('Escape');
  await expect(rules).toBeHidden();
  // A sheet that has just been shut tells the page so a moment later; until then it cannot be asked for again.
  await expect(page.locator('dialog > .sheet')).toHaveCount(0);
}

/** Types over what a field holds and leaves it, which is when it counts. */
async function type(into: Locator, text: string): Promise<void> {
  await into.fill(text);
  await into.blur();
}

/** Ctrl+O opens House Rules; while another cellar is just being opened the key goes nowhere, and is pressed again. */
async function rulesByKey(page: Page): Promise<Locator> {
  const rules = sheet(page, 'House Rules');
  await expect(async () => {
    if (!(await rules.isVisible())) await page.keyboard.press('Control+o');
    await expect(rules).toBeVisible({ timeout: 1_000 });
  }).toPass();
  return rules;
}

async function open(page: Page, file: string): Promise<void> {
  const rules = await rulesByKey(page);
  await field(rules, 'Where the file lies').fill(file);
  await press(rules, 'Open this cellar');
  await expect(rules).toBeHidden();
}

/** Whether the ground of the page is dark. Runs in the page. */
function groundIsDark(): boolean {
  const [red = 255, green = 255, blue = 255] = (
    getComputedStyle(document.body).backgroundColor.match(/\d+/g) ?? []
  ).map(Number);
  return red + green + blue < 3 * 128;
}
