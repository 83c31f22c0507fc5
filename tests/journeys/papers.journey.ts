import type { Page } from '@playwright/test';
import { chooseOnShelf, onShelf, press, said } from './keeper.ts';
import { expect, test } from './program.ts';

/** What is printed beside labels: each reached by a button and by keys, and read back as the printer would have it. */

test.beforeEach(async ({ page, program }) => {
  await program.open('--demo');
  await expect(onShelf(page, /^Damson wine/)).toBeVisible();
});

test('a leaf for the binder: two pages at most, with its cautions', async ({ page }) => {
  await chooseOnShelf(page, /^Apple vinegar 3/);
  await page.keyboard.press('Enter');
  await press(page, /^For the binder…/);
  const paper = page.getByRole('article', { name: 'Leaf for the binder, as it prints' });
  await expect(paper.getByRole('heading', { name: 'Apple vinegar 3' })).toBeVisible();
  expect(await pagesOf(page)).toBeLessThanOrEqual(2);
  await page.emulateMedia({ media: 'print' });
  for (const part of [
    'Printed 2026-11-25',
    'AV-26-003',
    'V, Vinegar ferment',
    'Readings',
    'acidity 4.3 % as acetic',
    'What is due',
    'Measure acidity',
    'What it may be used for',
    'Where it came from',
    'Old Bess',
  ]) {
    await expect(paper).toContainText(said(part));
  }
  await expect(paper.getByRole('list', { name: 'Cautions' })).toContainText(
    'Do not use for pickling or canning.',
  );
  await blackOnWhiteAlone(page);
});

test('by keys: B on a leaf, then back to where it came from', async ({ page }) => {
  await chooseOnShelf(page, /^Apple vinegar 3/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Apple vinegar 3', level: 1 })).toBeVisible();
  await page.locator('#main').focus();
  await page.keyboard.press('b');
  await expect(page.getByRole('article', { name: /^Leaf for the binder/ })).toBeVisible();
  await page.keyboard.press('Alt+ArrowLeft');
  await expect(page.getByRole('heading', { name: 'Apple vinegar 3', level: 1 })).toBeVisible();
});

test('the shelf list: a table for each shelf, of one place or of all', async ({ page }) => {
  await page.keyboard.press('p');
  const paper = page.getByRole('article', { name: 'Shelf list, as it prints' });
  await expect(paper.getByRole('heading', { name: /^Pantry, top shelf/ })).toBeVisible();
  await expect(paper.getByRole('row', { name: /Damson wine/ }).first()).toBeVisible();
  await expect(paper.getByRole('list', { name: 'Cautions for Damson wine' }).first()).toContainText(/\S/);
  await expect(paper).toContainText('Free:');
  const place = page.getByRole('combobox', { name: 'Which place' });
  await place.selectOption('Pantry');
  await expect(paper.getByRole('heading', { name: 'Shelf list: Pantry' })).toBeVisible();
  await expect(paper.getByRole('heading', { name: /^Cellar/ })).toHaveCount(0);
  expect(await pagesOf(page)).toBeLessThanOrEqual(4);
  await blackOnWhiteAlone(page);
});

test('the due list: a box to tick for each, one page', async ({ page }) => {
  await page.keyboard.press('Control+6');
  await page
    .getByRole('navigation', { name: 'What to print' })
    .getByRole('link', { name: 'Due list' })
    .click();
  const paper = page.getByRole('article', { name: 'Due list, as it prints' });
  await expect(paper.getByRole('heading', { name: 'Late' })).toBeVisible();
  const rows = paper.locator('tbody tr:not(.under)');
  const some = await rows.count();
  expect(some).toBeGreaterThan(2);
  await expect(paper.locator('.tick')).toHaveCount(some);
  await page.getByRole('radio', { name: 'All of it' }).check();
  await expect.poll(() => rows.count()).toBeGreaterThan(some);
  await page.getByRole('radio', { name: 'Late and today' }).check();
  await expect.poll(() => rows.count()).toBeLessThan(some);
  expect(await pagesOf(page)).toBe(1);
  await page.emulateMedia({ media: 'print' });
  await expect(paper).toContainText(said('3 days late'));
  await blackOnWhiteAlone(page);
});

test('culture cards: a card a line, with when it was fed and where it came from', async ({ page }) => {
  await page.keyboard.press('Control+3');
  await press(page, /^Card for its jar…/);
  const paper = page.getByRole('article', { name: 'Culture cards, as it prints' });
  await expect(paper.getByRole('listitem').filter({ has: page.getByRole('heading') })).toHaveCount(1);
  await page.getByRole('combobox', { name: 'Which culture' }).selectOption({ label: 'All cultures' });
  const card = paper
    .getByRole('listitem')
    .filter({ has: page.getByRole('heading', { name: 'Old Bess', exact: true }) });
  for (const part of ['Vinegar mother', 'From', 'Fed', 'kept in']) await expect(card).toContainText(part);
  expect(await pagesOf(page)).toBe(1);
  await blackOnWhiteAlone(page);
});

/** How many sheets of A4 the printer would take. */
async function pagesOf(page: Page): Promise<number> {
  const pdf = await page.pdf({ format: 'A4', printBackground: true });
  return pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
}

/** On paper nothing of the window is left, and every letter is black. */
async function blackOnWhiteAlone(page: Page): Promise<void> {
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  await expect(page.getByRole('navigation', { name: 'Places' })).toBeHidden();
  await expect(page.getByRole('button', { name: /^Print/ })).toBeHidden();
  // A page that has the focus has no ring on paper.
  await page.locator('.paper-page').focus();
  await expect(page.locator('.paper-page')).toHaveCSS('outline-style', 'none');
  const inks = await page
    .locator('.paper-page')
    .evaluate((paper) => [
      ...new Set([...paper.querySelectorAll('*')].map((part) => getComputedStyle(part).color)),
    ]);
  expect(inks).toEqual(['rgb(0, 0, 0)']);
}
