import BetterSqlite from 'better-sqlite3';
import { createHash } from 'node:crypto';
import type { Page } from '@playwright/test';
import { expect, test } from './program.ts';
import {
  beginCellar,
  carryOut,
  choice,
  chooseOnShelf,
  field,
  fill,
  press,
  putVessel,
  said,
  seeDone,
  seeFocus,
  segment,
  sheet,
} from './keeper.ts';

interface Picture {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

/** A picture painted and encoded by the browser itself, in one of the kinds it can write. */
async function painted(page: Page, name: string, mimeType: string, hue: number): Promise<Picture> {
  const base64 = await page.evaluate(
    async ([type, colour]) => {
      const canvas = document.createElement('canvas');
      canvas.width = 900;
      canvas.height = 600;
      const context = canvas.getContext('2d');
      if (context === null) throw new Error('no canvas');
      context.fillStyle = `hsl(${colour} 60% 40%)`;
      context.fillRect(0, 0, 900, 600);
      context.fillStyle = 'white';
      context.fillRect(200, 100, 300, 300);
      const blob = await new Promise<Blob | null>((settle) => canvas.toBlob(settle, type, 0.9));
      const bytes = new Uint8Array((await blob?.arrayBuffer()) ?? new ArrayBuffer());
      return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
    },
    [mimeType, hue] as const,
  );
  return { name, mimeType, buffer: Buffer.from(base64, 'base64') };
}

/** The same JPEG with what a telephone writes into it: a segment of notes that names a place. */
function withPlace(picture: Picture): Picture {
  const body = Buffer.from('Exif\0\0MM\0*GPS 47.1234 8.5678 my own garden');
  const head = Buffer.from([0xff, 0xe1, (body.length + 2) >> 8, (body.length + 2) & 255]);
  const { buffer } = picture;
  return { ...picture, buffer: Buffer.concat([buffer.subarray(0, 2), head, body, buffer.subarray(2)]) };
}

/** Lets something fall on the page, or pastes it, as the desktop would. */
async function handOver(page: Page, how: 'drop' | 'paste', { name, mimeType, buffer }: Picture) {
  await page.evaluate(
    ([way, called, type, base64]) => {
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const carried = new DataTransfer();
      carried.items.add(new File([bytes], called, { type }));
      const event =
        way === 'paste'
          ? new ClipboardEvent('paste', { clipboardData: carried, bubbles: true, cancelable: true })
          : new DragEvent('drop', { dataTransfer: carried, bubbles: true, cancelable: true });
      document.querySelector('main')?.dispatchEvent(event);
    },
    [how, name, mimeType, buffer.toString('base64')] as const,
  );
}

/** A cellar with one demijohn of must, and its leaf open. */
async function openLeaf(page: Page): Promise<void> {
  await beginCellar(page, { shelves: 1, positions: 4 });
  await putVessel(page, 'A1', { shape: 'Demijohn', holds: '5 L' });
  await press(await chooseOnShelf(page, /^Vessel 1, Empty/), 'Start a batch');
  const form = sheet(page, 'Start a batch');
  await field(form, 'Name').fill('Windfall apple');
  await choice(form, 'What it is').selectOption('Cider');
  await fill(form, { 'How much': '4.5 L', When: '9 d ago' });
  await carryOut(form, 'Start it');
  await press(await chooseOnShelf(page, /^Windfall apple/), /^Open leaf/);
  await expect(page.getByRole('heading', { name: 'Windfall apple', level: 1 })).toBeVisible();
}

const strip = (page: Page) => page.getByRole('region', { name: 'Photos' });
const tastings = (page: Page) => page.getByRole('region', { name: 'Tastings' });
const days = (page: Page) => page.getByRole('region', { name: 'Days' });

test('photos by mouse: chosen, dropped and pasted; looked at, named, taken back; nothing of the file stays', async ({
  page,
  program,
}) => {
  test.setTimeout(180_000);
  await program.open();
  await openLeaf(page);
  const [jpeg, png, webp] = [
    withPlace(await painted(page, 'IMG_0001.jpg', 'image/jpeg', 20)),
    await painted(page, 'jar.png', 'image/png', 120),
    await painted(page, 'jar.webp', 'image/webp', 220),
  ];
  const add = sheet(page, 'Add photos');

  await test.step('chosen: two pictures, and one that only says it is one', async () => {
    await press(strip(page), 'Add photos…');
    await expect(add.getByText(said('up to 40 MB'))).toBeVisible();
    await press(add.getByRole('contentinfo'), 'Keep it');
    await expect(add.getByText('Choose at least one picture.').first()).toBeVisible();
    const chooser = page.waitForEvent('filechooser');
    await press(add, 'Choose pictures…');
    const script = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>');
    await (await chooser).setFiles([jpeg, png, { name: 'evil.jpg', mimeType: 'image/jpeg', buffer: script }]);
    await expect(add.getByRole('alert')).toContainText('“evil.jpg” is no picture that is taken here');
    await press(add, 'Leave out picture 3');
    await expect(add.getByRole('alert')).toHaveCount(0);
    await field(add, 'Caption of picture 1').fill('The first foam');
    await field(add, 'When picture 1 was taken').fill('2 d ago');
    await carryOut(add, 'Keep them');
    await seeDone(page, 'Photo of Windfall apple');
    await expect(strip(page).getByRole('img')).toHaveCount(2);
  });

  await test.step('dropped anywhere on the leaf, and pasted', async () => {
    await handOver(page, 'drop', webp);
    await field(add, 'Caption').fill('From above');
    await carryOut(add, 'Keep it');
    await expect(strip(page).getByRole('img')).toHaveCount(3);
    await handOver(page, 'paste', await painted(page, 'image.png', 'image/png', 300));
    await expect(field(add, 'When it was taken')).toHaveValue('now');
    await carryOut(add, 'Keep it');
    await expect(strip(page).getByRole('img')).toHaveCount(4);
  });

  await test.step('the diary shows each, and a press opens it large', async () => {
    await expect(days(page).getByRole('img', { name: 'The first foam' })).toBeVisible();
    await days(page).getByRole('button', { name: 'The first foam', exact: true }).click();
    const large = sheet(page, 'Photo 4 of 4');
    await expect(large.getByRole('img', { name: 'The first foam' })).toBeVisible();
    await press(large, 'Previous');
    await expect(sheet(page, 'Photo 3 of 4')).toBeVisible();
    await press(sheet(page, 'Photo 3 of 4'), 'Next');
    await press(large, 'Edit caption…');
    const caption = sheet(page, 'Caption of a photo');
    await field(caption, 'Caption').fill('The first foam, day seven');
    await carryOut(caption, 'Keep');
    await expect(strip(page).getByRole('img', { name: 'The first foam, day seven' })).toBeVisible();
  });

  await test.step('taken back and done again', async () => {
    await page.keyboard.press('Control+z');
    await expect(strip(page).getByRole('img', { name: 'The first foam', exact: true })).toBeVisible();
    await page.keyboard.press('Control+z');
    await expect(strip(page).getByRole('img')).toHaveCount(3);
    await page.keyboard.press('Control+Shift+z');
    await expect(strip(page).getByRole('img')).toHaveCount(4);
  });

  await test.step('in the file are four whole pictures by their checksums, and no word of a garden', async () => {
    await program.close();
    const file = new BetterSqlite(program.file, { readonly: true });
    const kept = file.prepare('SELECT checksum, content, thumbnail FROM picture').all() as {
      readonly checksum: string;
      readonly content: Buffer;
      readonly thumbnail: Buffer;
    }[];
    file.close();
    expect(kept).toHaveLength(4);
    for (const { checksum, content, thumbnail } of kept) {
      expect(createHash('sha256').update(content).digest('hex')).toBe(checksum);
      expect(content.includes('garden') || thumbnail.includes('garden')).toBe(false);
      expect(content.subarray(0, 3)).toEqual(Buffer.from([0xff, 0xd8, 0xff]));
      expect(thumbnail.length).toBeLessThan(content.length);
    }
  });
});

test('photos by keys alone: looked through with the arrows, shut with Esc', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open();
  await openLeaf(page);
  const add = sheet(page, 'Add photos');
  for (const [name, hue] of [
    ['One', 10],
    ['Two', 130],
  ] as const) {
    await strip(page).getByRole('button', { name: 'Add photos…' }).focus();
    await page.keyboard.press('Enter');
    await seeFocus(page);
    const chooser = page.waitForEvent('filechooser');
    await expect(add.getByRole('button', { name: 'Choose pictures…' })).toBeFocused();
    await page.keyboard.press('Enter');
    await (await chooser).setFiles([await painted(page, `${name}.png`, 'image/png', hue)]);
    await field(add, 'Caption').focus();
    await page.keyboard.type(name);
    await page.keyboard.press('Enter');
    await expect(add).toBeHidden();
    await expect(strip(page).getByRole('img', { name })).toBeVisible();
  }
  await strip(page).getByRole('button', { name: 'Two' }).focus();
  await page.keyboard.press('Enter');
  await expect(sheet(page, 'Photo 1 of 2').getByRole('img', { name: 'Two' })).toBeVisible();
  await seeFocus(page);
  await page.keyboard.press('ArrowRight');
  await expect(sheet(page, 'Photo 2 of 2').getByRole('img', { name: 'One' })).toBeVisible();
  await page.keyboard.press('ArrowRight');
  await expect(sheet(page, 'Photo 2 of 2')).toBeVisible();
  await page.keyboard.press('Home');
  await expect(sheet(page, 'Photo 1 of 2')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(strip(page).getByRole('button', { name: 'Two' })).toBeFocused();
  await page.keyboard.press('Control+z');
  await expect(strip(page).getByRole('img')).toHaveCount(1);
});

test('a tasting by the wheel, a fault and its advice, and one by keys alone', async ({ page, program }) => {
  test.setTimeout(180_000);
  await program.open();
  await openLeaf(page);
  const form = sheet(page, 'Taste');

  await test.step('by mouse: the wheel ticks the list, and a fault is answered with the rules', async () => {
    await press(tastings(page), 'Taste…');
    await expect(form.getByText(said('Never taste anything with mould on it')).first()).toBeVisible();
    await press(form.getByRole('contentinfo'), 'Keep');
    await expect(form.getByText(said('Nothing is said of the taste yet')).first()).toBeVisible();
    await form.locator('[data-word=apple]').click();
    await form.locator('[data-word=solvent]').click();
    await expect(form.getByRole('checkbox', { name: 'apple' })).toBeChecked();
    await expect(form.getByRole('checkbox', { name: 'solvent' })).toBeChecked();
    await expect(form.getByText(said('decided by the safety rules on the leaf'))).toBeVisible();
    await expect(form.getByRole('button', { name: 'Look…' })).toBeVisible();
    await segment(form, 'Score', '2, passable').check();
    await fill(form, { 'In your own words': 'a breath of glue', 'Who tasted': 'the neighbour' });
    await carryOut(form, 'Keep');
    await seeDone(page, 'tasted by the neighbour: score 2 of 5; apple, solvent; a breath of glue');
    await expect(tastings(page).getByText('A fault is named')).toBeVisible();
    await expect(days(page).getByText(said('score 2 of 5; apple, solvent')).first()).toBeVisible();
  });

  await test.step('by keys alone, the other way round', async () => {
    await tastings(page).getByRole('button', { name: 'Taste…' }).focus();
    await page.keyboard.press('Enter');
    await expect(form.getByRole('checkbox', { name: 'apple' })).toBeFocused();
    await seeFocus(page);
    await page.keyboard.press('Space');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Space');
    await expect(form.locator('[data-word=pear]')).toHaveClass(/chosen/);
    await page.keyboard.press('Space');
    await expect(form.locator('[data-word=pear]')).not.toHaveClass(/chosen/);
    await form.getByRole('radio', { name: 'None' }).focus();
    for (let step = 0; step < 4; step += 1) await page.keyboard.press('ArrowRight');
    await expect(form.getByRole('radio', { name: '4, very good' })).toBeChecked();
    await field(form, 'Who tasted').focus();
    await page.keyboard.press('Enter');
    await expect(form).toBeHidden();
  });

  await test.step('the leaf shows scores over time and words by how often', async () => {
    await expect(tastings(page).getByRole('img', { name: /^Score rose from 2 to 4/ })).toBeVisible();
    const counts = tastings(page)
      .getByRole('listitem')
      .filter({ hasText: /^apple\s*2/ });
    await expect(counts).toBeVisible();
    await expect(tastings(page).getByText('A fault is named')).toHaveCount(0);
    await page.keyboard.press('Control+z');
    await expect(tastings(page).getByRole('img', { name: /^Score was 2/ })).toBeVisible();
    await page.keyboard.press('Control+Shift+z');
    await expect(tastings(page).getByRole('img', { name: /^Score rose/ })).toBeVisible();
  });

  await test.step('with sticky hands every word is large enough to press', async () => {
    await page.keyboard.press('Control+Shift+p');
    await press(tastings(page), 'Taste…');
    for (const word of ['apple', 'oak', 'rancid']) {
      const box = await form.getByRole('checkbox', { name: word }).locator('xpath=..').boundingBox();
      expect(box?.height ?? 0).toBeGreaterThanOrEqual(55);
    }
    await form.locator('[data-word=oak]').click();
    await expect(form.getByRole('checkbox', { name: 'oak' })).toBeChecked();
  });
});
