import { AxeBuilder } from '@axe-core/playwright';
import type { Locator, Page } from '@playwright/test';
import { BENCH } from '../../src-core/reckonings/bench.ts';
import { expect, test } from './program.ts';
import { chooseVessel, field, onShelf, press, said, seeDone, seeFocus, sheet } from './keeper.ts';

/** Working things out on the bench, by itself and from a vessel, and carrying a plan out. */

const answer = (page: Page): Locator => page.getByRole('region', { name: 'Answer' });
const from = (page: Page): Locator => page.getByRole('region', { name: 'From' });
const named = (page: Page, name: string): Locator =>
  page.getByRole('heading', { name, level: 2, exact: true });

/** Opens a reckoning by typing part of its name into the search of the bench. */
async function find(page: Page, text: string, name: string): Promise<void> {
  await page.getByRole('searchbox', { name: 'Find a reckoning' }).fill(text);
  await expect(page.getByText(said(`Enter opens ${name}.`))).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(named(page, name).last()).toBeVisible();
}

test('five reckonings with keys alone, bad input among them', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await expect(page.getByRole('grid')).toBeVisible();
  await page.keyboard.press('Control+4');
  await expect(page.getByRole('heading', { name: 'Bench', level: 1 })).toBeVisible();
  await expect(page.getByRole('searchbox', { name: 'Find a reckoning' })).toBeFocused();
  await seeFocus(page);

  await test.step('a dilution: a slip of the point is asked about, the answer follows', async () => {
    await find(page, 'dilute vinegar', 'Dilute a vinegar');
    await expect(field(from(page), 'How much there is')).toBeFocused();
    await page.keyboard.type('4.5 L');
    await page.keyboard.press('Tab');
    await page.keyboard.type('64 %');
    await expect(from(page).getByText(/Did you mean/)).toBeVisible();
    await expect(answer(page).getByText(/Look again at/)).toBeVisible();
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expect(field(from(page), 'Acidity')).toHaveValue('64 g/L');
    await expect(answer(page).getByText(said('831 ml'))).toBeVisible();
    await expect(page.getByRole('region', { name: 'Cautions' })).toContainText('Rule CAN-01');
    await page.getByRole('combobox', { name: 'Unit of Water to add, on the safe side' }).selectOption('L');
    await expect(answer(page).getByText(said('0.831 L'))).toBeVisible();
    await expect(page.getByRole('region', { name: 'The working' }).getByRole('listitem')).toHaveCount(5);
  });

  await test.step('too weak to dilute is said in words', async () => {
    await field(from(page), 'Acidity').fill('4.9');
    await expect(answer(page).getByText(/Add no water/)).toBeVisible();
  });

  await test.step('a titration with a comma and a number out of range', async () => {
    await find(page, 'titration', 'Titration');
    await page.keyboard.type('10');
    await field(from(page), 'Strength of the hydroxide').fill('5');
    await field(from(page), 'Hydroxide used').fill('17,1');
    await expect(from(page).getByText(/5 lies outside 0\.001 to 2/)).toBeVisible();
    await field(from(page), 'Strength of the hydroxide').fill('0,5');
    await expect(answer(page).getByText(/^5\.13\s±\s0\.\d\d?\s%$/)).toBeVisible();
  });

  await test.step('a bottle that may burst is stopped in words', async () => {
    await find(page, 'seal', 'Before you seal it');
    await page.keyboard.type('1.012');
    await field(from(page), 'Second reading').fill('1.008');
    await field(from(page), 'Hours between them').fill('72 hours');
    await field(from(page), 'Hours since the second').fill('tomorrow');
    await expect(from(page).getByText(/“tomorrow” is not read as a number/)).toBeVisible();
    await field(from(page), 'Hours since the second').fill('5');
    await expect(page.getByRole('region', { name: 'Cautions' })).toContainText('Do not seal it');
  });

  await test.step('the air of the room, and a gallon', async () => {
    await find(page, 'cellar air', 'Cellar air');
    await page.getByRole('button', { name: 'Show an example' }).press('Enter');
    await expect(page.getByRole('region', { name: 'Cautions' })).toContainText('Air the room');
    await find(page, 'temperatures in other measures', 'Units');
    await field(from(page), 'Volume').fill('1 gal');
    await expect(answer(page).getByText(said('3.78541 L'))).toBeVisible();
  });

  await test.step('back and back again stand where one was', async () => {
    await page.keyboard.press('Alt+ArrowLeft');
    await expect(named(page, 'Cellar air').last()).toBeVisible();
    await page.reload();
    await expect(named(page, 'Cellar air').last()).toBeVisible();
    await expect(field(from(page), 'Litres at work')).toHaveValue('60 L');
  });

  await test.step('a sheet is kept, taken off, laid back and opened', async () => {
    await press(page, /^Keep/);
    await field(sheet(page, 'Keep on the bench'), 'Name').fill('');
    await press(sheet(page, 'Keep on the bench'), 'Keep it');
    await expect(sheet(page, 'Keep on the bench').getByText('Give it a name')).toBeVisible();
    await field(sheet(page, 'Keep on the bench'), 'Name').fill('Pantry in October');
    await press(sheet(page, 'Keep on the bench'), 'Keep it');
    await expect(page.getByText('Kept on the bench as “Pantry in October”.')).toBeVisible();
    await press(from(page), 'Start afresh');
    await expect(field(from(page), 'Litres at work')).toHaveValue('');
    await press(page, 'Take Pantry in October off the bench');
    await press(page, 'Lay it back');
    await press(page, /^Pantry in October/);
    await expect(field(from(page), 'Litres at work')).toHaveValue('60 L');
  });
});

test('from a vessel: filled in, changed, carried out, and asked for again', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  const apple = onShelf(page, /^Apple vinegar 3/);

  await test.step('a reading, then W on the shelf', async () => {
    await apple.click();
    await page.keyboard.press('r');
    const form = sheet(page, 'Record a reading');
    await field(form, 'Reading, as you would chalk it').fill('5.8 %');
    await page.keyboard.press('Enter');
    await expect(form).toBeHidden();
    await expect(apple).toBeFocused();
    await page.keyboard.press('w');
    const opening = page.getByRole('region', { name: 'Work something out for this vessel' });
    await expect(opening.getByText('Apple vinegar 3')).toBeVisible();
    await opening.getByRole('button', { name: /^Dilute a vinegar/ }).click();
  });

  await test.step('its readings stand in the fields, with their day; a what-if is called one', async () => {
    await expect(field(from(page), 'Acidity')).toHaveValue(/^5\.8 %/);
    await expect(field(from(page), 'How much there is')).toHaveValue('1.7 L');
    await expect(
      from(page)
        .getByText(/^Read off this vessel, .*today\.$/)
        .first(),
    ).toBeVisible();
    await field(from(page), 'Acidity').fill('7 %');
    await expect(from(page).getByText(/What if: the vessel says 5\.8 %/)).toBeVisible();
    await expect(page.getByText('You changed what the vessel says')).toBeVisible();
    await press(from(page), /^Put it back/);
    await expect(page.getByText('You changed what the vessel says')).toBeHidden();
  });

  await test.step('the plan refuses what does not fit, then is carried out', async () => {
    const carry = page.getByRole('region', { name: 'Carry out' });
    await expect(carry.getByText(said('→')).first()).toBeVisible();
    const amount = await field(carry, 'How much').inputValue();
    await field(carry, 'How much').fill('2 L');
    await expect(carry.getByText(said('2 L does not fit')).first()).toBeVisible();
    await field(carry, 'How much').fill(amount);
    await press(carry, 'Add this water');
    await seeDone(page, `${amount} water added to Apple vinegar 3`);
    await expect(carry.getByText('Written into the book. Measure again.')).toBeVisible();
    await expect(
      from(page)
        .getByText(/Stale: something went in/)
        .first(),
    ).toBeVisible();
  });

  await test.step('the leaf has the line, and its verdicts ask for a new reading', async () => {
    await press(page.getByRole('region', { name: 'Carry out' }), 'Open leaf');
    await expect(page.getByRole('heading', { name: 'Apple vinegar 3', level: 1 })).toBeVisible();
    await expect(
      page
        .getByRole('region', { name: 'Days' })
        .getByText(/water added/)
        .first(),
    ).toBeVisible();
    const uses = page.getByRole('main');
    await expect(uses.getByText('Not known').first()).toBeVisible();
    await expect(uses.getByText('Meets the rule')).toHaveCount(0);
  });

  await test.step('W on the leaf comes back to the bench, and one press takes the water out again', async () => {
    await page.getByRole('heading', { name: 'Apple vinegar 3', level: 1 }).click();
    await page.keyboard.press('w');
    await expect(page.getByRole('region', { name: 'Work something out for this vessel' })).toBeVisible();
    await page.getByRole('heading', { name: 'Work something out for this vessel' }).click();
    await page.keyboard.press('Control+z');
    await seeDone(page, 'Taken back: …');
    await press(page, /^Dilute a vinegar/);
    await expect(field(from(page), 'How much there is')).toHaveValue('1.7 L');
    await expect(from(page).getByText(/Stale/)).toHaveCount(0);
  });

  await test.step('another vessel is chosen by name', async () => {
    await press(page, /^From a vessel/);
    const form = sheet(page, 'From a vessel');
    await press(form, 'Fill in its readings');
    await expect(form.getByText('Choose a vessel with something in it.')).toBeVisible();
    await chooseVessel(form, 'Vessel', 'Apple vinegar 4');
    await press(form, 'Fill in its readings');
    await expect(form).toBeHidden();
    await expect(page.getByRole('region', { name: 'The vessel it is worked out for' })).toContainText(
      'Apple vinegar 4',
    );
    await press(page, 'Without a vessel');
    await expect(page.getByRole('region', { name: 'The vessel it is worked out for' })).toHaveCount(0);
  });
});

test('every reckoning takes its example, and axe finds nothing', async ({ page, program }) => {
  test.setTimeout(240_000);
  await program.open('--demo');
  await expect(page.getByRole('grid')).toBeVisible();
  await page.keyboard.press('Control+4');
  for (const [i, { id }] of BENCH.entries()) {
    await page.evaluate((hash) => {
      location.hash = hash;
    }, `#/bench/${id}`);
    await expect(page.locator(`#reckoning-${id}`)).toHaveAttribute('aria-current', 'page');
    await press(page, 'Show an example');
    await expect(answer(page).getByRole('definition').first()).toBeVisible();
    expect(await page.getByRole('main').innerText()).not.toMatch(/NaN|undefined|\[object/);
    // Every third is enough to meet each sort of field and of caution.
    if (i % 3 !== 0) continue;
    expect((await new AxeBuilder({ page }).analyze()).violations.map(({ id: rule }) => rule)).toEqual([]);
  }
});

test('one sheet of paper, black on white', async ({ page, program }) => {
  await program.open('--demo');
  await expect(page.getByRole('grid')).toBeVisible();
  await page.keyboard.press('Control+4');
  await find(page, 'dilute vinegar', 'Dilute a vinegar');
  await press(page, /^Print/);
  await expect(page.getByText('There is no answer yet. Fill in the fields first.')).toBeVisible();
  await press(page, 'Show an example');
  const pdf = await page.pdf({ format: 'A4', printBackground: true });
  expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
  await page.emulateMedia({ media: 'print' });
  const paper = page.locator('.paper-sheet');
  for (const part of ['Dilute a vinegar', '831 ml', 'rule CAN-01', 'The working', 'Sources']) {
    await expect(paper).toContainText(said(part));
  }
  await expect(page.getByRole('navigation', { name: 'Places' })).toBeHidden();
});
