import type { Locator, Page } from '@playwright/test';
import { expect, test } from './program.ts';
import {
  carryOut,
  choice,
  chooseOnShelf,
  chooseVessel,
  field,
  fill,
  onShelf,
  press,
  said,
  seeDone,
  seeFocus,
  segment,
  sheet,
  sidePanel,
} from './keeper.ts';

/**
 * One liquid into many, many into one, the barrel that never runs empty, and bottles after they were filled: first with
 * the pointer, then by keys alone.
 */

/** Tall, so that every shelf of the sample is in sight. */
test.use({ viewport: { width: 1280, height: 2600 } });

const cider = /^Late keepers cider/;
const demijohn = /^Vessel 16/;

test('with the pointer: split, blend, refill, sample, filter, clean, lend', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await expect(onShelf(page, cider)).toBeVisible();

  await test.step('one vessel split into two, refused under the field, then carried out', async () => {
    await press(await chooseOnShelf(page, cider), /^Split…/);
    const form = sheet(page, 'Split');
    await chooseVessel(form, 'Part 1: into', '16');
    await expect(field(form, 'Part 1: how much')).toHaveValue('');
    await chooseVessel(form, 'Part 2: into', 'blackberry');
    await expect(form.getByText(said('3 L of Blackberry wine stands in there already'))).toBeVisible();
    await fill(form, {
      'Left behind as lees': '500 ml',
      'Part 1: how much': '9 L',
      'Part 2: how much': '1 L',
    });
    await expect(form.getByText(said('10 L in 2 parts, 500 ml as lees; …stays where it is.'))).toBeVisible();
    await press(form.getByRole('contentinfo'), 'Carry out');
    const summary = form.getByRole('group', { name: 'What to mend' });
    await expect(summary).toContainText(
      said('Part 1: how much: Vessel 16 has room for 5 L; 9 L does not fit.'),
    );
    await expect(field(form, 'Part 1: how much')).toHaveValue('9 L');
    await expect(field(form, 'Part 1: how much')).toHaveAttribute('aria-invalid', 'true');
    await press(form, 'Use 5 L');
    await segment(form, 'Part 1: it is', 'A batch of its own').check({ force: true });
    await fill(form, { 'Part 1: name of the new batch': 'Early keepers' });
    await expect(choice(form, 'Part 1: what it is')).toHaveValue('cider');
    await expect(form.getByRole('region', { name: 'Plan' })).toContainText(
      said('500 ml left behind as lees'),
    );
    await carryOut(form, 'Carry out');
    await seeDone(page, 'split: 5 L to Early keepers, 1 L to');
    await expect(
      onShelf(page, /^Early keepers, Yeast ferment, .*5 L demijohn, 100 % full.* B6\.$/),
    ).toBeVisible();
    await expect(onShelf(page, /^Blackberry wine.*80 % full/)).toBeVisible();
  });

  await test.step('undone as one step', async () => {
    await press(page, /^Undo/);
    await seeDone(page, 'Taken back: splitting … into 2');
    await expect(onShelf(page, demijohn)).toBeVisible();
    await expect(onShelf(page, /^Blackberry wine.*60 % full/)).toBeVisible();
  });

  await test.step('three chosen on the shelf are blended, the shares shown first', async () => {
    await onShelf(page, /^Elderflower mead/).click();
    await onShelf(page, /^Heather honey mead/).click({ modifiers: ['ControlOrMeta'] });
    await onShelf(page, demijohn).click({ modifiers: ['ControlOrMeta'] });
    await press(sidePanel(page), 'Blend 2…');
    const form = sheet(page, 'Blend');
    await expect(choice(form, 'Into')).toHaveValue('B6, empty demijohn 16');
    await fill(form, { 'How much, 1': '3 L', 'How much, 2': '1 L' });
    await expect(form.getByText(said('Together 4 L.'))).toBeVisible();
    await expect(form.getByRole('region', { name: 'Plan' })).toContainText(/3\/4\s+Elderflower mead/);
    await segment(form, 'It is', 'A batch of its own').check({ force: true });
    await fill(form, { 'Name of the new batch': 'Feast mead' });
    await carryOut(form, 'Carry out');
    await seeDone(page, 'lended in Feast mead: 3 L of …, 1 L of');
    await expect(onShelf(page, /^Feast mead, Settling, 5 L demijohn, 80 % full.* B6\.$/)).toBeVisible();
  });

  await test.step('a cask gives a quarter and is filled up again', async () => {
    await press(await chooseOnShelf(page, /^House red vinegar/), 'Draw and refill…');
    const form = sheet(page, 'Draw and refill');
    await press(form, '1/4');
    await expect(form.getByText(said('6 L is drawn'))).toBeVisible();
    await chooseVessel(form, 'Refilled from', 'last apples');
    await press(form, 'As much as is drawn');
    await expect(form.getByRole('region', { name: 'Plan' })).toContainText(said('6 L drawn off.'));
    await carryOut(form, 'Carry out');
    await seeDone(page, '6 L drawn from …, refilled with 6 L of');
    await expect(onShelf(page, /^House red vinegar.* 80 % full/)).toBeVisible();
  });

  await test.step('a sample, and a filtering that is refused and mended', async () => {
    const panel = await chooseOnShelf(page, /^Quince wine/);
    await press(panel, 'Sample…');
    const sample = sheet(page, 'Take a sample');
    await segment(sample, 'What it is for', 'pH').check({ force: true });
    await carryOut(sample, 'Carry out');
    await seeDone(page, 'ample of 100 ml from …, for pH');
    await press(panel, 'Filter…');
    const filter = sheet(page, 'Filter');
    await press(filter.getByRole('contentinfo'), 'Carry out');
    await expect(filter.getByText('Say how it was filtered.').first()).toBeVisible();
    await choice(filter, 'How').selectOption('Through filter paper');
    await fill(filter, { 'Lost on the way': '40 ml' });
    await carryOut(filter, 'Carry out');
    await seeDone(page, 'filtered through paper, 40 ml lost');
  });

  await test.step('an empty vessel is cleaned, rests, and is lent', async () => {
    const panel = await chooseOnShelf(page, /^Quince wine/);
    await press(panel, 'Draw off');
    const draw = sheet(page, 'Draw off');
    await press(draw, 'All of it');
    await carryOut(draw, 'Carry out');
    await chooseOnShelf(page, / B5\.$/);
    await press(panel, 'Clean and rest…');
    const clean = sheet(page, 'Clean and rest');
    await fill(clean, { 'Rests until': 'last week' });
    await press(clean.getByRole('contentinfo'), 'Keep it');
    await expect(clean.getByText(said('is not read as a day to come')).first()).toBeVisible();
    await fill(clean, { 'Rests until': '10 days' });
    await carryOut(clean, 'Keep it');
    await expect(onShelf(page, /resting until 5 Dec\. B5\.$/)).toBeVisible();
    await expect(panel).toContainText('until 2026-12-05');
    await press(panel, 'Lend…');
    const lend = sheet(page, 'Lend the vessel');
    await press(lend.getByRole('contentinfo'), 'Lend it');
    await expect(lend.getByText('Say who has it.').first()).toBeVisible();
    await fill(lend, { 'Who has it': 'the neighbour' });
    await carryOut(lend, 'Lend it');
    await expect(onShelf(page, /with the neighbour\. B5\.$/)).toBeVisible();
    await press(panel, 'Take it back…');
    await carryOut(sheet(page, 'Take the vessel back'), 'It is back');
    await expect(onShelf(page, /resting until 5 Dec\. B5\.$/)).toBeVisible();
  });
});

test('with the pointer: bottles given, opened and emptied back, told on the leaf', async ({
  page,
  program,
}) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  const card = await bottleAndOpenLeaf(page);
  await expect(card).toContainText(said('8 bottles of 500 ml'));

  await press(card, 'Give…');
  const form = sheet(page, 'Bottles');
  await fill(form, { 'How many': '9' });
  await press(form.getByRole('contentinfo'), 'Carry out');
  await expect(form.getByText('Say to whom they were given.').first()).toBeVisible();
  await fill(form, { 'To whom': 'the neighbour' });
  await press(form.getByRole('contentinfo'), 'Carry out');
  await expect(form.getByText('8 of this lot are left, and 9 are asked for.').first()).toBeVisible();
  await press(form, 'Use 8');
  await fill(form, { 'How many': '3' });
  await carryOut(form, 'Carry out');
  await expect(card).toContainText(said('5 left of 8 bottles of 500 ml'));
  await expect(card).toContainText('3 given to the neighbour, 25 Nov');

  await press(card, 'Empty back…');
  await fill(form, { 'How many': '4' });
  await chooseVessel(form, 'Emptied into', '16');
  await expect(form.getByRole('region', { name: 'Plan' })).toContainText(said('2 L out of bottles'));
  await carryOut(form, 'Carry out');
  await expect(card).toContainText(said('1 left of 8 bottles'));

  await press(card, 'Open…');
  await carryOut(form, 'Carry out');
  await expect(card).toContainText(said('none left of 8 bottles'));
  await expect(card.getByRole('button')).toHaveCount(0);
  await press(page, /^Undo/);
  await expect(card).toContainText(said('1 left of 8 bottles'));
});

test('dragging, pressing twice and keys all end in the same plan', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  const from = onShelf(page, /^Crab and cooker cider/);
  await expect(from).toBeVisible();
  const form = sheet(page, 'Transfer');
  const samePlan = async (): Promise<void> => {
    await expect(choice(form, 'From')).toHaveValue('B2, Crab and cooker cider');
    await expect(choice(form, 'Into')).toHaveValue('B6, empty demijohn 16');
    await page.keyboard.press('Escape');
    await expect(form).toBeHidden();
  };

  await test.step('dragged', async () => {
    await drag(page, from, onShelf(page, demijohn));
    await samePlan();
  });

  await test.step('pressed, then pressed where it goes', async () => {
    await press(await chooseOnShelf(page, from), /^Transfer…/);
    await onShelf(page, demijohn).click();
    await samePlan();
  });

  await test.step('by keys', async () => {
    await from.click();
    for (const key of ['t', 'ArrowRight', 'ArrowRight', 'ArrowRight', 'ArrowRight', 'Enter']) {
      await page.keyboard.press(key);
    }
    await samePlan();
  });

  await test.step('pressed in the table', async () => {
    await press(await chooseOnShelf(page, from), /^Transfer…/);
    await press(page, 'As a table');
    const table = page.getByRole('region', { name: 'Vessels as a table' });
    await expect(table.getByText(said('5 L free: transfer here')).first()).toBeVisible();
    await table.getByRole('button', { name: 'Vessel 16' }).click();
    await samePlan();
  });
});

test('by keys alone: a split, a blend, and bottles', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await expect(onShelf(page, cider)).toBeVisible();
  const keys = async (...pressed: readonly string[]): Promise<void> => {
    for (const key of pressed) await page.keyboard.press(key);
  };
  /** Tabs on until the field or button with this name has focus. */
  const tabTo = async (within: Page | Locator, role: 'textbox' | 'combobox' | 'button', name: RegExp) => {
    const wanted = within.getByRole(role, { name }).first();
    for (let step = 0; step < 60; step += 1) {
      if (await wanted.evaluate((element) => element === document.activeElement)) break;
      await keys('Tab');
    }
    await expect(wanted).toBeFocused();
    await seeFocus(page);
  };
  const chooseByKeys = async (form: Locator, name: RegExp, text: string, line: RegExp): Promise<void> => {
    await tabTo(form, 'combobox', name);
    await page.keyboard.type(text);
    await expect(form.getByRole('option', { name: line }).filter({ visible: true }).first()).toBeVisible();
    await keys('Enter');
  };

  /** A name whose first letter is a key of the shelf is found. */
  const findByKeys = async (name: string): Promise<void> => {
    await keys('Control+k');
    await page.keyboard.type(name);
    await expect(page.getByText(`Enter shows ${name} on the shelf.`)).toBeVisible();
    await keys('Enter');
    await expect(onShelf(page, new RegExp(`^${name}`))).toBeFocused();
  };

  await test.step('the list of keys names S', async () => {
    await expect(page.locator(':focus')).toHaveCount(1);
    await keys('F1');
    const list = sheet(page, 'Keys');
    await expect(list).toContainText('Split into several vessels');
    await keys('Escape');
    await expect(list).toBeHidden();
  });

  await test.step('S on the vessel at hand', async () => {
    await findByKeys('Late keepers cider');
    await keys('s');
    const form = sheet(page, 'Split');
    await expect(form).toBeVisible();
    await chooseByKeys(form, /^Part 1: into/, '16', /demijohn 16/);
    await tabTo(form, 'textbox', /^Part 1: how much/);
    await page.keyboard.type('2 L');
    await chooseByKeys(form, /^Part 2: into/, 'perry 2025', /Perry 2025/);
    await tabTo(form, 'textbox', /^Part 2: how much/);
    await page.keyboard.type('1 L');
    await keys('Enter');
    await expect(form).toBeHidden();
    await seeDone(page, 'split: 2 L to …, 1 L to');
    await keys('Control+z');
    await seeDone(page, 'Taken back: splitting');
  });

  await test.step('Space selects two, and the panel blends them', async () => {
    // What was found is still chosen: it is let go first.
    await onShelf(page, /^Perry 2025/).focus();
    await keys('Escape', 'Space');
    await page.keyboard.type('black');
    await expect(onShelf(page, /^Blackberry wine/)).toBeFocused();
    await page.waitForTimeout(1_000);
    await keys('Space');
    await tabTo(sidePanel(page), 'button', /^Blend 2…/);
    await keys('Enter');
    const form = sheet(page, 'Blend');
    await expect(form).toBeVisible();
    await tabTo(form, 'textbox', /^How much, 1/);
    await page.keyboard.type('1 L');
    await tabTo(form, 'textbox', /^How much, 2/);
    await page.keyboard.type('500 ml');
    await chooseByKeys(form, /^Into/, '16', /demijohn 16/);
    await tabTo(form, 'button', /^Carry out/);
    await keys('Enter');
    await expect(form).toBeHidden();
    await seeDone(page, 'lended in …: 1 L of …, 500 ml of');
  });

  await test.step('bottles on the leaf', async () => {
    const card = await bottleAndOpenLeaf(page);
    await tabTo(card, 'button', /^Give…/);
    await keys('Enter');
    const form = sheet(page, 'Bottles');
    await tabTo(form, 'textbox', /^To whom/);
    await page.keyboard.type('the neighbour');
    await keys('Enter');
    await expect(form).toBeHidden();
    await expect(card).toContainText(said('7 left of 8 bottles'));
  });
});

/** Bottles some of the Perry and goes to its leaf; what is told there of the bottles. */
async function bottleAndOpenLeaf(page: Page): Promise<Locator> {
  const panel = await chooseOnShelf(page, /^Perry 2025.* C2\.$/);
  await press(panel, /^Bottle$/);
  const form = sheet(page, 'Bottle');
  await fill(form, { 'Size of a bottle': '500 ml', 'How many': '8' });
  await carryOut(form, 'Carry out');
  await press(panel, /^Open leaf/);
  const card = page.getByRole('region', { name: 'Bottled' });
  await expect(card).toBeVisible();
  return card;
}

async function drag(page: Page, from: Locator, to: Locator): Promise<void> {
  const [start, end] = [await from.boundingBox(), await to.boundingBox()];
  if (start === null || end === null) throw new Error('nothing to drag');
  await page.mouse.move(start.x + start.width / 2, start.y + start.height / 2);
  await page.mouse.down();
  await page.mouse.move(end.x + end.width / 2, end.y + end.height / 2, { steps: 8 });
  await page.mouse.up();
}
