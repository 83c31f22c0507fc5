import type { Page } from '@playwright/test';
import { createServer } from 'node:net';
import {
  beginCellar,
  carryOut,
  choice,
  chooseOnShelf,
  field,
  fill,
  onShelf,
  press,
  putVessel,
  said,
  seeDone,
  sheet,
  sidePanel,
} from './keeper.ts';
import { expect, test } from './program.ts';

/** Two windows on one cellar, a program that dies under its window, and a second program on the same file. */

test('what is written in one window is seen in the other, and undone there in plain words', async ({
  page,
  program,
}) => {
  await program.open('--demo');
  const first = page;
  const second = await first.context().newPage();
  await expect(onShelf(first, /^Orchard cider/)).toBeVisible();
  await second.goto(first.url());
  await expect(onShelf(second, /^Orchard cider/)).toBeVisible();

  await test.step('a reading in the first is on the shelf of the second when one comes back to it', async () => {
    await read(first, /^Orchard cider/, '1.004');
    await comeBack(second);
    await expect(onShelf(second, /^Orchard cider.*gravity 1\.00/)).toBeVisible();
  });

  await test.step('undone in the second, it is said what was undone; the first sees it', async () => {
    await second.keyboard.press('Control+z');
    await seeDone(second, 'Taken back: reading 1.004 on Orchard cider…');
    await comeBack(first);
    await expect(onShelf(first, /^Orchard cider.*gravity 1\.01/)).toBeVisible();
    await first.getByRole('button', { name: /^Redo/ }).click();
    await seeDone(first, 'Done again: reading 1.004 on Orchard cider…');
  });

  await test.step('writing in the second shows also what the first wrote, without coming back', async () => {
    await read(second, /^Damson wine/, '1.027');
    await expect(onShelf(second, /^Orchard cider.*gravity 1\.00/)).toBeVisible();
    await comeBack(first);
    await expect(onShelf(first, /^Damson wine.*gravity 1\.02/)).toBeVisible();
  });

  await test.step('a panel open in the one follows the other', async () => {
    await chooseOnShelf(first, /^Damson wine/);
    await comeBack(second);
    await press(await chooseOnShelf(second, /^Damson wine/), 'Change cover');
    const form = sheet(second, 'Change the closure');
    await form.getByRole('radio', { name: 'Bung' }).check();
    await carryOut(form, 'Change it');
    await comeBack(first);
    await expect(
      sidePanel(first)
        .getByRole('definition')
        .filter({ hasText: /^bung$/ }),
    ).toBeVisible();
  });
});

test.describe(() => {
  test.use({ expectedFault: /ERR_CONNECTION_REFUSED|ERR_CONNECTION_RESET|ERR_EMPTY_RESPONSE|status of 403/ });
  test('the program dies under its window: a plain sentence, the form kept, and on again', async ({
    page,
    program,
  }) => {
    test.setTimeout(180_000);
    const port = String(await freePort());
    await program.open('--port', port);
    await beginCellar(page, { shelves: 1, positions: 4 });
    await putVessel(page, 'A1', { shape: 'Demijohn', holds: '5 L' });
    await press(await chooseOnShelf(page, /^Vessel 1/), 'Start a batch');
    const form = sheet(page, 'Start a batch');
    const typed = { Name: 'Windfall cider', 'How much': '4.5 L', 'Sugar, as gravity or Brix': '1.048' };
    await fill(form, typed);
    await choice(form, 'What it is').selectOption('Cider');
    await program.kill();

    await test.step('the act is not written, and the form says so and keeps what is typed', async () => {
      await press(form.getByRole('contentinfo'), 'Start it');
      await expect(form.getByText('Undercroft does not answer.').first()).toBeVisible();
      for (const [label, text] of Object.entries(typed)) await expect(field(form, label)).toHaveValue(text);
    });

    await test.step('started again, what was typed is offered and carried out once', async () => {
      await program.open('--port', port);
      await press(await chooseOnShelf(page, /^Vessel 1, Empty/), 'Start a batch');
      await expect(form.getByText('This is what you typed before and did not carry out.')).toBeVisible();
      for (const [label, text] of Object.entries(typed)) await expect(field(form, label)).toHaveValue(text);
      await carryOut(form, 'Start it');
      await expect(onShelf(page, /^Windfall cider, Waiting/)).toHaveCount(1);
      await page.reload();
      await expect(onShelf(page, /^Windfall cider, Waiting/)).toHaveCount(1);
    });
  });
});

test('a second program on the same file ends with a sentence, and the first goes on', async ({
  page,
  program,
}) => {
  await program.open();
  await beginCellar(page, { shelves: 1, positions: 4 });
  const second = await program.startBeside();
  expect(second.code).not.toBe(0);
  expect(second.said).toContain(program.file);
  expect(second.said).toMatch(said('is open in another program, so it was left alone.'));
  expect(second.said).not.toMatch(/SQLITE|\bat .*\.js:/);
  await putVessel(page, 'A1', { shape: 'Jar', holds: '2 L' });
  await expect(onShelf(page, /^Vessel 1, Empty, 2 L jar/)).toBeVisible();
});

async function read(page: Page, vessel: RegExp, text: string): Promise<void> {
  await onShelf(page, vessel).click();
  await page.keyboard.press('r');
  const form = sheet(page, 'Record a reading');
  await field(form, 'Reading, as you would chalk it').fill(text);
  await carryOut(form, 'Keep');
}

/** Comes back to a window, as by a press on it; a window without a screen is told so. */
async function comeBack(page: Page): Promise<void> {
  await page.bringToFront();
  await page.evaluate(() => {
    window.dispatchEvent(new Event('focus'));
  });
}

function freePort(): Promise<number> {
  return new Promise((settle, fail) => {
    const server = createServer();
    server.once('error', fail);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      const port = typeof address === 'object' && address !== null ? address.port : 0;
      server.close(() => {
        settle(port);
      });
    });
  });
}
