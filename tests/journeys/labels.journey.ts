import type { Download, Locator, Page } from '@playwright/test';
import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { carryOut, chooseOnShelf, field, fill, onShelf, press, seeFocus, sheet } from './keeper.ts';
import { expect, test } from './program.ts';

/** The Label Desk as a keeper with jars uses it: what is chosen, what is seen, and that the very same is printed. */

const MM_PER_POINT = 25.4 / 72;

test.beforeEach(async ({ page, program }) => {
  await page.setViewportSize({ width: 1280, height: 1000 });
  // The browser’s own print sheet cannot be seen by a page; that it is asked for can.
  await page.addInitScript(() => {
    window.print = () => {
      document.documentElement.toggleAttribute('data-printed', true);
    };
  });
  await program.open('--demo');
  await expect(onShelf(page, /^Damson wine/)).toBeVisible();
});

test('jars from the shelf, from place 5 on, printed as they are seen', async ({ page }) => {
  await chooseOnShelf(page, /^Apple vinegar 3/);
  await onShelf(page, /^Damson wine/).click({ modifiers: ['ControlOrMeta'] });
  await press(page, /^Label 2…/);
  await expect(jars(page).getByRole('listitem')).toHaveCount(2);
  await field(page, 'Labels for Apple vinegar 3').fill('9');
  await expect(page.getByRole('button', { name: 'Print 10 labels' })).toBeVisible();
  await place(page, /^Place 5:/).click();
  await expect(place(page, /^Place 4, used/)).toBeVisible();
  await expect(place(page, 'Place 14: Damson wine, label 10 of 10')).toBeVisible();
  await expect(place(page, /^Place 15, free/)).toBeVisible();
  await expect(picture(page)).toHaveAccessibleName(/V Apple vinegar 3 .*V-2.*Started/);
  await expect(picture(page)).toHaveAccessibleName(/Do not use for pickling or canning/);

  await press(page, 'Print 10 labels');
  await expect(page.locator('[data-printed]')).toBeVisible();
  await expect(
    page.getByText('Places up to 14 are marked as used; the next begins at place 15.'),
  ).toBeVisible();
  const seen = await textsOf(await page.pdf({ preferCSSPageSize: true }));
  expect(seen.pages).toEqual([{ widthMm: 210, heightMm: 297 }]);
  const names = seen.texts.filter(({ text }) => text.includes('Apple vinegar 3'));
  expect(names).toHaveLength(9);
  // Place 5 is the middle of the second row: 7.25 + 63.5 + 2.5 from the left, 15.15 + 38.1 from the top.
  expect(names[0]?.xMm).toBeGreaterThan(73.25);
  expect(names[0]?.xMm).toBeLessThan(73.25 + 63.5);
  expect(names[0]?.yMm).toBeGreaterThan(53.25);
  expect(names[0]?.yMm).toBeLessThan(53.25 + 38.1);

  await press(page, 'It did not print: take the mark back');
  await expect(field(page, 'Start at place')).toHaveValue('1');
});

test('the PDF and the print of the page have every word at the same spot', async ({ page }) => {
  await chooseOnShelf(page, /^Apple vinegar 3/);
  await press(page, /^Labels…/);
  await expect(picture(page)).toBeVisible();
  await press(page, 'Print 1 label');
  await expect(page.locator('[data-printed]')).toBeVisible();
  const printed = await textsOf(await page.pdf({ preferCSSPageSize: true }));
  await press(page, 'It did not print: take the mark back');
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save PDF')]);
  expect(download.suggestedFilename()).toMatch(/\.pdf$/);
  const saved = await textsOf(await bytesOf(download));
  expect(saved.pages).toEqual(printed.pages);
  for (const wanted of ['Apple vinegar 3', 'Started', 'V-2']) {
    const inPdf = firstWord(saved.texts, wanted);
    const onPage = firstWord(printed.texts, wanted);
    expect(Math.abs(inPdf.xMm - onPage.xMm), `${wanted} across`).toBeLessThan(0.3);
    expect(Math.abs(inPdf.yMm - onPage.yMm), `${wanted} down`).toBeLessThan(0.3);
  }
});

test('found by words, counted, taken out, put back, and there again after a reload', async ({ page }) => {
  await page.keyboard.press('Control+6');
  await expect(page.getByText('Nothing is chosen yet.')).toBeVisible();
  await press(page, /^Print/);
  await expect(page.getByText('There is nothing to print yet. Choose a jar first.')).toBeVisible();
  await page.getByRole('searchbox', { name: 'Add a jar, a batch or bottles' }).fill('plum');
  await page
    .getByRole('group', { name: 'What to look among' })
    .getByRole('radio', { name: 'Vessels' })
    .check();
  const found = page.getByRole('list', { name: 'Found' });
  await expect(found).not.toContainText('bottles');
  await expect(found).toContainText('V-7');
  await press(page, /^Add all \d+/);
  const rows = jars(page).getByRole('listitem');
  await expect.poll(() => rows.count()).toBeGreaterThan(1);
  const many = await rows.count();
  const first = rows.first().getByRole('textbox');
  await first.fill('nine');
  await expect(page.getByText(/^Type a whole number from 1 to 1,000/)).toBeVisible();
  await first.fill('3');
  await expect(page.getByText(`${String(many + 2)} labels from ${String(many)} jars`)).toBeVisible();
  await page.reload();
  await expect(page.getByText(`${String(many + 2)} labels from ${String(many)} jars`)).toBeVisible();
  await rows
    .first()
    .getByRole('button', { name: /^Take out/ })
    .click();
  await expect(rows).toHaveCount(many - 1);
  await press(page, 'Take all out');
  await expect(page.getByText('Nothing is chosen yet.')).toBeVisible();
  await press(page, `Put back the ${String(many - 1)} chosen before`);
  await expect(rows).toHaveCount(many - 1);
  await page.getByRole('searchbox', { name: 'Add a jar, a batch or bottles' }).fill('no such thing');
  await expect(page.getByText('Nothing called “no such thing”.')).toBeVisible();
});

test('what goes on: switches, the caution that stays, a gift tag, a line of one’s own', async ({ page }) => {
  await chooseOnShelf(page, /^Apple vinegar 3/);
  await press(page, /^Labels…/);
  await expect(picture(page)).toHaveAccessibleName(/Stages/);
  const what = page.getByRole('group', { name: 'Prints, the most important first' });
  await what.getByRole('button', { name: 'Stages' }).click();
  await expect(picture(page)).not.toHaveAccessibleName(/Stages/);
  const caution = what.getByRole('button', { name: 'Caution' });
  await caution.click();
  await expect(caution).toHaveAttribute('aria-pressed', 'true');
  await expect(
    page.getByText('Caution always prints when a rule is not met. It cannot be switched off.').first(),
  ).toBeVisible();
  await expect(picture(page)).toHaveAccessibleName(/Do not use for pickling or canning/);
  await field(page, 'Free line').fill('<b>For Ada</b> & co');
  await page.getByRole('combobox', { name: 'Sheet' }).selectOption('a4-2x4');
  await expect(picture(page)).toHaveAccessibleName(/<b>For Ada<\/b> & co/);
  await page.getByRole('radio', { name: 'Gift tag' }).check();
  await field(page, 'Who it is from').fill('Mill House');
  await expect(picture(page)).toHaveAccessibleName(/Mill House/);
  await expect(picture(page)).toHaveAccessibleName(/Do not use for pickling or canning/);
});

test('a layout of one’s own: wrong measures said, kept in inches, changed, thrown away', async ({ page }) => {
  await chooseOnShelf(page, /^Apple vinegar 3/);
  await press(page, /^Labels…/);
  await expect(picture(page)).toBeVisible();
  await press(page, 'A layout of your own…');
  const form = sheet(page, 'A layout of your own');
  await press(form, 'Keep this layout');
  await expect(form.getByText('Give it a name, so that you find it again.')).toBeVisible();
  await field(form, 'What it is called').fill('The blue box');
  await field(form, 'Columns').fill('4');
  await expect(form.getByText(/The columns are wider than the paper by 58\.75\smm/)).toBeVisible();
  await field(form, 'Columns').fill('2');
  await form.getByRole('radio', { name: 'inches' }).check();
  await expect(field(form, 'Width of a label')).toHaveValue('2 1/2');
  await field(form, 'Width of a label').fill('3 1/4');
  await expect(form.getByRole('img', { name: 'The sheet as measured: 2 columns and 7 rows' })).toBeVisible();
  await press(form, 'Keep this layout');
  await expect(form).toBeHidden();
  const chosen = page.getByRole('combobox', { name: 'Sheet' });
  await expect(chosen.locator('option:checked')).toHaveText(/^The blue box: A4, 2 × 7, 3 1\/4 ×/);
  await expect(place(page, /^Place 14, free/)).toBeVisible();
  await press(page, 'Change this layout…');
  const change = sheet(page, 'Change this layout');
  await field(change, 'Rows').fill('6');
  await press(change, 'Keep this layout');
  await expect(place(page, /^Place 12, free/)).toBeVisible();
  await expect(place(page, /^Place 14/)).toHaveCount(0);
  await press(page, 'Change this layout…');
  await press(change, 'Throw this layout away');
  await expect(chosen.locator('option:checked')).not.toHaveText(/blue box/);
});

test('a printer measured on its test sheet, and the print moved by it', async ({ page }) => {
  await chooseOnShelf(page, /^Apple vinegar 3/);
  await press(page, /^Labels…/);
  await expect(picture(page)).toBeVisible();
  await page.getByText('Where the print sits, measured on a test sheet').click();
  const [test_] = await Promise.all([page.waitForEvent('download'), press(page, 'Save test sheet as PDF')]);
  await press(page, 'Print test sheet');
  await expect(page.locator('[data-printed]')).toBeVisible();
  const sheets = [await bytesOf(test_), await page.pdf({ preferCSSPageSize: true })];
  for (const marks of await Promise.all(sheets.map((bytes) => textsOf(bytes)))) {
    expect(marks.pages).toEqual([{ widthMm: 210, heightMm: 297 }]);
    expect(marks.texts.some(({ text }) => text.includes('100 mm'))).toBe(true);
  }
  await press(page, 'Keep for A4');
  await expect(page.getByText('Name the printer, in any words you know it by.')).toBeVisible();
  await field(page, 'Printer, as you call it').fill('The one upstairs');
  await field(page, 'Move across').fill('12');
  await expect(page.getByText('Type millimetres from −10 to 10, such as 0.4 or −0.6.')).toBeVisible();
  await field(page, 'Move across').fill('5');
  await field(page, 'Ruler across').fill('98');
  await expect(page.getByText(/Your printer shrinks pages/)).toBeVisible();
  await field(page, 'Ruler across').fill('100');
  await press(page, 'Keep for A4');
  await expect(page.getByText(/^Kept for The one upstairs with A4/)).toBeVisible();
  await expect(page.getByRole('combobox', { name: 'Which printer' })).toHaveValue('The one upstairs');
  const nameAt = async (): Promise<number> => {
    await page.evaluate(() => {
      document.documentElement.removeAttribute('data-printed');
    });
    await press(page, 'Print 1 label');
    await expect(page.locator('[data-printed]')).toBeVisible();
    const { texts } = await textsOf(await page.pdf({ preferCSSPageSize: true }));
    await press(page, 'It did not print: take the mark back');
    return firstWord(texts, 'Apple vinegar 3').xMm;
  };
  const moved = await nameAt();
  await page.getByRole('combobox', { name: 'Which printer' }).selectOption('');
  await expect(page.getByRole('combobox', { name: 'Which printer' })).toHaveValue('');
  expect(moved - (await nameAt())).toBeCloseTo(5, 0);
});

test('from a leaf, from a bottling, and from what was just filled', async ({ page }) => {
  await chooseOnShelf(page, /^Apple vinegar 3/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Apple vinegar 3', level: 1 })).toBeVisible();
  await press(page, /^Labels…/);
  await expect(jars(page).getByRole('listitem')).toContainText(['the whole batch']);
  await page.keyboard.press('Alt+ArrowLeft');
  await expect(page.getByRole('heading', { name: 'Apple vinegar 3', level: 1 })).toBeVisible();
  await page.keyboard.press('Control+1');
  await press(await chooseOnShelf(page, /^Perry 2025.* C2\.$/), /^Bottle$/);
  const form = sheet(page, 'Bottle');
  await fill(form, { 'Size of a bottle': '500 ml', 'How many': '6' });
  await carryOut(form, 'Carry out');
  await press(page.locator('.bar'), 'Labels…');
  await expect(jars(page).getByRole('listitem')).toContainText(['bottles']);
  await expect(page.getByRole('button', { name: 'Print 6 labels' })).toBeVisible();
});

test('typed or scanned: a code and Enter opens what the label is on', async ({ page }) => {
  const scan = async (code: string): Promise<void> => {
    await page.keyboard.press('Control+k');
    await expect(page.getByRole('combobox', { name: /^Find/ })).toBeFocused();
    // A scanner types without a pause and presses Enter itself.
    await page.keyboard.type(code);
    await page.keyboard.press('Enter');
  };
  await scan('UC:AV-26-003');
  await expect(page.getByRole('heading', { name: 'Apple vinegar 3', level: 1 })).toBeVisible();
  await scan('uc:v-14');
  await expect(page.getByRole('complementary').getByRole('heading', { name: 'Damson wine' })).toBeVisible();
  await scan('UC:ZZ-99-999');
  await expect(
    page
      .getByText(/ZZ-99-999/)
      .filter({ visible: true })
      .last(),
  ).toBeVisible();
});

test('by keys alone: chosen on the shelf, L, a place by arrows, printed', async ({ page }) => {
  await onShelf(page, /^Apple vinegar 3/).click();
  await page.keyboard.press('l');
  await expect(picture(page)).toBeVisible();
  const start = page.getByRole('list', { name: 'Places of the sheet' }).getByRole('button').first();
  await expect(start).toBeVisible();
  for (let press = 0; press < 60; press += 1) {
    if (await start.evaluate((button) => button === document.activeElement)) break;
    await page.keyboard.press('Tab');
  }
  await expect(start).toBeFocused();
  await seeFocus(page);
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowDown');
  await expect(place(page, /^Place 5/)).toBeFocused();
  await seeFocus(page);
  await page.keyboard.press('Enter');
  await expect(place(page, /^Place 5: Apple vinegar 3/)).toBeFocused();
  await page.keyboard.press('p');
  await expect(page.locator('[data-printed]')).toBeVisible();
});

function jars(page: Page): Locator {
  return page.getByRole('list', { name: 'Chosen' });
}

function place(page: Page, name: string | RegExp): Locator {
  return page.getByRole('list', { name: 'Places of the sheet' }).getByRole('button', { name });
}

/** The label that is shown large, named by all that stands on it. */
function picture(page: Page): Locator {
  return page.getByRole('img', { name: /^The label reads: / });
}

interface PdfText {
  readonly text: string;
  readonly xMm: number;
  readonly yMm: number;
}

/** What is written in a PDF and where, in millimetres from the upper left corner. */
async function textsOf(pdf: Uint8Array): Promise<{
  readonly pages: readonly { readonly widthMm: number; readonly heightMm: number }[];
  readonly texts: readonly PdfText[];
}> {
  const opening = getDocument({ data: new Uint8Array(pdf), verbosity: 0 });
  const document = await opening.promise;
  const pages: { widthMm: number; heightMm: number }[] = [];
  const texts: PdfText[] = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const { width, height } = page.getViewport({ scale: 1 });
    pages.push({ widthMm: Math.round(width * MM_PER_POINT), heightMm: Math.round(height * MM_PER_POINT) });
    for (const item of (await page.getTextContent()).items) {
      if (!('str' in item) || item.str.trim() === '') continue;
      const [, , , , x = 0, y = 0] = item.transform as readonly number[];
      texts.push({ text: item.str, xMm: x * MM_PER_POINT, yMm: (height - y) * MM_PER_POINT });
    }
  }
  await opening.destroy();
  return { pages, texts };
}

/** Where a line begins: a PDF may hold it word by word. */
function firstWord(texts: readonly PdfText[], line: string): PdfText {
  const found = texts.find(
    ({ text }) => text !== '' && (line.startsWith(text.trim()) || text.includes(line)),
  );
  if (found === undefined) throw new Error(`no “${line}” in ${texts.map(({ text }) => text).join(' | ')}`);
  return found;
}

async function bytesOf(download: Download): Promise<Uint8Array> {
  return readFileSync(await download.path());
}
