import type { Locator, Page } from '@playwright/test';
import { expect, test } from './program.ts';
import { field, onShelf, said, seeDone, seeFocus, sheet, sidePanel } from './keeper.ts';

/** The walk-through of a keeper who has no pointer. Only keys are pressed after the window is open. */

/** A keeper who typed a name looks where it led before pressing a letter that does something. */
const lookAtItMs = 1_000;

test('the shelves: panes, arrows, names, a reading, a transfer, a selection', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  const damson = onShelf(page, /^Damson wine/);

  await test.step('focus begins on the first late vessel', async () => {
    await expect(damson).toBeFocused();
    await seeFocus(page);
  });

  await test.step('F6 goes round the panes and comes back', async () => {
    const panes = {
      'stage key': page.getByRole('region', { name: 'Stage key' }),
      'side panel': sidePanel(page),
      places: page.getByRole('navigation', { name: 'Places' }),
      tools: page.getByRole('banner'),
    };
    for (const pane of Object.values(panes)) {
      await keys(page, 'F6');
      await expect(pane.locator(':focus')).toHaveCount(1);
    }
    await keys(page, 'F6');
    await expect(damson).toBeFocused();
    await keys(page, 'Shift+F6');
    await expect(panes.tools.locator(':focus')).toHaveCount(1);
    await keys(page, 'F6');
    await expect(damson).toBeFocused();
  });

  await test.step('arrows, End and Home', async () => {
    await keys(page, 'End');
    await expect(focused(page, / B\d+\.$|^B\d+, free/)).toBeVisible();
    await expect(damson).not.toBeFocused();
    await keys(page, 'Home');
    await expect(onShelf(page, /^Orchard cider.* B1\.$/)).toBeFocused();
    await keys(page, 'ArrowDown');
    await expect(onShelf(page, / C1\.$/)).toBeFocused();
    await keys(page, 'ArrowUp', 'ArrowRight');
    await expect(onShelf(page, / B2\.$/)).toBeFocused();
    await keys(page, 'Control+End');
    await expect(focused(page, / Not placed\.$/)).toBeVisible();
    await keys(page, 'Control+Home');
    await expect(onShelf(page, / A1\.$/)).toBeFocused();
  });

  await test.step('letters jump to a name', async () => {
    await page.keyboard.type('dam');
    await expect(damson).toBeFocused();
    await seeFocus(page);
    await page.waitForTimeout(lookAtItMs);
  });

  await test.step('R, a value, Enter: kept, and focus is back on the vessel', async () => {
    await keys(page, 'r');
    await expect(field(sheet(page, 'Record a reading'), 'Reading, as you would chalk it')).toBeFocused();
    await page.keyboard.type('1.028');
    await keys(page, 'Enter');
    await seeDone(page, 'Gravity 1.028, in Damson wine (…).');
    await expect(damson).toBeFocused();
    await expect(damson).toHaveAccessibleName(/gravity 1\.02/);
  });

  await test.step('Ctrl+Z: taken back, and said', async () => {
    await keys(page, 'Control+z');
    await seeDone(page, 'Taken back: reading 1.028 on Damson wine…');
    await expect(damson).toHaveAccessibleName(/gravity 1\.031/);
  });

  await test.step('T, arrows, Enter: a plan; Esc: nothing has moved', async () => {
    await keys(page, 't', 'ArrowRight', 'ArrowRight');
    await expect(onShelf(page, / B6\..*Holds 5 L of 9\.2 L/)).toBeFocused();
    await keys(page, 'Enter');
    const form = sheet(page, 'Transfer');
    await expect(form).toBeVisible();
    await seeFocus(page);
    await keys(page, 'Escape');
    await expect(form).toBeHidden();
    await expect(onShelf(page, / B6\.$/)).toBeFocused();
    await expect(damson).toHaveAccessibleName(/92 % full/);
    await keys(page, 't');
    await expect(
      page.getByRole('status').filter({ hasText: 'Choose a vessel with something in it first.' }),
    ).toBeVisible();
    await keys(page, 'ArrowLeft', 'ArrowLeft', 't', 'Escape');
    await expect(page.getByRole('status').filter({ hasText: 'Nothing was moved.' })).toBeVisible();
    await expect(damson).toBeFocused();
  });

  await test.step('Space, arrow, Space: two selected; Esc lets them go', async () => {
    await keys(page, 'Escape', 'Space', 'ArrowLeft', 'Space');
    await expect(page.getByRole('status').filter({ hasText: '2 selected' })).toBeVisible();
    await expect(sidePanel(page).getByRole('heading', { name: '2 vessels' })).toBeVisible();
    await expect(damson).toHaveAttribute('aria-selected', 'true');
    await keys(page, 'Escape');
    await expect(damson).toHaveAttribute('aria-selected', 'false');
  });
});

test('a leaf, House Rules and the list of keys', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  const apple = onShelf(page, /^Apple vinegar 3/);
  await expect(focused(page, /./)).toHaveCount(1);
  await page.keyboard.type('apple vinegar 3');
  await expect(apple).toBeFocused();

  await test.step('Enter opens the leaf, and Tab goes through all of it', async () => {
    await keys(page, 'Enter');
    await expect(page.getByRole('heading', { name: 'Apple vinegar 3', level: 1 })).toBeVisible();
    const met: string[] = [];
    for (let step = 0; step < 150; step += 1) {
      await page.keyboard.press('Tab');
      const region = await page.evaluate(focusRegion);
      if (region === 'body') break;
      await seeFocus(page);
      met.push(region);
    }
    const order = [...new Set(met)];
    const parts = ['Acts on Apple vinegar 3', 'Readings', 'Mother and kin', 'Days'];
    expect(order.filter((one) => parts.includes(one))).toEqual(parts);
  });

  await test.step('on the chart the arrows speak each reading', async () => {
    const slider = page.getByRole('slider', { name: 'Readings in the order of time' });
    await slider.focus();
    await keys(page, 'End');
    const last = await slider.getAttribute('aria-valuetext');
    await keys(page, 'ArrowLeft');
    await expect(slider).not.toHaveAttribute('aria-valuetext', last ?? '');
    await keys(page, 'ArrowRight');
    await expect(slider).toHaveAttribute('aria-valuetext', last ?? '');
    expect(last).toMatch(/\d{4}-\d{2}-\d{2}: .*acidity|Acidity/);
  });

  await test.step('Alt and the left arrow go back to the same vessel', async () => {
    await keys(page, 'Alt+ArrowLeft');
    await expect(apple).toBeFocused();
    await seeFocus(page);
  });

  await test.step('Ctrl and the comma: measures change at once, Esc gives focus back', async () => {
    await keys(page, 'Control+,');
    const rules = sheet(page, 'House Rules');
    await expect(rules).toBeVisible();
    await seeFocus(page);
    await expect(rules.getByRole('radio', { name: 'Litres' })).toBeFocused();
    await keys(page, 'ArrowRight');
    await expect(rules.getByRole('radio', { name: 'US gallons' })).toBeChecked();
    await keys(page, 'Escape');
    await expect(rules).toBeHidden();
    await expect(apple).toBeFocused();
    await expect(apple).toHaveAccessibleName(/qt jar|gal jar|fl oz jar/);
  });

  await test.step('? lists the keys, Esc gives focus back', async () => {
    await keys(page, '?');
    const list = sheet(page, 'Keys');
    await expect(list.getByRole('heading', { name: 'On the shelves' })).toBeVisible();
    await expect(list.getByText('Record a reading')).toBeVisible();
    await keys(page, 'Escape');
    await expect(list).toBeHidden();
    await expect(apple).toBeFocused();
    await keys(page, 'F1', 'Escape');
    await expect(apple).toBeFocused();
  });

  await test.step('Ctrl+K finds, arrows choose, Enter goes there', async () => {
    await keys(page, 'Control+k');
    await page.keyboard.type('damson');
    await expect(page.getByText('Enter shows Damson wine on the shelf.')).toBeVisible();
    await keys(page, 'ArrowDown');
    await expect(page.getByText(said('Enter opens the leaf of Damson wine.'))).toBeVisible();
    await keys(page, 'ArrowUp', 'Enter');
    await expect(onShelf(page, /^Damson wine/)).toBeFocused();
  });

  await test.step('a reader that puts focus on a vessel by itself has the keys mean that one', async () => {
    await onShelf(page, /^Pear must/).focus();
    await keys(page, 'r');
    await expect(sheet(page, 'Record a reading').getByText('Pear must')).toBeVisible();
    await keys(page, 'Escape');
    await expect(onShelf(page, /^Pear must/)).toBeFocused();
    await onShelf(page, /^Damson wine/).focus();
  });

  await test.step('the numbers go to the places', async () => {
    for (const [key, place] of [
      ['2', 'Cellar Book'],
      ['3', 'Cultures'],
      ['1', 'Shelves'],
    ] as const) {
      await keys(page, `Control+${key}`);
      await expect(page.getByRole('heading', { name: place, level: 1 })).toBeVisible();
    }
    await expect(onShelf(page, /^Damson wine/)).toBeFocused();
  });

  await test.step('Ctrl+S says that everything is saved', async () => {
    await keys(page, 'Control+s');
    await expect(sheet(page, /saved/i)).toBeVisible();
    await keys(page, 'Escape');
    await expect(onShelf(page, /^Damson wine/)).toBeFocused();
  });

  await test.step('pantry mode: a reading by three presses on the pad', async () => {
    await keys(page, 'Control+Shift+p');
    await keys(page, 'r');
    const form = sheet(page, 'Record a reading');
    await expect(form.getByRole('button', { name: 'Take back the last sign' })).toBeVisible();
    await form.getByRole('radio', { name: 'Gravity' }).check();
    for (const key of ['1', 'point', '0', '2', '8'])
      await form.getByRole('button', { name: key, exact: true }).click();
    await form.getByRole('button', { name: 'Keep' }).click();
    await seeDone(page, 'Gravity 1.028, in Damson wine (…).');
    await keys(page, 'Control+Shift+p');
    await expect(page.getByRole('button', { name: 'House Rules' })).toBeVisible();
  });
});

test('a pedigree and keeping apart', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open('--demo');
  await expect(focused(page, /./)).toHaveCount(1);
  await page.keyboard.type('house red vinegar');
  const red = onShelf(page, /^House red vinegar/);
  await expect(red).toBeFocused();
  await page.waitForTimeout(lookAtItMs);
  const list = page.getByRole('list', { name: 'Step by step' });

  await test.step('from the leaf, by Tab, to where it came from', async () => {
    await keys(page, 'Enter');
    await expect(page.getByRole('region', { name: 'Days' })).toBeVisible();
    await tabTo(page, 'Where it came from');
    await keys(page, 'Enter');
    await expect(page.getByRole('heading', { level: 1, name: /^Where it came from: / })).toBeVisible();
    await expect(list).toBeVisible();
  });

  await test.step('the drawing is scrolled by keys, and the list is walked', async () => {
    const drawing = page.getByRole('region', { name: /^Drawing/ });
    await tabTo(page, 'Drawing');
    await expect(drawing).toBeFocused();
    await page.keyboard.press('Tab');
    await expect(list.locator(':focus')).toHaveCount(1);
    await seeFocus(page);
  });

  await test.step('the arrow of the choice turns the question round; Q keeps apart', async () => {
    await page.getByRole('radio', { name: 'Where it came from' }).focus();
    await keys(page, 'ArrowRight');
    await expect(page.getByRole('heading', { level: 1, name: /^What it touched: / })).toBeVisible();
    await expect(page.getByRole('button', { name: /^Keep all of these apart…/ })).toBeVisible();
    await keys(page, 'q');
    const form = sheet(page, 'Keep all of these apart');
    await expect(form).toBeVisible();
    await tabTo(page, 'Why');
    await page.keyboard.type('smells of nail varnish');
    await tabTo(page, 'Keep them apart');
    await keys(page, 'Enter');
    await expect(form).toBeHidden();
    await seeDone(page, 'kept apart with');
    await expect(list).toContainText('Quarantine');
  });

  await test.step('Ctrl+Z takes all of it back, Alt and the left arrow lead home', async () => {
    await keys(page, 'Control+z');
    await seeDone(page, 'Taken back: keeping');
    await expect(list).not.toContainText('Quarantine');
    await keys(page, 'Alt+ArrowLeft');
    await expect(page.getByRole('heading', { name: 'House red vinegar', level: 1 })).toBeVisible();
    await keys(page, 'Alt+ArrowLeft');
    await expect(red).toBeFocused();
  });
});

/** Goes on with Tab until what has focus says these words. */
async function tabTo(page: Page, words: string): Promise<void> {
  for (let step = 0; step < 120; step += 1) {
    await page.keyboard.press('Tab');
    const says = await page.evaluate(() => {
      const held = document.activeElement;
      const labels =
        held instanceof HTMLInputElement || held instanceof HTMLTextAreaElement ? held.labels : null;
      const label = [...(labels ?? [])].map((each) => each.textContent).join(' ');
      return `${held?.getAttribute('aria-label') ?? ''} ${label} ${held?.textContent ?? ''}`.trim();
    });
    if (says.startsWith(words)) {
      await seeFocus(page);
      return;
    }
  }
  throw new Error(`no Tab reached ${words}`);
}

/** Presses keys one after another, and sees the focus after each. */
async function keys(page: Page, ...pressed: readonly string[]): Promise<void> {
  for (const key of pressed) {
    await page.keyboard.press(key);
    await seeFocus(page);
  }
}

/** The cell of the shelves that has focus, when its name is like this. */
function focused(page: Page, name: RegExp): Locator {
  return onShelf(page, name).and(page.locator(':focus'));
}

/** The name of the region, group or landmark in which focus rests. Runs in the page. */
function focusRegion(): string {
  const held = document.activeElement?.closest('section, [role="group"], header, main, body');
  const labelledBy = held?.getAttribute('aria-labelledby') ?? null;
  const label = labelledBy === null ? null : document.getElementById(labelledBy);
  return label?.textContent.trim() ?? held?.getAttribute('aria-label') ?? held?.tagName.toLowerCase() ?? '';
}
