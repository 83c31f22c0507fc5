import type { Locator, Page } from '@playwright/test';
import { expect, test } from './program.ts';
import {
  beginCellar,
  carryOut,
  chooseOnShelf,
  choice,
  chooseVessel,
  field,
  fill,
  goTo,
  onShelf,
  press,
  putVessel,
  said,
  seeDone,
  seeFocus,
  sheet,
} from './keeper.ts';

/** A year in short with five mistakes in it: each is put right by what it says, never by rubbing it out. */
test('five mistakes put right, one correction taken back, and the book adds up', async ({
  page,
  program,
}) => {
  test.setTimeout(240_000);
  await program.open();
  await beginCellar(page, { name: 'Orchard cellar', shelves: 1, positions: 6 });

  await test.step('a year, with its mistakes', async () => {
    await putVessel(page, 'A1', { shape: 'Demijohn', holds: '5 L' });
    await putVessel(page, 'A2', { shape: 'Demijohn', holds: '5 L' });
    await putVessel(page, 'A3', { shape: 'Jar', holds: '3 L' });
    await putVessel(page, 'A4', { shape: 'Crock', holds: '6 L' });
    await start(page, 'A1', { Name: 'Windfall cider', 'How much': '4.5 L', When: '200 d ago' }, 'Cider');

    // The yeast went in the day after, not ten days later.
    await press(await chooseOnShelf(page, / A1\.$/), 'Pitch yeast');
    let form = sheet(page, 'Pitch yeast');
    await fill(form, { 'What is on the packet': 'Cider yeast', When: '190 d ago' });
    await carryOut(form, 'Pitch it');

    // Two digits changed places: it was 1.010.
    await press(await chooseOnShelf(page, / A1\.$/), /^Record a reading/);
    form = sheet(page, 'Record a reading');
    await fill(form, { 'Reading, as you would chalk it': '1.101 19C', When: '150 d ago' });
    await carryOut(form, 'Keep');

    // 4.2 L were racked, not 4.
    await press(await chooseOnShelf(page, / A1\.$/), /^Transfer…/);
    await onShelf(page, /^Vessel 2, Empty/).click();
    form = sheet(page, 'Transfer');
    await fill(form, { 'How much': '4 L', 'Left behind as lees': '200 ml', When: '140 d ago' });
    await carryOut(form, 'Carry out');

    // It was drawn from the new jug, not from what was left in the old one.
    await press(await chooseOnShelf(page, / A1\.$/), 'Draw off');
    form = sheet(page, 'Draw off');
    await fill(form, { 'How much': '250 ml', 'What for': 'for a pot roast', When: '100 d ago' });
    await carryOut(form, 'Carry out');

    // The pears went into the jar, not into the crock.
    await start(page, 'A4', { Name: 'Pear must', 'How much': '2 L', When: '60 d ago' }, 'Fruit vinegar');
    await press(await chooseOnShelf(page, / A4\.$/), /^Record a reading/);
    form = sheet(page, 'Record a reading');
    await fill(form, { 'Reading, as you would chalk it': '1.040 18C', When: '50 d ago' });
    await carryOut(form, 'Keep');
  });

  await openLeaf(page, / A1\.$/);

  await test.step('the wrong date: the line keeps its place, with the right day beside it', async () => {
    const form = await correct(page, /^Pitched Cider yeast/, 'Correct: pitch yeast');
    await expect(form.getByText(/^The line of .* says$/)).toBeVisible();
    await expect(field(form, 'What is on the packet')).toHaveValue('Cider yeast');
    await field(form, 'When').fill('199 d ago');
    await press(form, 'Show what changes');
    const plan = planSheet(page);
    await expect(plan.getByText('later line', { exact: false }).first()).toBeVisible();
    await field(plan, 'Why').fill('the calendar says so');
    await carryOut(plan, 'Carry out');
    await seeDone(page, '1 earlier line corrected, now pitching yeast into…: the calendar says so.');
    const line = dayLine(page, /^Pitched Cider yeast/);
    await expect(line).toContainText('corrected');
    await expect(line.locator('s')).toHaveCount(1);
    await expect(line.getByText(/^Corrected .*: the calendar says so$/)).toBeVisible();
  });

  await test.step('the wrong gravity, by keys alone', async () => {
    const button = dayLine(page, /^Gravity 1\.101/).getByRole('button', { name: /^Correct…/ });
    await button.focus();
    await page.keyboard.press('Enter');
    const form = sheet(page, 'Correct: record a reading');
    const chalked = field(form, 'Reading, as you would chalk it');
    await expect(chalked).toHaveValue('1.101 19C');
    for (let presses = 0; presses < 20; presses += 1) {
      if (await chalked.evaluate((element) => element === document.activeElement)) break;
      await page.keyboard.press('Tab');
    }
    await expect(chalked).toBeFocused();
    await seeFocus(page);
    await page.keyboard.press('Control+a');
    await page.keyboard.type('1.010 19C');
    await page.keyboard.press('Enter');
    const plan = planSheet(page);
    await expect(plan.getByText('later line', { exact: false }).first()).toBeVisible();
    await seeFocus(page);
    const why = field(plan, 'Why');
    for (let presses = 0; presses < 12; presses += 1) {
      if (await why.evaluate((element) => element === document.activeElement)) break;
      await page.keyboard.press('Tab');
    }
    await page.keyboard.type('digits changed places');
    await page.keyboard.press('Control+Enter');
    await expect(plan).toBeHidden();
    const line = dayLine(page, /^Gravity 1\.101/);
    await expect(line).toContainText(/Now:\s+Gravity\s1\.010/);
    await seeFocus(page);
  });

  await test.step('the wrong volume: what it makes impossible later is named, and put right with it', async () => {
    const form = await correct(page, /^4.L moved/, 'Correct: transfer');
    await field(form, 'How much').fill('4.2 L');
    await press(form, 'Show what changes');
    const plan = planSheet(page);
    await expect(plan.getByText('Told so, this line could not have been')).toBeVisible();
    await expect(plan.getByText(said('Drew off 250 ml from…for a pot roast')).first()).toBeVisible();
    await press(plan, 'Carry out');
    await expect(plan.getByText('Nothing is written: this has to be settled first.')).toBeVisible();
    await press(plan, /^Correct this one too/);
    const second = sheet(page, 'Correct: draw off');
    await chooseVessel(second, 'In which vessel', /^A2/);
    await press(second, 'Show what changes');
    await expect(plan.getByRole('list', { name: 'Volumes now and then' })).toContainText(said('4 L'));
    await field(plan, 'Why').fill('read the jug from the side; and drawn from the other one');
    await carryOut(plan, 'Carry out');
    await seeDone(page, '2 earlier lines corrected: read the jug from the side…');
    await goTo(page, 'Shelves');
    await expect(onShelf(page, /^Windfall cider, .*2 % full.* A1\.$/)).toBeVisible();
    await expect(onShelf(page, /^Windfall cider, .*79 % full.* A2\.$/)).toBeVisible();
  });

  await test.step('a batch started in the wrong vessel goes to the right one, and its reading with it', async () => {
    await openLeaf(page, / A4\.$/);
    const form = await correct(page, /^Started Pear must/, 'Correct: start a batch');
    await chooseVessel(form, 'Into which vessel', /^A3/);
    await press(form, 'Show what changes');
    const plan = planSheet(page);
    await expect(plan.getByText('Told so, this line could not have been')).toBeVisible();
    await press(plan, /^Correct this one too/);
    const reading = sheet(page, 'Correct: record a reading');
    await chooseVessel(reading, 'Vessel', /^A3/);
    await press(reading, 'Show what changes');
    await expect(plan.getByText('later line', { exact: false }).first()).toBeVisible();
    await carryOut(plan, 'Carry out');
    await goTo(page, 'Shelves');
    await expect(onShelf(page, /^Pear must, .*67 % full, gravity 1\.040.* A3\.$/)).toBeVisible();
    await expect(onShelf(page, /^Vessel 4, Empty/)).toBeVisible();
  });

  await test.step('that one is undone and done again; the bar names it', async () => {
    await page.keyboard.press('Control+z');
    await seeDone(page, 'Taken back: correction of 2 earlier lines.');
    await expect(onShelf(page, /^Pear must.* A4\.$/)).toBeVisible();
    await page.keyboard.press('Control+Shift+z');
    await expect(onShelf(page, /^Pear must.* A3\.$/)).toBeVisible();
  });

  await test.step('a correction is taken back from its own day, and brought back', async () => {
    await openLeaf(page, / A3\.$/);
    const line = dayLine(page, /^2 earlier lines corrected/);
    await line.getByRole('button', { name: /^Take it back…/ }).click();
    await carryOut(sheet(page, 'Take this correction back?'), 'Take it back');
    await expect(line.locator('s')).toContainText('2 earlier lines corrected');
    await expect(dayLine(page, /^Started Pear must/).locator('s')).toHaveCount(0);
    await page.keyboard.press('Control+z');
    await expect(line.locator('s')).toHaveCount(0);
    await expect(dayLine(page, /^Started Pear must/).locator('s')).toHaveCount(1);
  });

  await test.step('one on which a later correction rests says so', async () => {
    await openLeaf(page, / A1\.$/);
    await dayLine(page, /^1 earlier line corrected, now pitching yeast/)
      .getByRole('button', { name: /^Take it back…/ })
      .click();
    const form = sheet(page, 'Take this correction back?');
    await press(form, 'Take it back');
    await expect(
      form.getByText('Take that one back first, or correct the line itself once more.'),
    ).toBeVisible();
    await press(form, 'Leave it');
  });

  await test.step('a line on which others rest is taken back with what follows, shown first; then left', async () => {
    await dayLine(page, /^Started Windfall cider/)
      .getByRole('button', { name: /^Strike…/ })
      .click();
    const form = sheet(page, 'Strike this line?');
    await press(form, 'Strike it');
    await press(form, 'Show what would follow');
    const plan = planSheet(page);
    await expect(plan.getByText(/lines could not have been$/)).toBeVisible();
    await press(plan.getByRole('contentinfo'), 'Close');
    await expect(plan).toBeHidden();
    await expect(dayLine(page, /^Started Windfall cider/).locator('s')).toHaveCount(0);
  });

  await test.step('in the pantry, from the diary of the vessel', async () => {
    await page.keyboard.press('Control+Shift+p');
    await goTo(page, 'Shelves');
    const panel = await chooseOnShelf(page, / A4\.$/);
    await panel.getByText('Days of this vessel').click();
    const button = panel.getByRole('button', { name: /^Correct….*Gravity 1\.040/ });
    const box = await button.boundingBox();
    expect(Math.min(box?.width ?? 0, box?.height ?? 0)).toBeGreaterThanOrEqual(44);
    await button.click();
    const form = sheet(page, 'Correct: record a reading');
    await expect(field(form, 'Reading, as you would chalk it')).toHaveValue('1.040 18C');
    await press(form.getByRole('contentinfo'), 'Close');
    await page.keyboard.press('Control+Shift+p');
  });

  await test.step('the check adds up', async () => {
    await page.keyboard.press('Control+,');
    const rules = sheet(page, 'House Rules');
    await press(rules, 'Check this cellar');
    await expect(
      rules.getByText(/^The file is whole, the \d+ lines of the book add up, and the shelf is what/),
    ).toBeVisible();
  });
});

async function start(
  page: Page,
  spot: string,
  texts: Readonly<Record<string, string>>,
  what: string,
): Promise<void> {
  await press(await chooseOnShelf(page, new RegExp(` ${spot}\\.$`)), 'Start a batch');
  const form = sheet(page, 'Start a batch');
  await choice(form, 'What it is').selectOption(what);
  await fill(form, texts);
  await carryOut(form, 'Start it');
}

async function openLeaf(page: Page, which: RegExp): Promise<void> {
  await goTo(page, 'Shelves');
  await press(await chooseOnShelf(page, which), /^Open leaf/);
  await expect(page.getByRole('region', { name: 'Days' })).toBeVisible();
}

/** The line of the diary whose own words begin so. */
function dayLine(page: Page, says: RegExp): Locator {
  return page
    .getByRole('region', { name: 'Days' })
    .locator('.entry')
    .filter({ has: page.locator('.says', { hasText: new RegExp(`^\\s*${says.source.replace('^', '')}`) }) });
}

async function correct(page: Page, says: RegExp, title: string): Promise<Locator> {
  await dayLine(page, says)
    .getByRole('button', { name: /^Correct…/ })
    .click();
  const form = sheet(page, title);
  await expect(form).toBeVisible();
  return form;
}

function planSheet(page: Page): Locator {
  return sheet(page, 'What this correction changes');
}
