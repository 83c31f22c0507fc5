import type { Page } from '@playwright/test';
import { expect, test } from './program.ts';
import {
  beginCellar,
  carryOut,
  chooseOnShelf,
  chooseVessel,
  choice,
  choose,
  field,
  fill,
  goTo,
  onShelf,
  press,
  putVessel,
  segment,
  said,
  seeDone,
  sheet,
  sidePanel,
} from './keeper.ts';

test('from an empty machine to a living shelf, and everything is there the next time', async ({
  page,
  program,
}) => {
  test.setTimeout(180_000);
  await program.open();

  await test.step('the first page asks three things and puts up shelves in bulk', async () => {
    await segment(page, 'Measures', 'Litres').check();
    await segment(page, 'Warmth', '°C').check();
    await field(page, 'Shelves').fill('2');
    await field(page, 'Places on each').fill('6');
    await expect(page.getByText('2 shelves of 6 places.')).toBeVisible();
    await beginCellar(page, { name: 'Orchard cellar', shelves: 2, positions: 6 });
    await expect(page.getByRole('grid')).toHaveAttribute('aria-rowcount', '2');
    await expect(onShelf(page, /free\. Put a vessel here/)).toHaveCount(12);
  });

  await test.step('vessels: a jug under a water lock, a wide jar under cloth, a jar for the mother', async () => {
    await putVessel(page, 'A1', { shape: 'Demijohn', holds: '5 L' });
    await putVessel(page, 'A2', { shape: 'Crock', holds: '6 L', closedBy: 'Cloth, air gets in' });
    await putVessel(page, 'B1', { shape: 'Jar', holds: '2 L', name: 'Mother’s jar' });
    await expect(onShelf(page, /^Vessel 1, Empty, 5 L demijohn\. A1\.$/)).toBeVisible();
  });

  await test.step('a mother, standing in her jar', async () => {
    await goTo(page, 'Cultures');
    await expect(page.getByText('No mothers, yeasts or starters.')).toBeVisible();
    await press(page.getByRole('main'), 'Add a culture');
    const form = sheet(page, 'Add a culture');
    await fill(form, { Name: 'Old Bess', 'Where it comes from': 'a neighbour' });
    await chooseVessel(form, 'Stands in', 'Mother');
    await fill(form, { 'How much of it': '1.5 L', When: '60 d ago' });
    await carryOut(form, 'Add it');
    await expect(page.getByRole('heading', { name: 'Old Bess' })).toBeVisible();
    await goTo(page, 'Shelves');
    await expect(onShelf(page, /^Old Bess, Culture rest, 2 L jar, 75 % full.* B1\.$/)).toBeVisible();
  });

  await test.step('a batch from juice, with its gravity as people write it', async () => {
    const panel = await chooseOnShelf(page, /^Vessel 1, Empty/);
    await press(panel, 'Start a batch');
    const form = sheet(page, 'Start a batch');
    await field(form, 'Name').fill('Windfall apple');
    await choice(form, 'What it is').selectOption('Fruit vinegar');
    await fill(form, {
      'How much': '4.5 L',
      'Sugar, as gravity or Brix': '1,052',
      'Temperature of the sample': '24',
    });
    await expect(
      form.getByText(
        said('gravity 1.052 SG; the comma is read as a decimal mark. Read at 24… °C, it is 1.053 at 20… °C'),
      ),
    ).toBeVisible();
    await expect(form.getByText(said('May become about … by plan; … in theory'))).toBeVisible();
    await fill(form, { 'Ingredient 1': 'Windfall apples', 'Amount of ingredient 1': '7 kg' });
    await fill(form, {
      'Ingredient 2': 'Cane sugar',
      'Amount of ingredient 2': 'a handful',
      When: '40 d ago',
    });
    await expect(form.getByText('It begins in the stage Waiting.')).toBeVisible();
    await carryOut(form, 'Start it');
    await expect(
      onShelf(page, /^Windfall apple, Waiting, 5 L demijohn, 90 % full, gravity 1\.05/),
    ).toBeVisible();
    await expect(panel.getByText(said('May become about … % vol by plan, … in theory.'))).toBeVisible();
    await expect(
      panel.getByText(said('As vinegar then … to … % as acetic by plan; at most … in theory.')),
    ).toBeVisible();
  });

  await test.step('yeast goes in', async () => {
    await press(sidePanel(page), 'Pitch yeast');
    const form = sheet(page, 'Pitch yeast');
    await fill(form, { 'What is on the packet': 'Cider yeast', 'How much': '5 g', When: '39 d ago' });
    await carryOut(form, 'Pitch it');
    await expect(onShelf(page, /^Windfall apple, Yeast ferment/)).toBeVisible();
  });

  await test.step('readings by the form, by the letter R, and chalked', async () => {
    await press(sidePanel(page), /^Record a reading/);
    const form = sheet(page, 'Record a reading');
    await fill(form, { 'Reading, as you would chalk it': '1.030 21C', When: '30 d ago' });
    await carryOut(form, 'Keep');
    await onShelf(page, /^Windfall apple/).click();
    await page.keyboard.press('r');
    await fill(form, { Gravity: '1.010', 'Temperature of the sample': '20', When: '4 d ago' });
    await page.keyboard.press('Enter');
    await expect(form).toBeHidden();
    await expect(onShelf(page, /^Windfall apple/)).toBeFocused();
    await page.keyboard.press('Control+k');
    await page.keyboard.type('A1 1.010 19C');
    await expect(
      page.getByText(said('Enter writes a reading: gravity 1.010 at 19…, on Windfall apple (A1), now.')),
    ).toBeVisible();
    await page.keyboard.press('Enter');
    await seeDone(page, 'Gravity 1.010 at 19… °C, in Windfall apple (A1).');
  });

  await test.step('two equal gravities: it is time to rack', async () => {
    await expect(onShelf(page, /^Windfall apple.*in 3 days: rack off the lees\. A1\.$/)).toBeVisible();
    await onShelf(page, /^Windfall apple/).click();
    await expect(sidePanel(page).getByRole('list', { name: 'Due' })).toContainText('Rack off the lees');
  });

  await test.step('racked from the jug into the wide jar, the lees stated', async () => {
    await press(sidePanel(page), /^Transfer…/);
    await expect(
      page
        .getByText(/^Transferring .* from Windfall apple/)
        .filter({ visible: true })
        .first(),
    ).toBeVisible();
    await onShelf(page, /^Vessel 2, Empty, 6 L crock/).click();
    const form = sheet(page, 'Transfer');
    await field(form, 'Left behind as lees').fill('200 ml');
    await press(form, 'All but the lees');
    await form.getByRole('radio', { name: 'Settling' }).check();
    await expect(form.getByRole('region', { name: 'Plan' })).toContainText(said('empty…4.3 L of 6 L'));
    await carryOut(form, 'Carry out');
    await expect(onShelf(page, /^Vessel 1, Empty, 5 L demijohn\. A1\.$/)).toBeVisible();
    await expect(onShelf(page, /^Windfall apple, Settling, 6 L crock, 72 % full.* A2\.$/)).toBeVisible();
  });

  await test.step('seeded with the mother', async () => {
    const panel = await chooseOnShelf(page, /^Windfall apple/);
    await press(panel, 'Add a mother');
    const form = sheet(page, 'Seed with a mother');
    await choose(form, 'Culture', /^Old Bess/);
    await expect(choice(form, 'Taken from the jar')).toHaveValue(/B1.*Old Bess/);
    await field(form, 'How much').fill('300 ml');
    await carryOut(form, 'Carry out');
    await expect(onShelf(page, /^Windfall apple, Vinegar ferment, 6 L crock.* A2\.$/)).toBeVisible();
    await expect(onShelf(page, /^Old Bess, Culture rest, 2 L jar, 60 % full/)).toBeVisible();
  });

  await test.step('nothing is green before it is measured', async () => {
    const panel = sidePanel(page);
    const vinegar = panel.getByRole('region', { name: /^To be called vinegar: Not known$/ });
    await expect(vinegar).toContainText('Measure next Measure acidity by titration');
    await expect(vinegar).toContainText('What it was made from is not on record');
    await expect(panel.getByRole('region', { name: /^For canning .*: Do not use$/ })).toContainText(
      'nothing is canned with it',
    );
  });

  await test.step('a titration: millilitres, normality and sample, worked out', async () => {
    await press(sidePanel(page), /^Record a reading/);
    const form = sheet(page, 'Record a reading');
    await form.getByText('Work the acidity out from a titration').click();
    await fill(form, { 'Sodium hydroxide used': '12,4', 'Its strength': '0.1 N', 'Sample titrated': '5 mL' });
    // 12.4 mL × 0.1 mol/L × 60.05 g/mol ÷ (10 × 5 mL) = 1.489 g/100 mL.
    await expect(form.getByText(/1\.49/).first()).toBeVisible();
    await choice(form, 'Acidity found by').selectOption({ label: 'Titration with a burette' });
    await carryOut(form, 'Keep');
    await expect(onShelf(page, /^Windfall apple, Vinegar ferment.*acidity 1\.4.* % as acetic/)).toBeVisible();
  });

  await test.step('measured, and still not shown safe', async () => {
    // Strength is measured, but not to what end point, and what it was made from nobody has said.
    const verdict = sidePanel(page).getByRole('region', { name: /^To be called vinegar: Not known$/ });
    await expect(verdict).toContainText('The end point is not on record');
    await expect(verdict).toContainText('What it was made from is not on record');
    await expect(verdict).toContainText(/Measure next\s+Titrate again to pH 8\.2 on a meter/);
    const dressing = sidePanel(page).getByRole('region', { name: /^To dress a salad: Not known$/ });
    await expect(dressing).toContainText('Nobody has looked at it and smelled it yet, for mould');
    await expect(sidePanel(page).getByRole('region', { name: /^For canning .*: Do not use$/ })).toBeVisible();
  });

  await test.step('moved on, drawn off, bottled, thrown out, noted', async () => {
    const panel = sidePanel(page);
    await press(panel, /^Move on/);
    let form = sheet(page, 'Move on');
    await form.getByRole('radio', { name: 'Maturing' }).check();
    await field(form, 'Why').fill('tastes round');
    await carryOut(form, 'Move it on');
    await expect(onShelf(page, /^Windfall apple, Maturing/)).toBeVisible();

    await press(panel, 'Draw off');
    form = sheet(page, 'Draw off');
    await fill(form, { 'How much': '250 ml', 'What for': 'for the kitchen' });
    await carryOut(form, 'Carry out');
    await seeDone(page, 'Drew off 250 ml from Windfall apple (A2): for the kitchen.');

    await press(panel, /^Bottle$/);
    form = sheet(page, 'Bottle');
    await fill(form, { 'Size of a bottle': '500 ml', 'How many': '4', 'Lost on the way': '50 ml' });
    await carryOut(form, 'Carry out');
    await seeDone(page, 'Bottled 4 bottles of 500 ml from Windfall apple (A2), 50 ml lost.');

    await press(panel, 'Discard');
    form = sheet(page, 'Throw out');
    await fill(form, { 'How much': '300 ml', Why: 'cloudy foot' });
    await carryOut(form, 'Carry out');
    // 4.3 L racked and 0.3 L of mother, less 0.25, 2.05 and 0.3 L: 2 L of 6 are left.
    await expect(onShelf(page, /^Windfall apple, Maturing, 6 L crock, 33 % full/)).toBeVisible();

    await press(panel, /^Note/);
    form = sheet(page, 'Note on this batch');
    await field(form, 'Note').fill('Move it away from the window.');
    await carryOut(form, 'Keep');
    await seeDone(page, 'Move it away from the window.');
  });

  await test.step('taken back and done again', async () => {
    const shelf = onShelf(page, /^Windfall apple/);
    await press(page, /^Undo/);
    await seeDone(page, 'Taken back: note "Move it away from the window.".');
    await press(page, /^Undo/);
    await expect(shelf).toHaveAccessibleName(/38 % full/);
    await press(page, /^Redo/);
    await expect(shelf).toHaveAccessibleName(/33 % full/);
    await press(page, /^Redo/);
    await seeDone(page, 'Done again: note "Move it away from the window.".');
  });

  await test.step('closed and opened again: everything is there', async () => {
    const before = await whatStands(page);
    const leafBefore = await wholeLeaf(page);
    await page.goto('about:blank');
    expect(await program.close()).toBe(0);
    await program.open();
    await expect(onShelf(page, /^Windfall apple/)).toBeVisible();
    expect(await whatStands(page)).toEqual(before);
    expect(await wholeLeaf(page)).toEqual(leafBefore);
    await page.keyboard.press('Control+z');
    await seeDone(page, 'Taken back: note "Move it away from the window.".');
  });
});

/** What a reader says of every vessel on the shelf, in the order they stand. */
async function whatStands(page: Page): Promise<readonly string[]> {
  await goTo(page, 'Shelves');
  await expect(onShelf(page, /^Windfall apple/)).toBeVisible();
  const cells = await onShelf(page, / (full|Empty)/).all();
  return Promise.all(cells.map(async (cell) => (await cell.locator('.visually-hidden').textContent()) ?? ''));
}

/** Every line of the leaf of the batch, and what its verdicts and forecasts say. */
async function wholeLeaf(page: Page): Promise<readonly string[]> {
  await onShelf(page, /^Windfall apple/).click();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Windfall apple' })).toBeVisible();
  const days = page.getByRole('region', { name: 'Days' }).getByRole('listitem');
  await expect(days.first()).toBeVisible();
  const lines = await days.allInnerTexts();
  await goTo(page, 'Shelves');
  return lines;
}
