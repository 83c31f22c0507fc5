import type { Locator, Page } from '@playwright/test';
import {
  carryOut,
  choice,
  chooseOnShelf,
  choose,
  field,
  fill,
  onShelf,
  press,
  said,
  segment,
  sheet,
  sidePanel,
} from './keeper.ts';
import { expect, test } from './program.ts';

/** How sour it is, found by a beginner, and what it may be used for: told, looked at, gone against, sealed. */

test.beforeEach(async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await expect(onShelf(page, /^Apple vinegar 3/)).toBeVisible();
});

test('a titration step by step, a reading that stands apart, and the result kept', async ({ page }) => {
  const panel = await chooseOnShelf(page, /^Apple vinegar 3/);
  await panel.getByRole('button', { name: 'Titrate…' }).first().click();
  const form = sheet(page, 'Titrate');
  const next = (): Promise<void> => press(form.getByRole('contentinfo'), /^Next/);
  const step = (number: number): Promise<void> => expect(form.getByText(`Step ${number} of 6`)).toBeVisible();

  await test.step('goggles first; the strength on the bottle is never taken for granted', async () => {
    await expect(form.getByText(/Goggles on, gloves on/).first()).toBeVisible();
    await next();
    await step(2);
    await segment(form, 'What do you titrate with?', 'A burette').check();
    await next();
    await expect(form.getByRole('group', { name: 'What to mend' })).toContainText(
      'doubles or halves the result',
    );
    await segment(form, 'Strength on the bottle of sodium hydroxide', '0.1 N').check();
    await fill(form, { 'Last checked against a standard': '30 d ago' });
    await next();
  });

  await test.step('the sample, a blank', async () => {
    await step(3);
    await choice(form, 'Counted as').selectOption({ value: 'acetic' });
    await fill(form, { Sample: '5' });
    await form
      .getByRole('group', { name: /^Is it fizzy/ })
      .getByRole('radio', { name: 'No', exact: true })
      .check();
    await form
      .getByRole('group', { name: /^Is it so dark/ })
      .getByRole('radio', { name: 'No', exact: true })
      .check();
    await segment(form, 'How do you tell that it is done?', /colour/).check();
    await next();
    await step(4);
    await fill(form, { 'Base the blank took': '0,1' });
    await next();
  });

  await test.step('one that stands apart is pointed out and dropped by nobody but the keeper', async () => {
    await step(5);
    for (const [time, ml] of [
      ['first', '40.9'],
      ['second', '40.95'],
      ['third', '40.91'],
      ['fourth', '45'],
    ] as const)
      await fill(form, { [`Base used, ${time} time`]: ml });
    await expect(form.getByText(/Reading 4, 45\.00\smL,\s+stands apart from the others/)).toBeVisible();
    await fill(form, { 'Base used, fourth time': '' });
    await expect(form.getByText(/stands apart/)).toBeHidden();
  });

  await test.step('the result with its error, its working, and back to look again', async () => {
    await next();
    await step(6);
    // ((40.9 + 40.95 + 40.91) / 3 − 0.1) mL × 0.1 × 60.05 ÷ (10 × 5) = 4.903 g/100 mL, by hand.
    await expect(form.getByText(/4\.90\s±\s0\.18\s%/).first()).toBeVisible();
    await expect(form.getByText(said('(40.9 + 40.95 + 40.91) ÷ 3 − 0.1'))).toBeVisible();
    await press(form.getByRole('contentinfo'), 'Back');
    await step(5);
    await next();
    await fill(form, { 'Taste, smell, look': 'sharp and clean' });
    await carryOut(form, 'Keep the result');
    await expect(onShelf(page, /^Apple vinegar 3.*acidity 4\.9.* % as acetic/)).toBeVisible();
    await press(sidePanel(page), /^Open leaf/);
    await expect(page.getByRole('region', { name: 'Days' })).toContainText('sharp and clean');
  });
});

test('an evening of samples: the blank, a standard, and two vessels in one table', async ({ page }) => {
  const panel = await chooseOnShelf(page, /^Apple vinegar 3/);
  await panel.getByRole('button', { name: 'Titrate…' }).first().click();
  await press(sheet(page, 'Titrate'), 'Several vessels in one evening…');
  const form = sheet(page, 'An evening of samples');
  await segment(form, 'What do you titrate with?', 'A burette').check();
  await segment(form, 'Strength on the bottle of sodium hydroxide', '0.1 N').check();
  await choice(form, 'Counted as').selectOption({ value: 'acetic' });
  await segment(form, 'How do you tell that it is done?', /meter/).check();
  await fill(form, { 'Base the blank took': '0.1' });
  await choice(form, 'Standard').selectOption({ value: 'phthalate' });
  await fill(form, { Weighed: '0.4084', 'Base the standard took': '20.6' });
  // 1000 × 0.4084 ÷ (204.2212 × (20.6 − 0.1)) = 0.09755 N, by hand.
  await expect(form.getByText(/0\.0976 N/)).toBeVisible();
  await expect(form.getByText(/tonight counts as the check of the base/)).toBeVisible();

  await choice(form, 'Vessel, row 2').click();
  await choice(form, 'Vessel, row 2').fill('Apple vinegar 4');
  await form.getByRole('option', { name: 'Apple vinegar 4' }).filter({ visible: true }).first().click();
  for (const [row, first] of [
    ['1', '42.8'],
    ['2', '22.3'],
  ] as const) {
    await fill(form, { [`Base used, row ${row}, first time`]: first });
    await choice(form, `Gas, row ${row}`).selectOption({ value: 'none' });
    await choice(form, `Colour, row ${row}`).selectOption({ value: 'no' });
  }
  await fill(form, { 'Sample, row 1': '5' });
  await press(form.getByRole('contentinfo'), 'Save all');
  await expect(form.getByRole('group', { name: 'What to mend' })).toContainText('Sample, row 2');
  await fill(form, { 'Sample, row 2': '5' });
  await carryOut(form, 'Save all');
  // (42.8 − 0.1) × 0.09755 × 60.05 ÷ 50 = 5.003; (22.3 − 0.1) × 0.09755 × 60.05 ÷ 50 = 2.601, by hand.
  await expect(onShelf(page, /^Apple vinegar 3.*acidity 5\.0/)).toBeVisible();
  await expect(onShelf(page, /^Apple vinegar 4.*acidity 2\.6/)).toBeVisible();
});

test('a look that ends in skimming, in holding, and in throwing out', async ({ page }) => {
  const form = sheet(page, 'Look at it');
  const look = async (answers: Readonly<Record<string, RegExp>>): Promise<void> => {
    await sidePanel(page).getByRole('button', { name: 'Look…' }).last().click();
    await expect(form.getByText(/^Never taste a doubtful jar/).first()).toBeVisible();
    if (await form.getByRole('button', { name: 'Start afresh' }).isVisible())
      await press(form, 'Start afresh');
    for (const [question, answer] of Object.entries(answers)) {
      if (question === 'What is on the surface?') await segment(form, question, answer).check();
      else await choose(form, question, answer);
    }
  };
  const film = {
    'Does it look wet or dry?': /^Wet/,
    'What colour is it?': /^White/,
    'What shape has it?': /^A thin film/,
    'Where is it?': /^On the liquid/,
    'How does it smell?': /^Clean/,
    'Are there fruit flies?': /^None/,
    'What covers it?': /^Tight cloth/,
    'Are there tiny wriggling threads': /^None/,
  };
  await chooseOnShelf(page, /^Apple vinegar 3/);

  await test.step('a flat, white film is skimmed', async () => {
    await look({ 'What is on the surface?': /flat/, ...film });
    await expect(form.getByText('Skim it and watch')).toBeVisible();
    await carryOut(form, 'Keep the look');
    await expect(onShelf(page, /^Apple vinegar 3, Vinegar ferment/)).toBeVisible();
  });

  await test.step('what cannot be told is held, and the stage follows', async () => {
    await look({ 'What is on the surface?': /cannot tell/ });
    await expect(form.getByText('Hold it', { exact: true })).toBeVisible();
    await expect(segment(form, 'And then', 'Move it to Held')).toBeChecked();
    await carryOut(form, 'Keep the look');
    await expect(onShelf(page, /^Apple vinegar 3, Held/)).toBeVisible();
  });

  await test.step('blue and furry is thrown out, kept apart until it is', async () => {
    await chooseOnShelf(page, /^Apple vinegar 4/);
    await look({ 'What is on the surface?': /fuzzy/, 'What colour is it?': /^Blue/ });
    await expect(form.getByText('Throw it out', { exact: true })).toBeVisible();
    await carryOut(form, 'Keep the look');
    await expect(onShelf(page, /^Apple vinegar 4, Quarantine/)).toBeVisible();
    await expect(use(page, /^To dress a salad: Do not use$/)).toBeVisible();
  });
});

test('told, and a verdict changes; gone against with a reason, and the caution still stands', async ({
  page,
}) => {
  await chooseOnShelf(page, /^Apple vinegar 3/);

  await test.step('a crack in the vessel is told, and it is not to be used for this', async () => {
    const sealed = use(page, /^To seal in a bottle/);
    await expect(sealed).toHaveAccessibleName('To seal in a bottle: Not known');
    await sealed.getByRole('button').first().click();
    await press(sealed, 'Tell what you know…');
    const form = sheet(page, 'Tell what you know');
    await expect(form.getByText('Wanted next')).toBeVisible();
    await choose(form, 'Is it whole inside?', /^Chipped/);
    await carryOut(form, 'Tell it');
    await expect(sealed).toHaveAccessibleName('To seal in a bottle: Do not use');
  });

  await test.step('gone against with a reason: said, and the verdict stays', async () => {
    const salad = use(page, /^To dress a salad/);
    await salad.getByRole('button').first().click();
    await press(salad, 'Use anyway, my reason…');
    const form = sheet(page, 'Use it anyway');
    await press(form.getByRole('contentinfo'), 'Keep my reason');
    await expect(form.getByRole('group', { name: 'What to mend' })).toBeVisible();
    await fill(form, { 'My reason': 'Looked at by a neighbour who keeps mothers.' });
    await field(form, 'My reason').press('Control+Enter');
    await expect(form).toBeHidden();
    await expect(salad).toHaveAccessibleName('To dress a salad: Not known, gone against');
    await expect(salad).toContainText('Nobody has looked at it and smelled it yet');
    await expect(salad).toContainText('Looked at by a neighbour who keeps mothers.');
    await page.keyboard.press('Control+z');
    await expect(salad).toHaveAccessibleName('To dress a salad: Not known');
  });
});

test('before it is sealed: a bottle that may burst is told in numbers', async ({ page }) => {
  await chooseOnShelf(page, /^Orchard cider/);
  await press(sidePanel(page), /^Bottle$/);
  const form = sheet(page, 'Bottle');
  const check = form.getByRole('region', { name: 'To seal in a bottle' });
  await expect(check).toBeVisible();
  await expect(check).toContainText('Do not use');
  await expect(check).toContainText('It still ferments: leave the airlock on.');
  await choose(check, 'Which bottles?', /^Light bottles/);
  await fill(check, { 'How much sugar goes in': '0' });
  // 0.9 volumes left in it, and half a volume for each of the 12 points the gravity stands above 1.000.
  await expect(check.getByText('More gas could be made than the bottle holds')).toBeVisible();
  await press(check, 'Tell this and check');
  await expect(check.getByText('Told, and checked again.')).toBeVisible();
  await expect(check).toContainText('Do not use');
  await fill(form, { 'How many': '2' });
  await segment(check, 'How the bottles are closed', 'Loosely, or under a water lock').check();
  await carryOut(form, 'Carry out');
  await expect(onShelf(page, /^Orchard cider/)).toBeVisible();
});

function use(page: Page, name: RegExp): Locator {
  return sidePanel(page).getByRole('region', { name });
}
