import { AxeBuilder } from '@axe-core/playwright';
import type { Locator, Page } from '@playwright/test';
import {
  copyFileSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  rmSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from './program.ts';
import { beginCellar, field, press, putVessel, seeFocus } from './keeper.ts';

/** Backups by hand and by themselves, looked into, restored with a way back; what is damaged or newer is refused. */

const card = (page: Page, name: string): Locator => page.getByRole('region', { name, exact: true });
const inside = (page: Page): Locator => page.getByRole('region', { name: /^Inside the backup of/ });
const folderOf = (program: { readonly file: string }): string => dirname(program.file);
const ownBackups = (program: { readonly file: string }): string =>
  join(folderOf(program), 'Undercroft', 'backups');

async function toStrongbox(page: Page): Promise<void> {
  await expect(page.getByRole('grid')).toBeVisible();
  await page.keyboard.press('Control+7');
  await expect(card(page, 'Back up')).toContainText(/backup/);
}

async function addFolder(page: Page, folder: string): Promise<void> {
  await press(card(page, 'Where and when'), 'Add a folder…');
  const chooser = page.getByRole('dialog', { name: 'Choose a folder' });
  const path = field(chooser, 'Folder');
  await expect(path).not.toHaveValue('');
  await path.fill(folder);
  await press(chooser, 'Go there');
  await expect(path).toHaveValue(folder);
  await press(chooser, 'Use this folder');
  await expect(card(page, 'Where and when').getByText(folder, { exact: true })).toBeVisible();
}

async function lookInside(page: Page, file: string): Promise<void> {
  await field(card(page, 'Restore'), 'Another backup').fill(file);
  await press(card(page, 'Restore'), 'Look inside it');
}

const refused = (page: Page, words: RegExp): Promise<void> =>
  expect(card(page, 'Restore').getByRole('status').filter({ hasText: words })).toBeVisible();

test.beforeEach(async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open();
  await beginCellar(page, { name: 'Orchard cellar', shelves: 1, positions: 4 });
  await putVessel(page, 'A1', { shape: 'Demijohn', holds: '5 L' });
});

test('by mouse: backed up to two folders with one missing, looked into, restored, and back again', async ({
  page,
  program,
}) => {
  const stick = join(folderOf(program), 'stick');
  const synced = join(folderOf(program), 'synced');
  mkdirSync(stick);
  mkdirSync(synced);
  await toStrongbox(page);
  await expect(card(page, 'Back up')).toContainText('There is no backup of this cellar yet.');

  await test.step('folders are chosen, and one is pulled out', async () => {
    await addFolder(page, stick);
    await addFolder(page, synced);
    pullOut(stick);
    await press(card(page, 'Back up'), 'Back up now');
    await expect(card(page, 'Back up').getByText(/^Backed up and proven: /)).toBeVisible();
    await expect(card(page, 'Back up').getByText(/^Not in .*stick: /)).toBeVisible();
    await expect(card(page, 'Back up').getByText(/^Also in .*synced\.$/)).toBeVisible();
    expect(readdirSync(synced)).toEqual([
      expect.stringMatching(/^Orchard cellar .* by hand\.undercroft-backup$/),
    ]);
    await expect(card(page, 'Back up')).toContainText('Nothing was written since.');
  });

  await test.step('what is inside is shown beside what is here', async () => {
    await page.keyboard.press('Control+1');
    await putVessel(page, 'A2', { shape: 'Demijohn', holds: '5 L' });
    await toStrongbox(page);
    await expect(card(page, 'Back up')).toContainText('1 line written since.');
    await card(page, 'Restore')
      .getByRole('button', { name: /^Look inside Orchard cellar/ })
      .first()
      .click();
    await expect(inside(page)).toContainText('1 line written since would be gone.');
    await expect(inside(page).getByRole('row', { name: 'Vessels 1 2 -1' })).toBeVisible();
    await press(inside(page), 'Check this backup');
    await expect(
      inside(page).getByText(/^The file is whole and the \d+ lines of its book add up\.$/),
    ).toBeVisible();
  });

  await test.step('it is put in place, told before, and the way back is there', async () => {
    await press(inside(page), 'Put it in place of this cellar…');
    await press(inside(page), 'Leave it as it is');
    await press(inside(page), 'Put it in place of this cellar…');
    await expect(inside(page)).toContainText('What will happen');
    await press(inside(page), 'Carry out');
    await expect(card(page, 'Restore').getByText(/^The cellar is as it was on /)).toBeVisible();
    await press(card(page, 'Restore'), 'The way back: look inside what was there');
    await expect(inside(page)).toContainText('it has 1 line more.');
    await press(inside(page), 'Put it in place of this cellar…');
    await press(inside(page), 'Carry out');
    await expect(card(page, 'Restore').getByText(/^The cellar is as it was on /)).toBeVisible();
    await page.keyboard.press('Control+1');
    await expect(page.getByRole('gridcell', { name: /^Vessel 2/ })).toBeVisible();
  });

  await test.step('what was done stands in the history, and nothing hinders a reader of screens', async () => {
    await toStrongbox(page);
    const done = card(page, 'Is it whole?');
    await expect(done.getByText(/Orchard cellar restored from the backup of/).first()).toBeVisible();
    await press(done, 'Check in full');
    await expect(done.getByText(/^The file is whole, the \d+ lines of the book add up/)).toBeVisible();
    await press(done, 'Show diagnostics');
    await expect(done.getByRole('region', { name: 'Diagnostics' })).toContainText('"backupFormat": 1');
    await expect(done.getByRole('region', { name: 'Diagnostics' })).not.toContainText('Orchard');
    const { violations } = await new AxeBuilder({ page }).include('#main').analyze();
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([]);
  });
});

test('encrypted: nothing readable goes out, and only the passphrase opens it', async ({ page, program }) => {
  const synced = join(folderOf(program), 'synced');
  mkdirSync(synced);
  await toStrongbox(page);
  await addFolder(page, synced);
  const where = card(page, 'Where and when');
  await where.getByRole('checkbox', { name: 'Encrypt what goes to your folders' }).check();
  await expect(where).toContainText('Nobody can recover a forgotten passphrase');
  await field(where, 'Passphrase for this session').fill('short');
  await press(where, 'Use this passphrase');
  await expect(where).toContainText('Use at least 8 signs');
  await field(where, 'Passphrase for this session').fill('seven damp corks');
  await field(where, 'The same again').fill('seven dry corks');
  await press(where, 'Use this passphrase');
  await expect(where).toContainText('The two are not the same.');
  await field(where, 'The same again').fill('seven damp corks');
  await press(where, 'Use this passphrase');
  await expect(where).toContainText('The passphrase is held until the program ends.');
  await press(card(page, 'Back up'), 'Back up now');
  await expect(card(page, 'Back up').getByText(/^Also in .*synced\.$/)).toBeVisible({ timeout: 60_000 });
  const [name = ''] = readdirSync(synced);
  expect(name).toMatch(/\.undercroft-backup\.age$/);
  expect(readFileSync(join(synced, name)).includes('Orchard cellar')).toBe(false);

  await lookInside(page, join(synced, name));
  await refused(page, /is encrypted\. Type its passphrase\.$/);
  const passphrase = field(card(page, 'Restore'), 'Its passphrase');
  await expect(passphrase).toBeFocused();
  await passphrase.fill('seven dry corks');
  await page.keyboard.press('Enter');
  await refused(page, /^This passphrase does not open/);
  await passphrase.fill('seven damp corks');
  await page.keyboard.press('Enter');
  await expect(inside(page)).toContainText('It holds the same lines as the cellar that is open.');
});

test('what is damaged, cut off, newer or something else is refused, and what can be read is saved', async ({
  page,
  program,
}) => {
  await toStrongbox(page);
  await press(card(page, 'Back up'), 'Back up now');
  await expect(card(page, 'Back up').getByText(/^Backed up and proven: /)).toBeVisible();
  const [name = ''] = readdirSync(ownBackups(program));
  const good = join(ownBackups(program), name);
  const at = (other: string): string => join(folderOf(program), other);

  const spoilt = at('spoilt.undercroft-backup');
  const bytes = readFileSync(good);
  bytes[20_000] = (bytes[20_000] ?? 0) ^ 1;
  writeFileSync(spoilt, bytes);
  await lookInside(page, spoilt);
  await refused(page, /is damaged in 1 place of \d+ that were looked at\./);

  const cut = at('cut.undercroft-backup');
  copyFileSync(good, cut);
  truncateSync(cut, 30_000);
  await lookInside(page, cut);
  await refused(page, /was cut off: its end is missing\./);

  const letter = at('letter.undercroft-backup');
  writeFileSync(letter, 'Dear cellar');
  await lookInside(page, letter);
  await refused(page, /is not a backup of Undercroft/);
  await lookInside(page, at('none.undercroft-backup'));
  await refused(page, /^Nothing lies at/);
  await lookInside(page, program.file);
  await refused(page, /is the cellar that is open/);

  await lookInside(page, spoilt);
  await refused(page, /is damaged in 1 place/);
  const saved = at('saved.undercroft');
  await field(card(page, 'Restore'), 'The new cellar file for it').fill(saved);
  await press(card(page, 'Restore'), 'Save what can be read');
  await expect(card(page, 'Restore').getByText(/^\d+ lines? of the book saved/)).toBeVisible();
  await press(card(page, 'Restore'), 'Open what was saved');
  await expect(page.getByRole('grid')).toBeVisible();
});

test('by keys alone and with sticky hands: back up, look inside, open beside', async ({ page, program }) => {
  await toStrongbox(page);
  await page.keyboard.press('Control+Shift+P');
  const tabTo = async (wanted: Locator): Promise<void> => {
    for (let steps = 0; steps < 80; steps += 1) {
      if (await wanted.evaluate((element) => element === document.activeElement)) break;
      await page.keyboard.press('Tab');
    }
    await expect(wanted).toBeFocused();
    await seeFocus(page);
  };
  await tabTo(card(page, 'Back up').getByRole('button', { name: 'Back up now' }));
  await page.keyboard.press('Enter');
  await expect(card(page, 'Back up').getByText(/^Backed up and proven: /)).toBeVisible();
  const look = card(page, 'Restore').getByRole('button', { name: /^Look inside Orchard cellar .* by hand/ });
  await tabTo(look);
  const box = await look.boundingBox();
  expect(Math.min(box?.height ?? 0, box?.width ?? 0)).toBeGreaterThanOrEqual(44);
  await page.keyboard.press('Enter');
  await expect(inside(page)).toBeVisible();
  const target = field(inside(page), 'The new cellar file');
  await tabTo(target);
  await target.fill(join(folderOf(program), 'beside.undercroft'));
  await page.keyboard.press('Enter');
  await expect(inside(page).getByText(/^Open now: .*beside\.undercroft\./)).toBeVisible();
});

test('one is made on closing, when something was written', async ({ page, program }) => {
  await toStrongbox(page);
  // The window goes first, as when the program is shut: what it asks of a program that has ended is not looked at here.
  await page.goto('about:blank');
  await program.close();
  expect(readdirSync(ownBackups(program)).filter((name) => name.includes('on closing'))).toHaveLength(1);
  await program.open();
  await toStrongbox(page);
  await expect(card(page, 'Back up')).toContainText(
    /^Back up ?Last backup .*, on closing\. Nothing was written since\./,
  );
  await page.goto('about:blank');
  await program.close();
  expect(readdirSync(ownBackups(program)).filter((name) => name.includes('on closing'))).toHaveLength(1);
});

/** As when a stick is pulled out: its name leads nowhere. */
function pullOut(folder: string): void {
  rmSync(folder, { recursive: true });
}
