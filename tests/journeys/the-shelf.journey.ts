import type { Locator, Page } from '@playwright/test';
import { buildLoadCellar } from '../../demo/ten-thousand-vessels.ts';
import { onShelf, press, seeDone, sheet, sidePanel } from './keeper.ts';
import { expect, test } from './program.ts';

// The shelf where only a real window tells: pictures and words moving together, dragging, and ten thousand vessels.

test.describe('carrying a vessel', () => {
  // Here, where all of the shelf is looked at, as a keeper's own window has it.
  test.use({ sampleToldAnew: true });

  test('over another vessel it opens the plan, over a free place it moves, and Esc puts it back', async ({
    page,
    program,
  }) => {
    await program.open('--demo');
    await page.getByRole('radio', { name: 'Close' }).check();
    const cider = onShelf(page, /^Orchard cider/);
    const jug = onShelf(page, /^Vessel 16, Empty/);
    await drag(page, cider, jug);
    await expect(page.getByText('5 L free: transfer here')).toBeVisible();
    await page.keyboard.press('Escape');
    await expect(page.getByText('5 L free: transfer here')).toBeHidden();
    await page.mouse.up();
    await expect(page.getByRole('dialog')).toHaveCount(0);

    await drag(page, cider, jug);
    await page.mouse.up();
    await expect(sheet(page, /Transfer/)).toBeVisible();
    await page.keyboard.press('Escape');

    const free = onShelf(page, /^[A-Z]+\d+, free/).first();
    const spot = /^[A-Z]+\d+/.exec((await free.textContent())?.trim() ?? '')?.[0] ?? '';
    await drag(page, onShelf(page, /^Last apples/), free);
    await expect(page.getByText('Stand it here')).toBeVisible();
    await page.mouse.up();
    await expect(onShelf(page, new RegExp(`^Last apples.* ${spot}\\.$`))).toBeVisible();
    await page.keyboard.press('Control+z');
    await seeDone(page, 'Taken back: move of');
  });

  test('a press on a shelf far from the focus hits what it points at', async ({ page, program }) => {
    await program.open('--demo');
    await onShelf(page, /^Damson wine/).focus();
    await press(page.getByRole('region', { name: 'Stage key' }), /^Ready/);
    await page.getByRole('grid').evaluate((grid) => {
      grid.parentElement?.parentElement?.scrollTo(0, 900);
    });
    const far = onShelf(page, /D4\.$/);
    const name = /^[^,]+/.exec((await far.textContent())?.trim() ?? '')?.[0] ?? '';
    await far.click();
    await expect(sidePanel(page).getByRole('heading', { level: 2, name })).toBeVisible();
    await expect(far).toBeFocused();
  });
});

test.describe('ten thousand vessels', () => {
  test.setTimeout(180_000);

  test('arrows never lose the focus, and the page holds few cells wherever it is scrolled', async ({
    page,
    program,
  }) => {
    buildLoadCellar(program.file, { vessels: 10_000, entries: 21_000 });
    await program.open();
    const grid = page.getByRole('grid');
    const cells = page.getByRole('gridcell');
    const focused = page.locator('[role="gridcell"]:focus');
    await expect(focused).toBeVisible();
    await expect(page.getByRole('radio', { name: 'Dots' })).toBeChecked();

    for (const [density, key] of [
      ['Dots', '3'],
      ['Roomy', '1'],
      ['Close', '2'],
    ] as const) {
      await page.keyboard.press(key);
      await expect(page.getByRole('radio', { name: density })).toBeChecked();
      for (let i = 0; i < 90; i++) {
        await page.keyboard.press(i % 3 === 0 ? 'ArrowDown' : 'ArrowRight');
        if (i % 15 === 0) await expect(focused).toBeInViewport();
      }
      await expect(focused).toBeInViewport();
      expect(Number(await grid.getAttribute('aria-rowcount'))).toBeGreaterThan(100);
      for (const share of [0.25, 0.5, 1, 0]) {
        await grid.evaluate((element, to) => {
          const scroller = element.parentElement?.parentElement;
          scroller?.scrollTo(0, scroller.scrollHeight * to);
          return new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
        }, share);
        expect(await cells.count()).toBeLessThanOrEqual(400);
      }
      await page.keyboard.press('Control+Home');
      await expect(focused).toBeInViewport();
    }
  });
});

/** Takes a vessel and holds it over another cell, without letting go. */
async function drag(page: Page, from: Locator, to: Locator): Promise<void> {
  await to.scrollIntoViewIfNeeded();
  await from.scrollIntoViewIfNeeded();
  const start = await from.boundingBox();
  const end = await to.boundingBox();
  if (start === null || end === null) throw new Error('nothing to drag');
  await page.mouse.move(start.x + start.width / 2, start.y + start.height * 0.7);
  await page.mouse.down();
  await page.mouse.move(start.x + start.width / 2 + 20, start.y + start.height * 0.7, { steps: 3 });
  await page.mouse.move(end.x + end.width / 2, end.y + end.height * 0.7, { steps: 6 });
}
