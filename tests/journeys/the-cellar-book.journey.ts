import type { Page } from '@playwright/test';
import { carryOut, chooseVessel, field, goTo, press, sheet } from './keeper.ts';
import { expect, test } from './program.ts';

/** The ledger of batches, kept filters, costs, making again and comparing, on the sample cellar. */

const grid = (page: Page) => page.getByRole('grid', { name: 'Batches' });
const lines = (page: Page) => grid(page).locator('.batch-line');
const words = (page: Page) => page.getByRole('searchbox', { name: 'Words in it' });
const counted = (page: Page, text: string | RegExp) =>
  expect(page.getByRole('status').filter({ hasText: text }).first()).toBeVisible();
const name = (page: Page, at: number) => lines(page).nth(at).getByRole('link');

test('every word is found, with its day, its batch and the piece around it', async ({ page, program }) => {
  await program.open('--demo');
  await goTo(page, 'Cellar Book');
  await words(page).fill('VEIL');
  const days = page.getByRole('region', { name: 'Days on which it stands' });
  await expect(days.getByRole('listitem').filter({ hasText: 'Apple vinegar 3' }).first()).toContainText(
    'veil',
  );
  await expect(days.locator('mark').first()).toHaveText(/veil/iu);
  await expect(lines(page).filter({ hasText: 'Apple vinegar 3' })).toHaveCount(1);
  await words(page).fill('nothing is called this');
  await expect(page.getByText('No batch is like that.')).toBeVisible();
  await page.getByRole('main').getByRole('button', { name: 'Clear the filter' }).first().click();
  await expect(lines(page).first()).toBeVisible();

  await page.keyboard.press('Control+K');
  await page.keyboard.type('thin new veil');
  const day = page.getByRole('option').filter({ hasText: 'thin new veil' }).first();
  await expect(day).toContainText('Apple vinegar 3');
  await expect(day.locator('mark').first()).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Apple vinegar 3' })).toBeVisible();
});

test('the table is filtered and sorted, and its filters are kept, renamed, taken away and brought back', async ({
  page,
  program,
}) => {
  await program.open('--demo');
  await goTo(page, 'Cellar Book');
  await expect(lines(page).first()).toBeVisible();
  for (const column of ['Batch', 'Code', 'Ferment', 'Stage', 'Started', 'Stands', 'Last reading', 'Due']) {
    const head = grid(page).getByRole('columnheader', { name: column, exact: true });
    await head.getByRole('button').click();
    await expect(head).toHaveAttribute('aria-sort', /ascending|descending/u);
    const first = await head.getAttribute('aria-sort');
    await head.getByRole('button').click();
    await expect(head).not.toHaveAttribute('aria-sort', first ?? '');
  }
  await page.getByRole('combobox', { name: 'Where it is' }).selectOption('Standing nowhere any more');
  await expect(lines(page).first()).toContainText('stands nowhere');
  await page.getByRole('combobox', { name: 'Where it is' }).selectOption('Still standing');
  await page.getByRole('checkbox', { name: 'Needs a look' }).check();
  await field(page, 'Started from').fill('the day after');
  await expect(page.getByText(/day after/u).last()).toBeVisible();
  await field(page, 'Started from').fill('2026-01-01');
  await expect(lines(page).first()).toBeVisible();

  await press(page, 'Keep this filter…');
  const keep = sheet(page, 'Keep this filter');
  await press(keep, 'Keep it');
  await expect(keep.getByText(/Give it a name/u)).toBeVisible();
  await field(keep, 'Name').fill('To look at');
  await press(keep, 'Keep it');
  const kept = page.getByRole('group', { name: 'Kept filters' });
  await expect(kept.getByRole('button', { name: 'To look at' })).toHaveAttribute('aria-pressed', 'true');

  await page.getByRole('checkbox', { name: 'Needs a look' }).uncheck();
  await press(kept, 'Keep the change');
  await expect(kept.getByRole('button', { name: 'Keep the change' })).toBeHidden();
  await press(kept, 'Rename…');
  const rename = sheet(page, 'Rename the filter');
  await field(rename, 'Name').fill('Standing since January');
  await press(rename, 'Rename it');
  await expect(kept.getByRole('button', { name: 'Standing since January' })).toBeVisible();

  await press(kept, 'Clear the filter');
  await expect(page.getByRole('combobox', { name: 'Where it is' })).toHaveValue('either');
  await press(kept, 'Standing since January');
  await expect(page.getByRole('combobox', { name: 'Where it is' })).toHaveValue('standing');
  await press(kept, 'Take away');
  await expect(kept.getByRole('button', { name: 'Standing since January' })).toBeHidden();
  await page.keyboard.press('Control+Z');
  await expect(kept.getByRole('button', { name: 'Standing since January' })).toBeVisible();
});

test('columns are chosen, and stay when the window is opened anew', async ({ page, program }) => {
  await program.open('--demo');
  await goTo(page, 'Cellar Book');
  await press(page, 'Columns…');
  const columns = sheet(page, 'Columns');
  await columns.getByRole('checkbox', { name: 'Bottled' }).check();
  await columns.getByRole('checkbox', { name: 'Ferment' }).uncheck();
  await press(columns, 'Done');
  await expect(grid(page).getByRole('columnheader', { name: 'Bottled' })).toBeVisible();
  await expect(grid(page).getByRole('columnheader', { name: 'Ferment' })).toBeHidden();
  await page.reload();
  await expect(grid(page).getByRole('columnheader', { name: 'Bottled' })).toBeVisible();
  await grid(page).getByRole('columnheader', { name: 'Bottled' }).getByRole('button').click();
  await press(page, 'Columns…');
  await press(sheet(page, 'Columns'), 'The usual columns');
  await press(sheet(page, 'Columns'), 'Done');
  await expect(grid(page).getByRole('columnheader', { name: 'Bottled' })).toBeHidden();
});

test('a batch is made again half as large, with a cost, and remembers what it repeats', async ({
  page,
  program,
}) => {
  await program.open('--demo');
  await goTo(page, 'Cellar Book');
  await words(page).fill('Last apples');
  await lines(page).getByRole('link', { name: 'Last apples' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Last apples' })).toBeVisible();
  await press(page, /^Make it again…/u);
  const form = sheet(page, 'Make Last apples again');
  const before = await field(form, 'Amount of ingredient 1').inputValue();
  await field(form, 'Times last time').fill('0.5');
  await expect(field(form, 'Amount of ingredient 1')).not.toHaveValue(before);
  await expect(form.getByText(new RegExp(`last time ${before}`, 'u'))).toBeVisible();
  await expect(field(form, 'Note')).toHaveValue(/Made again from Last apples/u);
  await field(form, 'Name').fill('Last apples, half');
  await chooseVessel(form, 'Into which vessel', /empty|free|holds/iu).catch(async () => {
    await chooseVessel(form, 'Into which vessel', '');
  });
  await field(form, 'Cost of ingredient 1').fill('1,250');
  await press(form, 'Start it');
  await expect(form.getByRole('button', { name: 'Use 1250' })).toBeVisible();
  await field(form, 'Cost of ingredient 1').fill('12,40');
  await field(form, 'How much').fill('1 L');
  await carryOut(form, 'Start it');

  await goTo(page, 'Cellar Book');
  await words(page).fill('Last apples, half');
  await lines(page).getByRole('link', { name: 'Last apples, half' }).click();
  await expect(page.getByText(/Made again from/u).first()).toContainText('Last apples');
  const cost = page.getByRole('region', { name: 'What it cost' });
  await expect(cost).toContainText('12.40');
  await expect(cost).toContainText('its one ingredient has a cost');
  await page
    .getByRole('banner')
    .or(page.getByRole('main'))
    .getByRole('link', { name: 'Last apples' })
    .first()
    .click();
  await expect(page.getByText('Made again as')).toContainText('Last apples, half');
});

test('batches are laid side by side from the table and from a leaf', async ({ page, program }) => {
  await program.open('--demo');
  await goTo(page, 'Cellar Book');
  const first = await name(page, 0).innerText();
  await lines(page).nth(0).getByRole('checkbox').check();
  await expect(page.getByRole('button', { name: 'Compare them' })).toBeDisabled();
  await lines(page).nth(2).getByRole('checkbox').check();
  await press(page, 'Compare them');
  const table = page.getByRole('region', { name: 'The batches side by side' });
  await expect(table.getByRole('columnheader', { name: first })).toBeVisible();
  await expect(page.getByRole('img', { name: /over the days since each was started/u })).toBeVisible();
  await field(page, 'Put another batch beside')
    .or(page.getByRole('searchbox', { name: 'Put another batch beside' }))
    .fill('vinegar');
  await page.getByRole('list', { name: 'Batches found' }).getByRole('button').first().click();
  await expect(table.locator('thead th')).toHaveCount(4);
  await table
    .getByRole('button', { name: /^Take .* out$/u })
    .last()
    .click();
  await expect(table.locator('thead th')).toHaveCount(3);
  await page.reload();
  await expect(table.locator('thead th')).toHaveCount(3);

  await table.getByRole('link').first().click();
  await press(page, /^Compare…/u);
  await expect(page.getByText('Put at least one more batch beside it.')).toBeVisible();
});

test('all of it by keyboard alone', async ({ page, program }) => {
  await program.open('--demo');
  await page.keyboard.press('Control+2');
  await expect(lines(page).first()).toBeVisible();
  const focused = page.locator(':focus');
  const tabTo = async (says: string | RegExp): Promise<void> => {
    for (let step = 0; step < 60; step += 1) {
      await page.keyboard.press('Tab');
      const text = await focused.evaluate((element) =>
        `${element.getAttribute('aria-label') ?? ''} ${'labels' in element && element.labels instanceof NodeList ? [...element.labels].map((label) => label.textContent).join(' ') : ''} ${element.textContent}`.trim(),
      );
      if (typeof says === 'string' ? text.includes(says) : says.test(text)) return;
    }
    throw new Error(`no Tab reached ${String(says)}`);
  };
  await tabTo('Needs a look');
  await page.keyboard.press('Space');
  await tabTo('Keep this filter');
  await page.keyboard.press('Enter');
  await page.keyboard.type('Keyed');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Keyed' })).toHaveAttribute('aria-pressed', 'true');
  await counted(page, /\d+ batch/u);

  const byName = grid(page).getByRole('columnheader', { name: 'Batch', exact: true });
  await byName.getByRole('button').focus();
  await page.keyboard.press('Enter');
  await expect(byName).toHaveAttribute('aria-sort', 'ascending');
  await expect
    .poll(async () => {
      const shown = await grid(page).locator('.batch-line .name').allInnerTexts();
      return shown.length > 1 && [shown[0], shown[1]].join() === shown.toSorted().slice(0, 2).join();
    })
    .toBe(true);
  for (let step = 0; step < 7; step += 1) await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await expect(name(page, 0)).toBeFocused();
  await page.keyboard.press('Space');
  await expect(lines(page).nth(0)).toHaveAttribute('aria-selected', 'true');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Space');
  await counted(page, '2 chosen');
  await page.getByRole('button', { name: 'Compare them' }).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Side by side' })).toBeVisible();
  await page.keyboard.press('Alt+ArrowLeft');
  await expect(lines(page).first()).toBeVisible();
  await name(page, 0).focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: /^Make it again/u })).toBeVisible();
  await page.getByRole('main').focus();
  await page.keyboard.press('a');
  await expect(page.getByRole('dialog', { name: /^Make .* again$/u })).toBeVisible();
});
