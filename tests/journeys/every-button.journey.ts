import type { Locator, Page } from '@playwright/test';
import { expect, test } from './program.ts';
import { pressEverything, type Scene } from './press-everything.ts';
import { addFromMenu, chooseOnShelf, fileChanged, onShelf, press, sheet, sidePanel } from './keeper.ts';

/**
 * In every place and every form each button, link, switch and choice that can be pressed is pressed once, from the same
 * beginning each time, and each has to change something that can be noticed. The console stays empty throughout.
 */

test.use({
  viewport: { width: 1280, height: 1400 },
  permissions: ['clipboard-read', 'clipboard-write'],
});

test.beforeEach(async ({ page, program }) => {
  test.setTimeout(420_000);
  // The browser’s own print sheet cannot be seen by a page; that it is asked for can.
  await page.addInitScript(() => {
    window.print = () => {
      document.documentElement.toggleAttribute('data-printed');
    };
  });
  await program.open('--demo');
  await expect(onShelf(page, /^Damson wine/)).toBeVisible();
});

/** A scene whose part is the same locator each time. */
function scene(
  name: string,
  part: (page: Page) => Locator,
  open: (page: Page) => Promise<unknown>,
  more: Pick<Scene, 'after' | 'last'> = {},
): Scene {
  const seen = async (page: Page): Promise<Locator> => {
    await open(page);
    await expect(part(page)).toBeVisible();
    return part(page);
  };
  return { name, part, open: seen, ...more };
}

const whole = (page: Page): Locator => page.locator('body');
const main = (page: Page): Locator => page.getByRole('main');

test('the shelves: rail, tools and what is due', async ({ page }) => {
  const last = /^Go back to your cellar$/;
  await pressEverything(page, scene('rail, tools and what is due', whole, freshShelves, { last }));
});

test('the shelves: panels, menu and table', async ({ page }) => {
  const scenes = [
    scene('a vessel with something in it', sidePanel, (page) => chosenOnShelf(page, /^Damson wine/)),
    scene('a culture at rest', sidePanel, (page) => chosenOnShelf(page, /^Old Bess/)),
    scene('an empty vessel', sidePanel, (page) => chosenOnShelf(page, /^Vessel 16/)),
    scene('several vessels', sidePanel, async (page) => {
      await chosenOnShelf(page, /^Damson wine/);
      await onShelf(page, /^Orchard cider/).click({ modifiers: ['ControlOrMeta'] });
      await expect(sidePanel(page).getByRole('heading', { name: '2 vessels' })).toBeVisible();
    }),
    scene(
      'the Add menu',
      (page) => page.getByRole('menu', { name: 'Add to the cellar' }),
      async (page) => {
        await at(page, '#/shelves');
        await press(page, 'Add');
      },
    ),
    scene(
      'the table',
      (page) => page.getByRole('region', { name: 'Vessels as a table' }),
      async (page) => {
        await freshShelves(page);
        await press(page, 'As a table');
      },
    ),
  ];
  for (const each of scenes) await pressEverything(page, each);
});

/** Every form, by its title and how it is reached. */
const forms: readonly (readonly [string | RegExp, (page: Page) => Promise<void>])[] = [
  ['Start a batch', (page) => fromMenu(page, 'A batch')],
  [/^Add (a vessel|\d+ vessels)$/, (page) => fromMenu(page, 'A vessel')],
  [/^Add (a shelf|shelves)$/, (page) => fromMenu(page, 'A shelf')],
  ['Add a place', (page) => fromMenu(page, 'A place')],
  ['Add a culture', (page) => fromMenu(page, 'A mother, yeast or starter')],
  ['Record a reading', (page) => fromPanel(page, /^Damson wine/, /^Record a reading/)],
  ['Move on', (page) => fromPanel(page, /^Damson wine/, /^Move on/)],
  [/^Note on /, (page) => fromPanel(page, /^Damson wine/, /^Note/)],
  ['Pitch yeast', (page) => fromPanel(page, /^Damson wine/, 'Pitch yeast')],
  ['Seed with a mother', (page) => fromPanel(page, /^Damson wine/, 'Add a mother')],
  ['Add to it', (page) => fromPanel(page, /^Damson wine/, 'Add to it')],
  ['Draw off', (page) => fromPanel(page, /^Damson wine/, 'Draw off')],
  ['Bottle', (page) => fromPanel(page, /^Damson wine/, /^Bottle$/)],
  ['Taste', (page) => fromPanel(page, /^Damson wine/, 'Taste…')],
  ['Throw out', (page) => fromPanel(page, /^Damson wine/, 'Discard')],
  ['Change the closure', (page) => fromPanel(page, /^Damson wine/, 'Change cover')],
  ['Move the vessel', (page) => fromPanel(page, /^Damson wine/, 'Move vessel')],
  ['Describe the vessel', (page) => fromPanel(page, /^Damson wine/, 'Edit vessel')],
  ['Transfer', (page) => fromPanel(page, /^Vessel 16/, 'Fill from…')],
  ['Split', (page) => fromPanel(page, /^Damson wine/, /^Split…/)],
  ['Blend', (page) => fromPanel(page, /^Damson wine/, 'Blend…')],
  ['Draw and refill', (page) => fromPanel(page, /^Damson wine/, 'Draw and refill…')],
  ['Take a sample', (page) => fromPanel(page, /^Damson wine/, 'Sample…')],
  ['Filter', (page) => fromPanel(page, /^Damson wine/, 'Filter…')],
  ['Lend the vessel', (page) => fromPanel(page, /^Vessel 16/, 'Lend…')],
  ['Clean and rest', (page) => fromPanel(page, /^Vessel 16/, 'Clean and rest…')],
  ['Retire this vessel', (page) => fromPanel(page, /^Vessel 16/, 'Retire vessel')],
  [/^Feed /, (page) => fromPanel(page, /^Old Bess/, 'Feed')],
  ['Describe the shelf', (page) => changeShelf(page)],
  [
    'Describe the place',
    async (page) => {
      await changeShelf(page);
      await press(sheet(page, 'Describe the shelf'), /^Change Pantry, the place/);
    },
  ],
  ['Keys', (page) => page.keyboard.press('F1')],
  [/saved/i, (page) => page.keyboard.press('Control+s')],
];

for (const third of [0, 1, 2] as const) {
  test(`the forms, ${['one third', 'another third', 'the last third'][third] ?? ''}`, async ({ page }) => {
    for (const [title, open] of forms.filter((_form, index) => index % 3 === third)) {
      const each = scene(
        String(title),
        (page) => sheet(page, title),
        async (page) => {
          await shutAll(page);
          await open(page);
        },
        {
          // A form that was sound as it stood has been carried out: that is taken back.
          after: async (page) => {
            const done = page.getByRole('status').filter({ hasText: /\S/ });
            if ((await page.getByRole('dialog').count()) > 0 || (await done.count()) === 0) return;
            if (/^(Taken back|Done again)/.test(await done.last().innerText())) return;
            await page.keyboard.press('Control+z');
            await expect(done.last()).toContainText('Taken back');
          },
        },
      );
      await pressEverything(page, each);
    }
  });
}

test('the Cellar Book, leaves, cultures, the calendar and the bench', async ({ page }) => {
  const openLeaf = async (page: Page): Promise<void> => {
    await chosenOnShelf(page, /^Apple vinegar 3/);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('region', { name: 'Days' })).toBeVisible();
  };
  const scenes = [
    scene('the ledger of batches', main, async (page) => {
      await at(page, '#/book');
      await expect(page.getByRole('grid', { name: 'Batches' })).toBeVisible();
    }),
    scene('a leaf', main, openLeaf),
    scene(
      'striking a line',
      (page) => sheet(page, 'Strike this line?'),
      async (page) => {
        await openLeaf(page);
        await page
          .getByRole('button', { name: /^Strike…/ })
          .first()
          .click();
      },
      { last: /^Strike/ },
    ),
    scene('the cultures', main, async (page) => {
      await at(page, '#/cultures');
      await expect(page.getByRole('list', { name: 'Cultures' })).toBeVisible();
    }),
    scene('the calendar', main, async (page) => {
      await at(page, '#/shelves');
      await at(page, '#/calendar');
      await expect(page.getByRole('grid', { name: /^November 2026/ })).toBeVisible();
    }),
    scene('the bench', main, async (page) => {
      await at(page, '#/shelves');
      await at(page, '#/bench');
      await expect(page.getByRole('navigation', { name: 'Reckonings' })).toBeVisible();
    }),
    scene('a reckoning', main, async (page) => {
      await at(page, '#/shelves');
      await at(page, '#/bench/titration');
      await expect(page.getByRole('heading', { name: 'Titration' })).toBeVisible();
    }),
  ];
  for (const each of scenes) await pressEverything(page, each);
});

test('a line of the book put right', async ({ page }) => {
  const correct = async (page: Page): Promise<void> => {
    await at(page, '#/shelves');
    await page.evaluate(() => {
      localStorage.clear();
    });
    await chosenOnShelf(page, /^Apple vinegar 3/);
    await page.keyboard.press('Enter');
    await page
      .getByRole('region', { name: 'Days' })
      .getByRole('button', { name: /^Correct….* moved from/ })
      .click();
  };
  const own = (page: Page): Locator => sheet(page, 'Correct: transfer');
  const whole = (page: Page): Locator => sheet(page, 'What this correction changes');
  const scenes = [
    scene('the form of a line', own, correct),
    scene('what a correction changes', whole, async (page) => {
      await correct(page);
      await own(page)
        .getByRole('textbox', { name: /^How much/ })
        .fill('1.2 L');
      await press(own(page), 'Show what changes');
      await expect(
        whole(page)
          .getByRole('button', { name: /^Correct this one too/ })
          .first(),
      ).toBeVisible();
    }),
  ];
  for (const each of scenes) await pressEverything(page, each);
});

test('pedigree, photos, tastings, comparing and kept filters', async ({ page }) => {
  const traced = async (page: Page, way: string): Promise<void> => {
    const panel = await chosenOnShelf(page, /^House red vinegar/);
    await panel.getByRole('link', { name: way }).click();
    await expect(page.getByRole('list', { name: 'Step by step' })).toBeVisible();
  };
  const leafOf = async (page: Page, vessel: RegExp): Promise<void> => {
    await chosenOnShelf(page, vessel);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('region', { name: 'Days' })).toBeVisible();
  };
  const book = async (page: Page): Promise<void> => {
    await at(page, '#/shelves');
    await at(page, '#/book');
    await expect(page.getByRole('grid', { name: 'Batches' })).toBeVisible();
  };
  const kept = (page: Page): Locator => page.getByRole('group', { name: 'Kept filters' });
  const scenes = [
    scene('where it came from', main, (page) => traced(page, 'Where it came from')),
    scene('what it touched', main, (page) => traced(page, 'What it touched')),
    scene(
      'keeping apart',
      (page) => sheet(page, 'Keep all of these apart'),
      async (page) => {
        await traced(page, 'What it touched');
        await press(page, /^Keep all of these apart…/);
      },
    ),
    scene(
      'a photo',
      (page) => sheet(page, /^Photo \d+ of/),
      async (page) => {
        await leafOf(page, /^Apple vinegar 3/);
        await page
          .getByRole('region', { name: 'Photos' })
          .getByRole('button', { name: /The film on the twelfth day/ })
          .click();
      },
    ),
    scene(
      'the tastings of a leaf',
      (page) => page.getByRole('region', { name: 'Tastings' }),
      (page) => leafOf(page, /^House red vinegar/),
    ),
    scene('batches side by side', main, async (page) => {
      await book(page);
      const boxes = page.getByRole('grid', { name: 'Batches' }).getByRole('checkbox');
      await boxes.nth(0).check();
      await boxes.nth(1).check();
      await press(page, 'Compare them');
      await expect(page.getByRole('region', { name: 'The batches side by side' })).toBeVisible();
    }),
    scene('the kept filters', kept, async (page) => {
      await book(page);
      const mine = kept(page).getByRole('button', { name: 'To look at' });
      if (await mine.isVisible()) {
        if ((await mine.getAttribute('aria-pressed')) !== 'true') await mine.click();
      } else {
        await page.getByRole('checkbox', { name: 'Needs a look' }).check();
        await press(page, 'Keep this filter…');
        await sheet(page, 'Keep this filter').getByRole('textbox').first().fill('To look at');
        await press(sheet(page, 'Keep this filter'), 'Keep it');
      }
      await expect(mine).toHaveAttribute('aria-pressed', 'true');
      await expect(kept(page).getByRole('button', { name: 'Keep this filter…' })).toBeHidden();
    }),
  ];
  for (const each of scenes) await pressEverything(page, each);
});

test('papers', async ({ page }) => {
  const tools = (page: Page): Locator => page.locator('header.tools');
  const paper = (part: (page: Page) => Locator, name: string, hash: string, title: string): Scene =>
    scene(name, part, async (page) => {
      await at(page, '#/shelves');
      await at(page, hash);
      await expect(page.getByRole('heading', { name: title, level: 2 })).toBeVisible();
    });
  const scenes = [
    paper(tools, 'the shelf list', '#/paper/shelves', 'Shelf list'),
    paper(main, 'the due list', '#/paper/due', 'Due list'),
  ];
  for (const each of scenes) await pressEverything(page, each);
});

test('the label desk', async ({ page }) => {
  // The desk outlives a visit, so each press begins with a window that has just been opened.
  const desk = async (page: Page): Promise<void> => {
    await at(page, '#/labels');
    await page.evaluate(() => {
      localStorage.clear();
    });
    await page.reload();
    await page.getByRole('searchbox', { name: 'Add a jar, a batch or bottles' }).fill('plum wine');
    await press(page, /^Add all \d+/);
    await expect(page.getByRole('img', { name: /^The label reads: / })).toBeVisible();
  };
  const tools = (page: Page): Locator => page.locator('header.tools');
  const scenes = [
    scene('the label desk', main, desk),
    scene('the tools of the label desk', tools, desk),
    scene(
      'a layout of one’s own',
      (page) => sheet(page, 'A layout of your own'),
      async (page) => {
        await desk(page);
        await press(page, 'A layout of your own…');
      },
    ),
  ];
  for (const each of scenes) await pressEverything(page, each);
});

test('the strongbox', async ({ page }) => {
  const scenes = [
    scene(
      'the strongbox',
      main,
      async (page) => {
        await at(page, '#/shelves');
        await at(page, '#/strongbox');
        await expect(page.getByRole('region', { name: 'Take out' })).toBeVisible();
        await expect(page.getByText(/^There is no backup of this cellar yet|^Last backup/)).toBeVisible();
      },
      // After it there is one more that can be looked into.
      { last: /^Back up now/ },
    ),
    scene(
      'the strongbox with a table in it',
      (page) => page.getByRole('region', { name: 'Bring in readings' }),
      async (page) => {
        await at(page, '#/shelves');
        await at(page, '#/strongbox');
        const paste = page.getByRole('textbox', { name: 'Or paste the rows, headings first' });
        await paste.fill('');
        await paste.fill('date,vessel,pH\n2026-11-24,#1,3.4\n2026-11-25 08:00,#1,34\n');
        await expect(page.getByRole('region', { name: 'The first rows as understood' })).toBeVisible();
      },
      { last: /^Bring in \d/ },
    ),
    scene(
      'the strongbox with a backup looked into',
      (page) => page.getByRole('region', { name: /^Inside the backup of/ }),
      async (page) => {
        await at(page, '#/shelves');
        await at(page, '#/strongbox');
        const look = page.getByRole('button', { name: /^Look inside .* by hand/ }).first();
        await expect(page.getByText(/^There is no backup of this cellar yet|^Last backup/)).toBeVisible();
        if (!(await look.isVisible())) await press(page, 'Back up now');
        await look.click();
        await expect(page.getByRole('region', { name: /^Inside the backup of/ })).toBeVisible();
      },
    ),
  ];
  for (const each of scenes) await pressEverything(page, each);
});

test('House Rules, going back to one’s own cellar, and the first page', async ({ page }) => {
  const firstPage = page.getByRole('heading', { name: 'Start a cellar' });
  await pressEverything(
    page,
    scene(
      'House Rules',
      (page) => sheet(page, 'House Rules'),
      async (page) => {
        await shutAll(page);
        await press(page, 'House Rules');
      },
      { last: /^Go back to your cellar$/, after: fileChanged },
    ),
  );
  await expect(firstPage).toBeVisible();
  await pressEverything(
    page,
    scene(
      'the first page',
      whole,
      async (page) => {
        await expect(firstPage.or(onShelf(page, /./).first())).toBeVisible();
        if (!(await firstPage.isVisible())) await press(page, 'Go back to your cellar');
        await expect(firstPage).toBeVisible();
      },
      { last: /^Start the cellar$/, after: fileChanged },
    ),
  );
});

async function fromMenu(page: Page, what: string): Promise<void> {
  await at(page, '#/shelves');
  await addFromMenu(page, what);
}

async function fromPanel(page: Page, vessel: RegExp, act: string | RegExp): Promise<void> {
  await press(await chosenOnShelf(page, vessel), act);
}

async function changeShelf(page: Page): Promise<void> {
  await at(page, '#/shelves');
  await press(page, /^Change shelf Pantry, top shelf/);
}

/** Shuts whatever lies on top, and forgets what was typed. */
async function shutAll(page: Page): Promise<void> {
  // One sheet may give way to another, and a sheet that has just been shut tells the page so a moment later.
  await expect(async () => {
    if ((await page.getByRole('dialog').count()) > 0) await page.keyboard.press('Escape');
    await page.evaluate(async () => {
      await new Promise((shown) => requestAnimationFrame(() => requestAnimationFrame(shown)));
      await new Promise((settle) => setTimeout(settle));
    });
    expect(await page.getByRole('dialog').count()).toBe(0);
  }).toPass({ timeout: 10_000, intervals: [10, 10, 10, 10, 50] });
  await page.evaluate(() => {
    localStorage.clear();
  });
}

/** Goes to an address inside the program, as a bookmark would. */
async function at(page: Page, hash: string): Promise<void> {
  await shutAll(page);
  if (new URL(page.url()).hash !== hash) await page.goto(new URL(hash, page.url()).href);
}

/** The shelves as a window shows them that has just been opened. */
async function freshShelves(page: Page): Promise<void> {
  await at(page, '#/shelves');
  await page.reload();
  await expect(onShelf(page, /^Damson wine/)).toBeVisible();
}

async function chosenOnShelf(page: Page, vessel: RegExp): Promise<Locator> {
  await at(page, '#/shelves');
  return chooseOnShelf(page, vessel);
}
