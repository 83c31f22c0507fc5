import type { Page } from '@playwright/test';
import { createHash } from 'node:crypto';
import { NOTHING_READ } from '../../src-core/ledger/act.ts';
import { ALL_BATCHES } from '../../src-core/ledger/batch-filter.ts';
import {
  beginCellar,
  carryOut,
  choice,
  chooseOnShelf,
  fill,
  onShelf,
  press,
  putVessel,
  sheet,
} from './keeper.ts';
import { expect, test } from './program.ts';

/** Text that a page would run if it took it for more than text, in every field that takes text, shown everywhere. */

const BAD = `<img src=x onerror=alert(1)>"><script>alert(2)</script>`;
const LINK = 'javascript:alert(3)';
/** Tall, so that every place on the shelf is in sight. */
test.use({ viewport: { width: 1280, height: 1600 } });

test('script in every text field is shown as text, in every place, and nothing of it runs', async ({
  page,
  program,
}) => {
  test.setTimeout(180_000);
  const ran: string[] = [];
  page.on('dialog', (dialog) => {
    ran.push(dialog.message());
    void dialog.dismiss();
  });
  await page.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', (event) => {
      document.documentElement.setAttribute('data-violated', event.violatedDirective);
    });
  });
  const seeNothingRan = async (): Promise<void> => {
    await expect(page.locator('img[src="x"], [onerror], a[href^="javascript" i], body script')).toHaveCount(
      0,
    );
    await expect(page.locator('html[data-violated]')).toHaveCount(0);
    expect(ran).toEqual([]);
  };

  await test.step('typed into forms', async () => {
    await program.open();
    await beginCellar(page, { name: BAD, shelves: 2, positions: 10 });
    await putVessel(page, 'A1', { shape: 'Demijohn', holds: '5 L', name: BAD });
    await press(await chooseOnShelf(page, /^<img src=x/), 'Start a batch');
    const form = sheet(page, 'Start a batch');
    await fill(form, { Name: BAD, 'How much': '4.5 L' });
    await choice(form, 'What it is').selectOption('Cider');
    await carryOut(form, 'Start it');
    await expect(onShelf(page, /^<img src=x/)).toBeVisible();
    await seeNothingRan();
  });

  await test.step('and into all other fields, past the forms', async () => {
    await writeEverywhere(page);
    await page.reload();
    await expect(onShelf(page, /^<img src=x/).first()).toBeVisible();
    await seeNothingRan();
  });

  await test.step('the side panel', async () => {
    const panel = await chooseOnShelf(page, onShelf(page, /^<img src=x/).first());
    await expect(panel).toContainText(BAD);
    await seeNothingRan();
  });

  await test.step('where it came from, also as it is printed', async () => {
    await page.getByRole('link', { name: 'Where it came from' }).click();
    await expect(page.getByRole('list', { name: 'Step by step' })).toContainText(BAD);
    await page.emulateMedia({ media: 'print' });
    await seeNothingRan();
    await page.emulateMedia({ media: null });
    await page.goBack();
  });

  await test.step('the leaf, its diary, photos and tastings', async () => {
    await onShelf(page, /^<img src=x/)
      .first()
      .press('Enter');
    await expect(page.getByRole('heading', { level: 1 })).toContainText(BAD);
    await expect(page.getByRole('main')).toContainText(LINK);
    await seeNothingRan();
    await page.emulateMedia({ media: 'print' });
    await seeNothingRan();
    await page.emulateMedia({ media: null });
  });

  for (const place of ['Cellar Book', 'Cultures', 'Bench', 'Label Desk', 'Strongbox', 'Shelves']) {
    await test.step(`the place ${place}`, async () => {
      await page
        .getByRole('navigation', { name: 'Places' })
        .getByRole('link', { name: new RegExp(`^${place}`) })
        .click();
      await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
      if (place === 'Cellar Book' || place === 'Cultures') {
        await expect(page.getByRole('main')).toContainText('<img src=x');
      }
      await seeNothingRan();
    });
  }

  await test.step('a table of such rows is looked over', async () => {
    await page.keyboard.press('Control+7');
    const card = page.getByRole('region', { name: 'Bring in readings', exact: true });
    await card
      .getByRole('textbox', { name: 'Or paste the rows, headings first' })
      .fill(
        `day,vessel,SG,taste\n2026-11-20,#1,1.012,"${BAD.replaceAll('"', '""')}"\n2026-11-21,"${LINK}",1.011,x\n`,
      );
    await expect(card.getByText(`No vessel is called “${LINK}”`, { exact: false })).toBeVisible();
    await seeNothingRan();
  });

  await test.step('found again by its signs', async () => {
    await page.keyboard.press('Control+1');
    await expect(onShelf(page, /^<img src=x/).first()).toBeVisible();
    await page.keyboard.press('Control+k');
    await page.keyboard.type('<script>alert');
    await expect(page.getByRole('option').filter({ hasText: '<script>alert' }).first()).toBeVisible();
    await seeNothingRan();
  });
});

/** A JPEG of 4 by 3 pixels, as small as one can be laid out. */
function smallPicture(): Uint8Array {
  const words = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
  return Uint8Array.from([
    ...[0xff, 0xd8, 0xff, 0xe0, 0, 16, ...words('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0],
    ...[0xff, 0xdb, 0, 67, 0, ...Array<number>(64).fill(1)],
    ...[0xff, 0xc0, 0, 11, 8, 0, 3, 0, 4, 1, 1, 0x11, 0, 0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0],
    ...[0x12, 0x34, 0xff, 0xd9],
  ]);
}

interface Sent {
  readonly path: string;
  readonly input: unknown;
  readonly picture?: readonly number[];
}

/** Calls as the page itself does. */
function call(page: Page, sent: Sent): Promise<Record<string, unknown>> {
  return page.evaluate(async ({ path, input, picture }) => {
    let body: BodyInit = JSON.stringify({ json: input });
    let headers: Record<string, string> = { 'content-type': 'application/json' };
    if (picture !== undefined) {
      const form = new FormData();
      form.set(
        'data',
        JSON.stringify({
          json: { ...(input as object), picture: {}, thumbnail: {} },
          meta: [],
          maps: [['picture'], ['thumbnail']],
        }),
      );
      for (const key of ['0', '1'])
        form.set(key, new File([Uint8Array.from(picture)], 'picture.jpg', { type: 'image/jpeg' }));
      body = form;
      headers = {};
    }
    const answer = await fetch(`/rpc/${path}`, { method: 'POST', headers, body });
    const text = await answer.text();
    if (!answer.ok) throw new Error(`${path}: ${text}`);
    return (JSON.parse(text) as { json: Record<string, unknown> }).json;
  }, sent);
}

/** One act with such text in each of its fields that take text. */
async function writeEverywhere(page: Page): Promise<void> {
  const post = async (act: Record<string, unknown>): Promise<Record<string, unknown>> => {
    const input = { requestId: crypto.randomUUID(), act, happenedAtMs: null, typed: { quick: BAD } };
    const { entry } = await call(page, { path: 'ledger/post', input });
    return entry as Record<string, unknown>;
  };
  const made = async (act: Record<string, unknown>, id: string): Promise<string> =>
    String(((await post(act))['act'] as Record<string, unknown>)[id]);
  const [jar] = (await call(page, {
    path: 'shelves/choose',
    input: { wanted: 'filled', text: '', limit: 10 },
  })) as unknown as { vesselId: string; batchId?: string }[];
  const vesselId = jar?.vesselId ?? '';
  const about = { kind: 'vessel', vesselId };
  const placeId = await made({ kind: 'addPlace', name: BAD, note: BAD }, 'placeId');
  await post({ kind: 'addShelf', placeId, name: BAD, positions: 4 });
  const cultureId = await made(
    {
      kind: 'addCulture',
      name: BAD,
      sort: 'yeast',
      source: BAD,
      note: LINK,
      parentCultureId: null,
      standing: null,
    },
    'cultureId',
  );
  await post({ kind: 'pitchYeast', vesselId, cultureId, yeast: BAD, massUg: null });
  await post({ kind: 'note', about, text: `${BAD} ${LINK}` });
  await post({ kind: 'note', about: { kind: 'culture', cultureId }, text: BAD });
  await post({ kind: 'recordReading', vesselId, values: { ...NOTHING_READ, gravitySg: 1.05, taste: BAD } });
  await post({
    ...{ kind: 'addTo', vesselId, what: 'other', volumeUl: 1000 },
    ingredient: { name: BAD, amountTyped: BAD.slice(0, 60), massUg: null },
  });
  await post({ kind: 'drawOff', vesselId, volumeUl: 1000, purpose: BAD });
  await post({ kind: 'tasteNote', about, words: [], score: 3, text: BAD, by: LINK });
  await post({ kind: 'changeStage', vesselId, stage: 'settling', reason: BAD });
  const lot = await post({ kind: 'bottle', vesselId, bottles: 2, bottleUl: 500_000, lossUl: 0, note: BAD });
  await post({
    kind: 'takeBottles',
    lotId: lot['entryId'],
    bottles: 1,
    how: 'given',
    holder: BAD,
    note: BAD,
  });
  await post({ kind: 'lendVessel', vesselId, holder: BAD, note: BAD });
  await post({ kind: 'keepBatchFilter', name: BAD, filter: { ...ALL_BATCHES, text: 'must', columns: null } });
  const picture = smallPicture();
  const checksum = createHash('sha256').update(picture).digest('hex');
  const act = { kind: 'addPhoto', about, checksum, widthPx: 4, heightPx: 3, caption: BAD };
  const input = { requestId: crypto.randomUUID(), act, happenedAtMs: null, typed: {} };
  await call(page, { path: 'photos/add', input, picture: [...picture] });
}
