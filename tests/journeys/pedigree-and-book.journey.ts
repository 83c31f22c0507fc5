import { expect, test } from './program.ts';
import { carryOut, chooseOnShelf, fill, onShelf, press, said, seeDone, sheet } from './keeper.ts';

/** What one thing touched is found and kept apart at once; what the book weighs is brought to what was read. */

/** Tall, so that every shelf of the sample is in sight. */
test.use({ viewport: { width: 1280, height: 2600 } });

test('what a vessel touched is traced, kept apart and taken back', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  const panel = await chooseOnShelf(page, /^House red vinegar/);

  await test.step('from the panel to where it came from, and on to what it touched', async () => {
    await panel.getByRole('link', { name: 'Where it came from' }).click();
    await expect(page.getByRole('heading', { level: 1, name: /^Where it came from: / })).toBeVisible();
    const list = page.getByRole('list', { name: 'Step by step' });
    await expect(list.getByRole('heading', { name: /^What you asked about/ })).toBeVisible();
    await expect(list.getByRole('heading', { name: /^1 step back/ })).toBeVisible();
    await page.getByRole('radio', { name: 'What it touched' }).check({ force: true });
    await expect(page.getByRole('heading', { level: 1, name: /^What it touched: / })).toBeVisible();
  });

  await test.step('kept apart as one line of the book, with a reason', async () => {
    await press(page, /^Keep all of these apart…/);
    const form = sheet(page, 'Keep all of these apart');
    await press(form.getByRole('contentinfo'), 'Keep them apart');
    await expect(form.getByText('Say why, in three letters or more.').first()).toBeVisible();
    await fill(form, { Why: 'smells of nail varnish' });
    await carryOut(form, 'Keep them apart');
    await seeDone(page, 'kept apart with');
    await expect(page.getByRole('list', { name: 'Step by step' })).toContainText('Quarantine');
  });

  await test.step('one press takes it back', async () => {
    await press(page, /^Undo/);
    await seeDone(page, 'Taken back: keeping');
    await expect(page.getByRole('list', { name: 'Step by step' })).not.toContainText('Quarantine');
    await page.goBack();
    await expect(onShelf(page, /^House red vinegar/)).toBeVisible();
  });
});

test('strong spirit shrinks as it mixes: told in the plan, kept in the line, taken back', async ({
  page,
  program,
}) => {
  await program.open('--demo');
  const panel = await chooseOnShelf(page, /^Pear must/);
  await press(panel, 'Add to it');
  const form = sheet(page, 'Add to it');
  await form.getByRole('combobox', { name: 'What' }).selectOption('spirit');
  await fill(form, { 'How much': '250 ml' });
  const plan = form.getByRole('region', { name: 'Plan' });
  await expect(plan).toContainText(said('250 ml added from outside'));
  // Without its strength nobody knows.
  await expect(plan).not.toContainText('fill less together');
  await fill(form, { 'Its strength': 'strong' });
  await press(form.getByRole('contentinfo'), 'Add it');
  await expect(form.getByText(/is not read here/).first()).toBeVisible();
  await fill(form, { 'Its strength': '96 %' });
  await expect(plan).toContainText(said('… ml less, as alcohol and water fill less together than apart'));
  await carryOut(form, 'Add it');
  await seeDone(page, '250 ml spirit of 96');
  await page.keyboard.press('Control+z');
  await seeDone(page, 'Taken back: adding spirit');
});

test('a pedigree wider than a page is printed on sheets that say how they join', async ({
  page,
  program,
}) => {
  await program.open('--demo');
  const panel = await chooseOnShelf(page, /^House red vinegar/);
  await panel.getByRole('link', { name: 'Where it came from' }).click();
  await expect(page.getByRole('list', { name: 'Step by step' })).toBeVisible();
  await page.emulateMedia({ media: 'print' });
  const sheets = page.getByText(/^Sheet \d+ of \d+/);
  await expect(sheets.first()).toBeVisible();
  const count = await sheets.count();
  expect(count).toBeGreaterThan(1);
  await expect(sheets.last()).toContainText(`Sheet ${count} of ${count}`);
  await page.emulateMedia({ media: null });
  await expect(sheets.first()).toBeHidden();
  const pdf = await page.pdf({ format: 'A4', printBackground: true });
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? [];
  expect(pages.length).toBeGreaterThan(count);
});

test('a reading that departs from the book is written into it, the steps shown first', async ({
  page,
  program,
}) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await onShelf(page, /^Crab and cooker cider/).press('Enter');
  const card = page.getByRole('region', { name: 'Book against readings' });
  await expect(card.getByRole('table', { name: 'What the book weighs' })).toBeVisible();
  await card.getByRole('button', { name: 'Write it into the book…' }).first().click();
  const form = sheet(page, 'Write it into the book');
  await expect(form.getByText(said('The reading of …; the book counts'))).toBeVisible();
  await expect(form.getByRole('list', { name: 'What is written' })).toContainText(/\d/);
  await carryOut(form, 'Write it into the book');
  await seeDone(page, 'ook of … brought up to date');
  await press(page, /^Undo/);
  await expect(card.getByRole('button', { name: 'Write it into the book…' }).first()).toBeVisible();
});
