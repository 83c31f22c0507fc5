import type { Locator, Page } from '@playwright/test';
import { expect, test } from './program.ts';
import {
  addFromMenu,
  carryOut,
  choice,
  choose,
  chooseOnShelf,
  chooseVessel,
  closeForm,
  field,
  fill,
  goTo,
  linesInTheBook,
  onShelf,
  press,
  said,
  seeDone,
  segment,
  sheet,
  sidePanel,
} from './keeper.ts';

/**
 * Every form that writes: what it refuses, in words that name the field, what was understood and what is allowed, with
 * all that was typed still there and nothing written; and then the act itself, done once, with what it changes seen.
 */

/** Tall, so that every shelf of the sample is in sight. */
test.use({ viewport: { width: 1280, height: 2600 } });

/** Text typed into fields by their labels, and what the form must then say after a press. */
interface Mistake {
  readonly typed?: Readonly<Record<string, string>>;
  readonly says: string;
}

const FUTURE: Mistake = {
  typed: { When: '2099-01-01 12:00' },
  says: 'When: 2099-01-01 12:00 is still to come; it is … now.',
};
const NOT_A_TIME: Mistake = {
  typed: { When: 'the other day' },
  says: 'When: “the other day” is not read as a time. Write now, yesterday 18:00, 3 d ago, or …',
};

/** Makes the mistakes one after another in one open form. The last one is then put right by the caller. */
async function refuses(form: Locator, act: string | RegExp, mistakes: readonly Mistake[]): Promise<void> {
  for (const { typed = {}, says } of mistakes) {
    await fill(form, typed);
    await press(form.getByRole('contentinfo'), act);
    const summary = form.getByRole('group', { name: 'What to mend' });
    await expect(summary).toContainText(said(says));
    await expect(summary).toContainText('Nothing is written yet.');
    await expect(form).toBeVisible();
    for (const [label, text] of Object.entries(typed)) await expect(field(form, label)).toHaveValue(text);
  }
}

async function wayOut(form: Locator, name: string): Promise<void> {
  await form
    .getByRole('group', { name: /^Ways to mend/ })
    .getByRole('button', { name, exact: true })
    .click();
}

/** Runs mistakes that may not write, then holds that the book is as long as before. */
async function writesNothing(page: Page, mistakes: () => Promise<void>): Promise<void> {
  const before = await linesInTheBook(page);
  await mistakes();
  expect(await linesInTheBook(page)).toBe(before);
}

test('places, shelves and vessels', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await expect(onShelf(page, /^Damson wine/)).toBeVisible();

  await test.step('a place', async () => {
    const form = sheet(page, 'Add a place');
    await writesNothing(page, async () => {
      await addFromMenu(page, 'A place');
      await refuses(form, 'Add it', [
        { says: 'Name: Give the place a name, for instance Pantry.' },
        { typed: { Name: 'Shed', 'Shelves in it': 'two' }, says: 'Shelves in it: Give the …whole number, ' },
        {
          typed: { 'Shelves in it': '1', 'Places on each shelf': '0' },
          says: 'Places on each shelf: …at least 1',
        },
        { typed: { 'Places on each shelf': '99999' }, says: 'Places on each shelf: …at most ' },
      ]);
      await closeForm(form);
    });
    await addFromMenu(page, 'A place');
    await expect(field(form, 'Name')).toHaveValue('Shed');
    await fill(form, { 'Places on each shelf': '4' });
    await carryOut(form, 'Add it');
    await expect(page.getByRole('rowheader', { name: /^Shed/ })).toHaveCount(1);
  });

  await test.step('a shelf, and several at once', async () => {
    await addFromMenu(page, 'A shelf');
    const form = sheet(page, /^Add (a shelf|shelves)$/);
    await choice(form, 'In which place').selectOption('Shed');
    await refuses(form, 'Add it', [
      { says: 'Name of the shelf: ' },
      {
        typed: { 'Name of the shelf': 'Under the window', 'Places on it': 'x' },
        says: 'Places on it: Give the ',
      },
    ]);
    await fill(form, { 'Places on it': '3' });
    await carryOut(form, 'Add it');
    await expect(page.getByRole('rowheader', { name: /Under the window/ })).toHaveCount(1);
  });

  await test.step('a shelf described anew, and the place it is in', async () => {
    await press(page, /^Change shelf Pantry, top shelf/);
    const form = sheet(page, 'Describe the shelf');
    await expect(field(form, 'Name of the shelf')).toHaveValue(/^top shelf$/i);
    await refuses(form, 'Keep', [
      { typed: { 'Name of the shelf': '' }, says: 'Name of the shelf: ' },
      {
        typed: { 'Name of the shelf': 'Highest shelf', 'Places on it': '1' },
        says: 'A vessel stands at position …, so the shelf cannot end at 1. Give at least ',
      },
    ]);
    await form.getByRole('button', { name: /^Use \d+$/ }).click();
    await carryOut(form, 'Keep');
    await expect(page.getByRole('rowheader', { name: /^Pantry, highest shelf/i }).first()).toBeVisible();

    await press(page, /^Change shelf Pantry, highest shelf/i);
    await press(form, /^Change Pantry, the place it is in/);
    const place = sheet(page, 'Describe the place');
    await expect(field(place, 'Name')).toHaveValue('Pantry');
    await refuses(place, 'Keep', [{ typed: { Name: '' }, says: 'Name: Give it a name.' }]);
    await fill(place, { Name: 'North pantry' });
    await carryOut(place, 'Keep');
    await expect(page.getByRole('rowheader', { name: /^North pantry/ }).first()).toBeVisible();
  });

  await test.step('a vessel', async () => {
    const form = sheet(page, /^Add (a vessel|\d+ vessels)$/);
    await writesNothing(page, async () => {
      await addFromMenu(page, 'A vessel');
      await choose(form, 'On which shelf', /North pantry/);
      await refuses(form, 'Add it', [
        { typed: { 'Holds, brim full': '' }, says: 'Holds, brim full: Type a volume, for instance 4.5 L' },
        { typed: { 'Holds, brim full': '5 kg' }, says: 'Holds, brim full: “kg” is not a unit of ' },
        { typed: { 'Holds, brim full': '5' }, says: 'Holds, brim full: “5” of what? Write the unit too' },
        { typed: { 'Holds, brim full': '0 L' }, says: 'Holds, brim full: This has to be more than nothing.' },
        { typed: { 'Holds, brim full': '90000 L' }, says: 'Holds, brim full: 90000 L ' },
        {
          typed: { 'Holds, brim full': '1,048 ml' },
          says: 'Holds, brim full: “1,048 ml” may be … or … Which is meant?',
        },
      ]);
      await wayOut(form, 'Use 1048 ml');
      await refuses(form, 'Add it', [
        { typed: { Position: '1' }, says: 'Position 1 is taken by vessel …. Choose a free one' },
        { typed: { Position: '4000' }, says: 'Position: …' },
        { typed: { Position: '' }, says: 'Position: …' },
      ]);
      await closeForm(form);
    });
    await addFromMenu(page, 'A vessel');
    await press(form, 'Start afresh');
    await form.getByRole('radio', { name: 'Bottle' }).check();
    await choose(form, 'On which shelf', /Under the window/);
    await fill(form, { 'How many alike': '2', 'Name of its own': 'Green bottle' });
    await carryOut(form, 'Add them');
    await expect(onShelf(page, /^Green bottle, Empty, 750 ml bottle/)).toHaveCount(2);
  });

  await test.step('a vessel described anew', async () => {
    const panel = await chooseOnShelf(page, /^Damson wine/);
    await press(panel, 'Edit vessel');
    const form = sheet(page, 'Describe the vessel');
    await refuses(form, 'Keep', [
      {
        typed: { 'Holds, brim full': '1 L' },
        says: 'Holds, brim full: It holds … now, more than a capacity of 1 L. Give at least ',
      },
    ]);
    await fill(form, { 'Holds, brim full': '12 L' });
    await carryOut(form, 'Keep');
    await expect(onShelf(page, /^Damson wine.* 12 L demijohn/)).toBeVisible();
  });

  await test.step('a vessel moved', async () => {
    const panel = sidePanel(page);
    await press(panel, 'Move vessel');
    const form = sheet(page, 'Move the vessel');
    await refuses(form, 'Move it', [
      { typed: { Position: '1' }, says: 'Position 1 is taken by vessel ' },
      NOT_A_TIME,
      FUTURE,
    ]);
    await choose(form, 'On which shelf', /Under the window/);
    await fill(form, { When: 'now' });
    await carryOut(form, 'Move it');
    await expect(onShelf(page, /^Damson wine.* [A-Z]3\.$/)).toBeVisible();
  });

  await test.step('a closure changed', async () => {
    await press(sidePanel(page), 'Change cover');
    const form = sheet(page, 'Change the closure');
    await segment(form, 'Closed from now on by', 'Water lock').check();
    await refuses(form, 'Change it', [
      { says: 'It is closed that way already: water lock. Choose another.' },
    ]);
    await segment(form, 'Closed from now on by', 'Bung').check();
    await carryOut(form, 'Change it');
    await expect(
      sidePanel(page)
        .getByRole('definition')
        .filter({ hasText: /^bung$/ }),
    ).toBeVisible();
  });

  await test.step('a vessel retired', async () => {
    const panel = await chooseOnShelf(page, onShelf(page, /^Green bottle/).first());
    await press(panel, 'Retire vessel');
    const form = sheet(page, 'Retire this vessel');
    await fill(form, { Why: 'a crack in the neck' });
    await carryOut(form, 'Retire it');
    await expect(onShelf(page, /^Green bottle/)).toHaveCount(1);
  });
});

test('batches: started, yeasted, read, fed, moved on, noted', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await expect(onShelf(page, /^Orchard cider/)).toBeVisible();

  await test.step('a batch started', async () => {
    const form = sheet(page, 'Start a batch');
    await writesNothing(page, async () => {
      await page.keyboard.press('Control+n');
      await press(form, 'Start it');
      const summary = form.getByRole('group', { name: 'What to mend' });
      for (const says of [
        'Name: Name the batch, for instance Windfall cider.',
        'What it is: Say what it is to become.',
        'Into which vessel: Choose the empty vessel it goes into.',
        'How much: Type a volume, for instance ',
      ]) {
        await expect(summary).toContainText(said(says));
      }
      await summary.getByRole('link', { name: 'How much' }).click();
      await expect(field(form, 'How much')).toBeFocused();
      await fill(form, { Name: 'Medlar wine' });
      await choice(form, 'What it is').selectOption('Wine');
      await chooseVessel(form, 'Into which vessel', '16');
      await refuses(form, 'Start it', [
        { typed: { 'How much': '40 L' }, says: 'How much: Vessel … has room for …; 40 L does not fit.' },
        {
          typed: { 'How much': '2 L', 'Sugar, as gravity or Brix': '1.48' },
          says: 'Sugar, as gravity or Brix: 1.48 is outside … Did you mean 1.048?',
        },
      ]);
      await wayOut(form, 'Use 1.048');
      await expect(field(form, 'Sugar, as gravity or Brix')).toHaveValue('1.048');
      await refuses(form, 'Start it', [
        {
          typed: { 'Temperature of the sample': '20 L' },
          says: 'Temperature of the sample: “L” is not a unit of ',
        },
        {
          typed: { 'Temperature of the sample': '', 'Amount of ingredient 1': '2 kg' },
          says: 'Ingredient 1: Name the ingredient of which there is 2 kg.',
        },
        { typed: { 'Ingredient 1': 'Medlars', ...FUTURE.typed }, says: FUTURE.says },
        {
          typed: { When: '03/04/2026' },
          says: 'When: This may be 3 April 2026 or 4 March 2026. Which is meant?',
        },
      ]);
      await closeForm(form);
    });
    await page.keyboard.press('Control+n');
    await expect(form.getByText('This is what you typed before and did not carry out.')).toBeVisible();
    await fill(form, { When: '2 d ago' });
    await carryOut(form, 'Start it');
    await expect(onShelf(page, /^Medlar wine, Waiting, .*gravity 1\.048/)).toBeVisible();
  });

  await test.step('yeast pitched', async () => {
    const panel = await chooseOnShelf(page, /^Medlar wine/);
    await press(panel, 'Pitch yeast');
    const form = sheet(page, 'Pitch yeast');
    await refuses(form, 'Pitch it', [
      { says: 'What is on the packet: Write what is on the packet.' },
      {
        typed: { 'What is on the packet': 'Wine yeast', 'How much': '5 L' },
        says: 'How much: “L” is not a unit of ',
      },
      {
        typed: { 'How much': '', When: '60 d ago' },
        says: 'When: At … this was not in the vessel yet: it has been there since ',
      },
    ]);
    await fill(form, { 'How much': '5 g', When: '1 d ago' });
    await carryOut(form, 'Pitch it');
    await expect(onShelf(page, /^Medlar wine, Yeast ferment/)).toBeVisible();
  });

  await test.step('a reading', async () => {
    const form = sheet(page, 'Record a reading');
    await writesNothing(page, async () => {
      await press(sidePanel(page), /^Record a reading/);
      await refuses(form, 'Keep', [
        { says: 'Nothing is read yet. Type at least one value, for instance 1.012 19C, 4.3 % or pH 3.4.' },
        {
          typed: { 'Reading, as you would chalk it': '1.030 19' },
          says: 'Reading, as you would chalk it: “19” may be 19 °Bx … or 19 pts … Which is meant?',
        },
        {
          typed: { 'Reading, as you would chalk it': '', Gravity: '1.030 kg' },
          says: 'Gravity: “kg” is not a unit of ',
        },
        {
          typed: { Gravity: 'half' },
          says: 'Gravity: “half” is not read as a gravity. Type a number, for instance ',
        },
        { typed: { Gravity: '1.030', pH: '34' }, says: 'pH: 34 ' },
        { typed: { pH: '', 'Titratable acidity': '52' }, says: 'Titratable acidity: …' },
        { typed: { 'Titratable acidity': '0.7 %' }, says: 'Counted as: Say which acid this is counted as.' },
        { typed: { 'Titratable acidity': '', ...NOT_A_TIME.typed }, says: NOT_A_TIME.says },
        FUTURE,
      ]);
      await closeForm(form);
    });
    await press(sidePanel(page), /^Record a reading/);
    await press(form, 'Start afresh');
    await fill(form, { Gravity: '1.48' });
    await press(form.getByRole('contentinfo'), 'Keep');
    await wayOut(form, 'Keep 1.48');
    await expect(form.getByText(said('kept although it is outside what is expected'))).toBeVisible();
    await fill(form, { Gravity: '1.041', 'Temperature of the sample': '18' });
    await carryOut(form, 'Keep');
    await expect(onShelf(page, /^Medlar wine.*gravity 1\.04/)).toBeVisible();
  });

  await test.step('something added', async () => {
    await press(sidePanel(page), 'Add to it');
    const form = sheet(page, 'Add to it');
    await refuses(form, 'Add it', [
      { says: 'How much: Say how much, for instance 500 g, 2 L or 3 tsp.' },
      { typed: { 'How much': 'a handful' }, says: 'How much: a handful is not read as a volume.' },
      { typed: { 'How much': '40 L' }, says: 'has room for …; 40 L does not fit.' },
    ]);
    await choice(form, 'What').selectOption('Sugar');
    await fill(form, { 'More closely': 'cane sugar', 'How much': '200 g' });
    await carryOut(form, 'Add it');
    await seeDone(page, '200 g cane sugar added to Medlar wine…');
  });

  await test.step('moved on', async () => {
    await press(sidePanel(page), /^Move on/);
    const form = sheet(page, 'Move on');
    await refuses(form, 'Move it on', [FUTURE]);
    await form.getByRole('radio', { name: 'Held' }).check();
    await fill(form, { When: 'now', Why: 'a film on top' });
    await carryOut(form, 'Move it on');
    await expect(onShelf(page, /^Medlar wine, Held/)).toBeVisible();
  });

  await test.step('a note, and the leaf changed', async () => {
    await press(sidePanel(page), /^Note/);
    let form = sheet(page, 'Note on this batch');
    await refuses(form, 'Keep', [
      { says: 'Note: Write the note first.' },
      { typed: { Note: 'Smells of almonds.', ...FUTURE.typed }, says: FUTURE.says },
    ]);
    await fill(form, { When: 'now' });
    await carryOut(form, 'Keep');
    await press(sidePanel(page), /^Open leaf/);
    await expect(page.getByRole('region', { name: 'Days' })).toContainText('Smells of almonds.');

    await press(page, 'Rename or edit');
    form = sheet(page, 'Change the leaf');
    await refuses(form, 'Keep', [{ typed: { Name: '' }, says: 'Name: Give it a name.' }]);
    await fill(form, { Name: 'Medlar wine, first try' });
    await carryOut(form, 'Keep');
    await expect(page.getByRole('heading', { name: 'Medlar wine, first try', level: 1 })).toBeVisible();
  });
});

test('liquid: transferred, seeded, drawn off, bottled, thrown out, settled', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await expect(onShelf(page, /^Orchard cider/)).toBeVisible();

  await test.step('a transfer', async () => {
    const form = sheet(page, 'Transfer');
    await writesNothing(page, async () => {
      const panel = await chooseOnShelf(page, /^Vessel 16, Empty/);
      await press(panel, 'Fill from…');
      await refuses(form, 'Carry out', [{ says: 'From: Choose the vessel to pour from.' }]);
      await chooseVessel(form, 'From', 'Quince wine');
      await refuses(form, 'Carry out', [
        { typed: { 'How much': '' }, says: 'How much: Type a volume, for instance ' },
        { typed: { 'How much': '40 L' }, says: 'holds …, and 40 L is asked of it. At most … can go.' },
        {
          typed: { 'How much': '4 L', 'Left behind as lees': '3 L' },
          says: 'of which 3 L is to stay as lees. At most … can be poured off.',
        },
      ]);
      await fill(form, { 'Left behind as lees': '100 ml', 'How much': '2 L' });
      await segment(form, 'It is', 'A batch of its own').check();
      await expect(choice(form, 'What it is')).toHaveValue('wine');
      await choice(form, 'What it is').selectOption('Choose');
      await refuses(form, 'Carry out', [
        { says: 'Name of the new batch: Name the new batch.' },
        { says: 'What it is: Say what the new batch is.' },
        { typed: { 'Name of the new batch': 'Quince for the cask' }, says: 'One thing has to be mended.' },
      ]);
      await choice(form, 'What it is').selectOption('Wine');
      await refuses(form, 'Carry out', [FUTURE]);
      await closeForm(form);
    });
    const panel = await chooseOnShelf(page, /^Vessel 16, Empty/);
    await press(panel, 'Fill from…');
    await chooseVessel(form, 'From', 'Quince wine');
    await fill(form, { 'How much': '2 L', 'Left behind as lees': '100 ml', When: 'now' });
    await expect(field(form, 'Name of the new batch')).toHaveValue('Quince for the cask');
    await expect(form.getByRole('region', { name: 'Plan' })).toContainText(said('2 L of 5 L'));
    await carryOut(form, 'Carry out');
    await expect(onShelf(page, /^Quince for the cask, Maturing, 5 L demijohn, 40 % full/)).toBeVisible();
  });

  await test.step('seeded, from a culture and from a bottle', async () => {
    const panel = await chooseOnShelf(page, /^Quince for the cask/);
    await press(panel, 'Add a mother');
    const form = sheet(page, 'Seed with a mother');
    await refuses(form, 'Carry out', [{ says: 'Culture: Choose the culture.' }]);
    await choose(form, 'Culture', /^Old Bess/);
    await refuses(form, 'Carry out', [
      { typed: { 'How much': '9 L' }, says: '9 L' },
      { typed: { 'How much': '2 kg' }, says: 'How much: “kg” is not a unit of ' },
      { typed: { 'How much': '100 ml', ...FUTURE.typed }, says: FUTURE.says },
    ]);
    await fill(form, { When: 'now' });
    await segment(form, 'What goes in', 'Bought raw vinegar').check();
    await refuses(form, 'Carry out', [{ says: 'What was bought: Write what was bought' }]);
    await fill(form, { 'What was bought': 'raw, unpasteurised, with mother' });
    await carryOut(form, 'Carry out');
    await expect(onShelf(page, /^Quince for the cask, Vinegar ferment/)).toBeVisible();
  });

  await test.step('a cover that keeps the air out is told at once', async () => {
    await press(sidePanel(page), 'Change cover');
    const form = sheet(page, 'Change the closure');
    await segment(form, 'Closed from now on by', 'Bung').check();
    await expect(form.getByText('A mother needs air.')).toBeVisible();
    await carryOut(form, 'Change it');
    await expect(
      onShelf(page, /^Quince for the cask, Vinegar ferment, Held: no air for the mother/),
    ).toBeVisible();
  });

  await test.step('drawn off', async () => {
    await press(sidePanel(page), 'Draw off');
    const form = sheet(page, 'Draw off');
    await refuses(form, 'Carry out', [
      { says: 'How much: Type a volume, for instance ' },
      { typed: { 'How much': '5 %' }, says: 'How much: “%” is not a unit of ' },
      { typed: { 'How much': '0 ml' }, says: 'How much: This has to be more than nothing.' },
      { typed: { 'How much': '3 L' }, says: 'holds 2.1 L, and 3 L is asked of it. At most 2.1 L can go.' },
    ]);
    await wayOut(form, 'Use 2.1 L');
    await refuses(form, 'Carry out', [FUTURE]);
    await fill(form, { 'How much': '100 ml', When: 'now', 'What for': 'to taste' });
    await carryOut(form, 'Carry out');
    await seeDone(page, 'Drew off 100 ml from Quince for the cask…to taste');
  });

  await test.step('bottled', async () => {
    await press(sidePanel(page), /^Bottle$/);
    const form = sheet(page, 'Bottle');
    await refuses(form, 'Carry out', [
      { says: 'How many: Give the number of bottles as a whole number, 1 to 10,000.' },
      { typed: { 'How many': '0' }, says: 'How many: The number of bottles is at least 1.' },
      { typed: { 'How many': '3', 'Size of a bottle': '' }, says: 'Size of a bottle: Type a volume' },
      { typed: { 'Size of a bottle': '750 ml' }, says: 'holds 2 L, and 2.25 L is asked of it.' },
      { typed: { 'How many': '2', 'Lost on the way': '1 L' }, says: 'holds 2 L, and 2.5 L is asked of it.' },
    ]);
    await fill(form, { 'Lost on the way': '' });
    await carryOut(form, 'Carry out');
    await expect(onShelf(page, /^Quince for the cask, Vinegar ferment.* 10 % full/)).toBeVisible();
  });

  await test.step('a level that differs, settled', async () => {
    await press(sidePanel(page), /^Record a reading/);
    const reading = sheet(page, 'Record a reading');
    await fill(reading, { 'Reading, as you would chalk it': '400 ml' });
    await carryOut(reading, 'Keep');
    await expect(sidePanel(page).getByText('The level and the book differ')).toBeVisible();
    await press(sidePanel(page), 'Settle…');
    const form = sheet(page, 'Settle the level');
    await expect(field(form, 'What stands in it')).toHaveValue('400 ml');
    await refuses(form, 'Settle it', [
      { typed: { 'What stands in it': '' }, says: 'What stands in it: Type a volume' },
      {
        typed: { 'What stands in it': '500 ml' },
        says: 'What stands in it: This is what the book says already',
      },
      { typed: { 'What stands in it': '6 L' }, says: '6 L' },
      { typed: { 'What stands in it': '400 ml', ...FUTURE.typed }, says: FUTURE.says },
    ]);
    await fill(form, { When: 'now' });
    await segment(form, '100 ml less than the book has: where did it go?', 'Spilled or lost').check();
    await carryOut(form, 'Settle it');
    await expect(onShelf(page, /^Quince for the cask.* 8 % full/)).toBeVisible();
    await expect(sidePanel(page).getByText('The level and the book differ')).toBeHidden();
  });

  await test.step('thrown out', async () => {
    await press(sidePanel(page), 'Discard');
    const form = sheet(page, 'Throw out');
    await refuses(form, 'Carry out', [
      { says: 'How much: Type a volume' },
      { says: 'Why: Say why it is thrown out; the book keeps the reason.' },
      {
        typed: { 'How much': '1 L', Why: 'smells of solvent' },
        says: 'holds 400 ml, and 1 L is asked of it.',
      },
    ]);
    await press(form, 'All of it');
    await carryOut(form, 'Carry out');
    await expect(onShelf(page, /^Vessel 16, Empty/)).toBeVisible();
  });
});

test('cultures: added, divided, described, fed', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await goTo(page, 'Cultures');
  const form = sheet(page, /^(Add a culture|Describe the culture|Feed .*|Note on this culture)$/);

  await test.step('a culture', async () => {
    await writesNothing(page, async () => {
      await press(page, /^Add a culture/);
      await refuses(form, 'Add it', [{ says: 'Name: Name the culture, for instance Old Bess.' }]);
      await fill(form, { Name: 'Ginger plant' });
      await choice(form, 'What sort').selectOption('Starter');
      await chooseVessel(form, 'Stands in', '16');
      await refuses(form, 'Add it', [
        { says: 'How much of it: Type a volume' },
        { typed: { 'How much of it': '60 L' }, says: 'has room for …; 60 L does not fit.' },
        { typed: { 'How much of it': '1 L', ...FUTURE.typed }, says: FUTURE.says },
      ]);
      await closeForm(form);
    });
    await press(page, /^Add a culture/);
    await fill(form, { When: '2 d ago' });
    await carryOut(form, 'Add it');
    await expect(page.getByRole('list', { name: 'Cultures' })).toContainText('Ginger plant');
  });

  await test.step('divided, described anew, fed, noted', async () => {
    await page
      .getByRole('list', { name: 'Cultures' })
      .getByRole('link', { name: /^Old Bess/ })
      .click();
    await expect(page.getByRole('heading', { name: 'Old Bess', level: 2 })).toBeVisible();
    await press(page, /^Divide…/);
    await fill(form, { Name: 'Bess’s daughter' });
    await carryOut(form, 'Add it');
    await expect(page.getByRole('region', { name: 'Family' })).toContainText('Bess’s daughter');

    await press(page, /^Edit…/);
    await expect(field(form, 'Name')).toHaveValue('Old Bess');
    await refuses(form, 'Keep', [{ typed: { Name: '' }, says: 'Name: Give it a name.' }]);
    await fill(form, { Name: 'Old Bess', Note: 'thick and pale' });
    await carryOut(form, 'Keep');
    await expect(page.getByRole('definition').filter({ hasText: 'thick and pale' })).toBeVisible();

    await press(page, /^Feed…/);
    await refuses(form, 'Note it', [
      { says: 'What it was fed: Say what it was fed, for instance 200 ml of cider.' },
      { typed: { 'What it was fed': '200 ml of cider', ...FUTURE.typed }, says: FUTURE.says },
    ]);
    await fill(form, { When: 'now' });
    await carryOut(form, 'Note it');
    await expect(page.getByRole('region', { name: 'Days' })).toContainText('200 ml of cider');

    await press(page, /^Note…/);
    await refuses(form, 'Keep', [{ says: 'Note: Write the note first.' }]);
    await fill(form, { Note: 'Give some to the neighbours.' });
    await carryOut(form, 'Keep');
    await expect(page.getByRole('region', { name: 'Days' })).toContainText('Give some to the neighbours.');
  });
});

test('a chalked line that is not plain is asked about, and writes nothing', async ({ page, program }) => {
  await program.open('--demo');
  await expect(onShelf(page, /^Orchard cider/)).toBeVisible();
  const box = page.getByRole('combobox', { name: 'Find, or chalk a reading' });
  await writesNothing(page, async () => {
    for (const [line, says] of [
      ['B1 1.48', '1.48 is outside … Did you mean 1.048?'],
      ['B1 1.010 19', '“19” may be 19 °Bx (gravity 1.079 SG) or 19 pts (gravity 1.019 SG). Which is meant?'],
      ['B1 1.010 1.012', 'This gives the gravity twice. Leave one out.'],
      ['Z9 1.010', '…Z9…'],
      ['B6 1.010', '…empty…'],
    ] as const) {
      await page.keyboard.press('Control+k');
      await box.fill(line);
      await expect(page.getByRole('search')).toContainText(said(says));
      await page.keyboard.press('Enter');
      await expect(box).toHaveValue(line);
    }
    await box.fill('');
    await page.keyboard.press('Escape');
  });
  await page.keyboard.press('Control+k');
  await box.fill('B1 1.48');
  await page.getByRole('option', { name: 'Use 1.048' }).click();
  await expect(box).toHaveValue('B1 1.048');
  await page.keyboard.press('Enter');
  await seeDone(page, 'Gravity 1.048, in Orchard cider…');
});
