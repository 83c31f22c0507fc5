import { AxeBuilder } from '@axe-core/playwright';
import type { Locator, Page } from '@playwright/test';
import { chooseOnShelf, onShelf, press, sheet, sidePanel } from './keeper.ts';
import { expect, test } from './program.ts';

/**
 * Every place and every kind of form, looked at as axe looks, in light and dark, with sticky hands and without colours
 * of our own; at 320 px nothing has to be scrolled sideways but the shelf and tables; everything pressed is large enough.
 */

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

interface Scene {
  readonly name: string;
  readonly open: (page: Page) => Promise<unknown>;
}

const places: readonly Scene[] = [
  { name: 'the shelves', open: (page) => at(page, '#/shelves', onShelf(page, /^Damson wine/)) },
  { name: 'a vessel chosen', open: (page) => chosen(page, 'Apple vinegar 3') },
  { name: 'a leaf', open: openLeaf },
  {
    name: 'the book',
    open: (page) => at(page, '#/book', page.getByRole('grid', { name: 'Batches' })),
  },
  {
    name: 'the cultures',
    open: async (page) => {
      await at(page, '#/cultures', page.getByRole('list', { name: 'Cultures' }));
      await page
        .getByRole('list', { name: 'Cultures' })
        .getByRole('link', { name: /^Old Bess/ })
        .click();
      await expect(page.getByRole('heading', { name: 'Old Bess', level: 2 })).toBeVisible();
    },
  },
  {
    name: 'the calendar',
    open: (page) => at(page, '#/calendar', page.getByRole('grid', { name: /^November 2026/ })),
  },
  {
    name: 'the bench',
    open: (page) => at(page, '#/bench', page.getByRole('navigation', { name: 'Reckonings' })),
  },
  {
    name: 'a reckoning with its answer',
    open: async (page) => {
      await at(page, '#/bench/titration', page.getByRole('heading', { name: 'Titration' }));
      await press(page, 'Show an example');
      await expect(
        page.getByRole('region', { name: 'Answer' }).getByRole('definition').first(),
      ).toBeVisible();
    },
  },
];

/** What is printed, and what is kept safe. */
const papers: readonly Scene[] = [
  ...(
    [
      ['the shelf list', '#/paper/shelves', 'Shelf list'],
      ['the due list', '#/paper/due', 'Due list'],
      ['the culture cards', '#/paper/cultures', 'Culture cards'],
    ] as const
  ).map(([name, hash, title]) => ({
    name,
    open: (page: Page) => at(page, hash, page.getByRole('heading', { name: title, level: 2 })),
  })),
  {
    name: 'the label desk, nothing chosen',
    open: (page) => at(page, '#/labels', page.getByText('Nothing is chosen yet.')),
  },
  {
    name: 'the label desk',
    open: async (page) => {
      await at(page, '#/labels', page.getByRole('list', { name: 'Places of the sheet' }));
      const find = page.getByRole('searchbox', { name: 'Add a jar, a batch or bottles' });
      await find.fill('plum');
      await press(page, /^Add all \d+/);
      await expect(page.getByRole('img', { name: /^The label reads: / })).toBeVisible();
      await find.fill('apple');
      await expect(page.getByRole('list', { name: 'Found' })).toBeVisible();
      await page.getByText('Where the print sits, measured on a test sheet').click();
      await page.getByText(/^Left off or changed on/).click();
    },
  },
  {
    name: 'the strongbox',
    open: (page) => at(page, '#/strongbox', page.getByRole('region', { name: 'Where and when' })),
  },
  {
    name: 'a backup looked into',
    open: async (page) => {
      await at(page, '#/strongbox', page.getByRole('button', { name: 'Back up now' }));
      await press(page, 'Back up now');
      await expect(page.getByText(/^Backed up and proven: /)).toBeVisible();
      await page
        .getByRole('button', { name: /^Look inside .* by hand/ })
        .first()
        .click();
      await expect(page.getByRole('region', { name: /^Inside the backup of/ })).toBeVisible();
    },
  },
  {
    name: 'a leaf for the binder',
    open: async (page) => {
      await openLeaf(page);
      await press(page, /^For the binder…/);
      await expect(page.getByRole('article', { name: /^Leaf for the binder/ })).toBeVisible();
    },
  },
];

const forms: readonly Scene[] = [
  form('House Rules', async (page) => {
    await page.keyboard.press('Control+,');
  }),
  form('Keys', (page) => page.keyboard.press('F1')),
  form('Start a batch', (page) => page.keyboard.press('Control+n')),
  form('Record a reading', (page) => fromPanel(page, 'Apple vinegar 3', /^Record a reading/)),
  form('Look at it', (page) => fromPanel(page, 'Apple vinegar 3', 'Look…', 'Look at it')),
  form('Heat', (page) => fromPanel(page, 'Apple vinegar 3', 'Heat…')),
  form('Titrate', async (page) => {
    await fromPanel(page, 'Apple vinegar 3', 'Titrate…');
    await press(sheet(page, 'Titrate').getByRole('contentinfo'), /^Next/);
  }),
  form('An evening of samples', async (page) => {
    await fromPanel(page, 'Apple vinegar 4', 'Titrate…');
    await press(sheet(page, 'Titrate'), 'Several vessels in one evening…');
  }),
  form('Tell what you know', (page) => fromUse(page, /^To be called vinegar/, 'Tell what you know…')),
  form('Use it anyway', (page) => fromUse(page, /^To dress a salad/, 'Use anyway, my reason…')),
  form('Transfer', async (page) => {
    await at(page, '#/shelves', page.getByRole('grid'));
    await press(await chooseOnShelf(page, /^Vessel 16, Empty/), 'Fill from…');
  }),
  form('Correct: transfer', correctTransfer),
  form('What this correction changes', async (page) => {
    await correctTransfer(page);
    const own = sheet(page, 'Correct: transfer');
    await own.getByRole('textbox', { name: /^How much/ }).fill('1.2 L');
    await press(own, 'Show what changes');
    await expect(
      sheet(page, 'What this correction changes')
        .getByText(/later line|could not have been/)
        .first(),
    ).toBeVisible();
  }),
];

/** What was traced, tasted, shown, compared and kept of the book. */
const ofTheBook: readonly Scene[] = [
  { name: 'where it came from', open: (page) => traced(page, 'Where it came from') },
  { name: 'what it touched', open: (page) => traced(page, 'What it touched') },
  {
    name: 'a leaf with tastings',
    open: async (page) => {
      await chosen(page, 'House red vinegar');
      await page.keyboard.press('Enter');
      await expect(page.getByRole('region', { name: 'Tastings' })).toBeVisible();
    },
  },
  {
    name: 'batches side by side',
    open: async (page) => {
      await at(page, '#/book', page.getByRole('grid', { name: 'Batches' }));
      const boxes = page.getByRole('grid', { name: 'Batches' }).getByRole('checkbox');
      await boxes.nth(0).check();
      await boxes.nth(1).check();
      await press(page, 'Compare them');
      await expect(page.getByRole('region', { name: 'The batches side by side' })).toBeVisible();
    },
  },
  {
    name: 'the book with a kept filter',
    open: async (page) => {
      await at(page, '#/shelves', page.getByRole('grid'));
      await at(page, '#/book', page.getByRole('grid', { name: 'Batches' }));
      const kept = page.getByRole('group', { name: 'Kept filters' });
      if (await kept.getByRole('button', { name: 'To look at' }).isVisible()) return;
      await page.getByRole('checkbox', { name: 'Needs a look' }).check();
      await press(page, 'Keep this filter…');
      await sheet(page, 'Keep this filter').getByRole('textbox').first().fill('To look at');
      await press(sheet(page, 'Keep this filter'), 'Keep it');
      await expect(kept.getByRole('button', { name: 'To look at' })).toBeVisible();
    },
  },
  form('Keep all of these apart', async (page) => {
    await traced(page, 'What it touched');
    await press(page, /^Keep all of these apart…/);
  }),
  form('Taste', (page) => fromPanel(page, 'Apple vinegar 3', 'Taste…')),
  {
    name: 'a photo',
    open: async (page) => {
      await openLeaf(page);
      await page
        .getByRole('region', { name: 'Photos' })
        .getByRole('button', { name: /The film on the twelfth day/ })
        .click();
      await expect(sheet(page, /^Photo \d+ of/).getByRole('img')).toBeVisible();
    },
  },
  form('A layout of your own', async (page) => {
    await at(page, '#/labels', page.getByRole('list', { name: 'Places of the sheet' }));
    await press(page, 'A layout of your own…');
  }),
];

/** What can differ when only the colours, or only the sizes, are others; the rest is looked at once, in light. */
const COLOURS = ['color-contrast', 'link-in-text-block'];
const SIZES = ['scrollable-region-focusable', 'color-contrast'];

interface Mode {
  readonly name: string;
  readonly rules: readonly string[] | null;
  readonly set: { readonly colorScheme: 'light' | 'dark'; readonly forcedColors?: 'none' | 'active' };
}
/** A scene once opened is looked at in each of these. */
const MODES: readonly Mode[] = [
  { name: 'light', rules: null, set: { colorScheme: 'light', forcedColors: 'none' } },
  { name: 'dark', rules: COLOURS, set: { colorScheme: 'dark', forcedColors: 'none' } },
  { name: 'forced colours', rules: COLOURS, set: { colorScheme: 'light', forcedColors: 'active' } },
];
/** Sticky hands change the layout, so scenes are opened in it. */
const PANTRY: Mode = { name: 'pantry mode', rules: SIZES, set: { colorScheme: 'light' } };

const walks: readonly (readonly [string, readonly Scene[]])[] = [
  ['the places', places],
  ['the forms', forms],
  ['papers, labels and the strongbox', papers],
  ['what was traced, tasted, compared and kept', ofTheBook],
];

// Colours that still fade into those of another mode are nobody's to read.
test.use({ contextOptions: { reducedMotion: 'reduce' } });

test.beforeEach(async ({ page, program }) => {
  test.setTimeout(420_000);
  await page.emulateMedia(MODES[0]!.set);
  await program.open('--demo');
  await expect(onShelf(page, /^Damson wine/)).toBeVisible();
});

test.describe('no fault is found and everything pressed is large enough: light, dark and forced colours', () => {
  for (const [name, scenes] of walks) {
    test(name, async ({ page }) => {
      for (const scene of scenes) {
        await test.step(scene.name, async () => {
          await scene.open(page);
          await inEachMode(page, scene.name, 24);
          await fitsWhenNarrow(page, scene.name);
        });
      }
    });
  }

  test('the shelves in other ways, and the first page', async ({ page }) => {
    await otherShelves(page);
    await press(page, 'Go back to your cellar');
    await expect(page.getByRole('heading', { name: 'Start a cellar' })).toBeVisible();
    await inEachMode(page, 'the first page', 24);
  });
});

test.describe('no fault is found and everything pressed is large enough: pantry mode', () => {
  test.beforeEach(async ({ page }) => {
    await page.keyboard.press('Control+Shift+p');
    await expect(page.locator('html')).toHaveAttribute('data-pantry');
  });

  for (const [name, scenes] of walks) {
    test(name, async ({ page }) => {
      for (const scene of scenes) {
        await test.step(scene.name, async () => {
          await scene.open(page);
          await soundToAxe(page, scene.name, PANTRY);
          await largeEnough(page, scene.name, 44);
        });
      }
      if (scenes !== places) return;
      await at(page, '#/shelves', page.getByRole('grid'));
      await press(page, 'Go back to your cellar');
      await expect(page.getByRole('heading', { name: 'Start a cellar' })).toBeVisible();
      await soundToAxe(page, 'the first page', PANTRY);
      // Sticky hands are a house rule of the cellar that was just left.
      await largeEnough(page, 'the first page', 24);
    });
  }
});

/** What lies open, in light, dark and forced colours, and in light again. */
async function inEachMode(page: Page, where: string, leastPx: number | null): Promise<void> {
  for (const mode of MODES) {
    await setMode(page, mode);
    await soundToAxe(page, where, mode);
    if (leastPx !== null) await largeEnough(page, `${where}, ${mode.name}`, leastPx);
  }
  await setMode(page, MODES[0]!);
}

/** Sets the colours, and waits until the page has taken them up and drawn itself in them. */
async function setMode(page: Page, { set }: Mode): Promise<void> {
  await page.emulateMedia(set);
  await expect(page.locator('html')).toHaveAttribute('data-theme', set.colorScheme);
  await page.evaluate(async () => {
    await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
  });
}

async function largeEnough(page: Page, where: string, leastPx: number): Promise<void> {
  expect.soft(await page.evaluate(smallTargets, leastPx), `too small in ${where}`).toEqual([]);
}

/** At 320 px, the width of 400 % zoom, nothing is scrolled sideways but the shelf and wide tables. */
async function fitsWhenNarrow(page: Page, where: string): Promise<void> {
  await page.setViewportSize({ width: 320, height: 640 });
  // A page that was just made narrow is laid out anew a moment later.
  await expect
    .configure({ soft: true })
    .poll(() => page.evaluate(scrolledSideways), { message: `${where}, 320 px wide`, timeout: 3_000 })
    .toEqual([]);
  await page.setViewportSize({ width: 1280, height: 800 });
}

/** The shelves drawn and grouped in the other ways. */
async function otherShelves(page: Page): Promise<void> {
  for (const density of ['Close', 'Dots', 'Roomy']) {
    await page.getByRole('radio', { name: density }).check();
    await inEachMode(page, `the shelves, ${density}`, null);
  }
  await page.getByRole('radio', { name: 'Due' }).check();
  await inEachMode(page, 'the shelves, by what is due', null);
  await press(page, 'As a table');
  await inEachMode(page, 'the shelves as a table', 24);
}

function form(title: string, open: (page: Page) => Promise<unknown>): Scene {
  return {
    name: title,
    open: async (page) => {
      await shutAll(page);
      await open(page);
      await expect(sheet(page, title)).toBeVisible();
    },
  };
}

async function shutAll(page: Page): Promise<void> {
  const open = page.getByRole('dialog').filter({ visible: true });
  while ((await open.count()) > 0) {
    const top = open.last();
    const title = await top.getByRole('heading').first().innerText();
    await top.getByRole('button', { name: 'Close' }).first().click();
    await expect(sheet(page, title)).toHaveCount(0);
  }
}

async function at(page: Page, hash: string, seen: Locator): Promise<void> {
  await shutAll(page);
  if (new URL(page.url()).hash !== hash) await page.goto(new URL(hash, page.url()).href);
  await expect(seen.first()).toBeVisible();
}

/** Finds a vessel by its name, so that it is in sight also where few are, and chooses it. */
async function chosen(page: Page, name: string): Promise<Locator> {
  await at(page, '#/shelves', page.getByRole('grid'));
  await page.keyboard.press('Control+k');
  await page.keyboard.type(name);
  await expect(page.getByText(`Enter shows ${name} on the shelf.`)).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(sidePanel(page).getByRole('heading', { level: 2, name })).toBeVisible();
  await expect(page.locator('[role="gridcell"]:focus')).toContainText(name);
  return sidePanel(page);
}

async function openLeaf(page: Page): Promise<void> {
  await chosen(page, 'Apple vinegar 3');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('region', { name: 'Days' })).toBeVisible();
}

async function traced(page: Page, way: string): Promise<void> {
  const panel = await chosen(page, 'House red vinegar');
  await panel.getByRole('link', { name: way }).click();
  await expect(page.getByRole('list', { name: 'Step by step' })).toBeVisible();
}

async function correctTransfer(page: Page): Promise<void> {
  await openLeaf(page);
  await page
    .getByRole('region', { name: 'Days' })
    .getByRole('button', { name: /^Correct….* moved from/ })
    .click();
}

async function fromPanel(page: Page, vessel: string, act: string | RegExp, title?: string): Promise<void> {
  const panel = await chosen(page, vessel);
  await panel.getByRole('button', { name: act }).last().click();
  if (title !== undefined) await expect(sheet(page, title)).toBeVisible();
}

async function fromUse(page: Page, use: RegExp, act: string): Promise<void> {
  await chosen(page, 'Apple vinegar 3');
  const verdict = sidePanel(page).getByRole('region', { name: use });
  const shown = verdict.getByRole('button').first();
  if ((await shown.getAttribute('aria-expanded')) !== 'true') await shown.click();
  await press(verdict, act);
}

/** Looks as axe looks, by the mode's rules or by all of them. */
async function soundToAxe(page: Page, where: string, { name, rules }: Mode): Promise<void> {
  // In the page itself: there are no frames for which a blank page would have to be opened each time.
  const axe = new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).setLegacyMode();
  // How large a target is, is looked at below: here a list scrolled half under its own head would count as too small.
  if (rules === null) axe.withTags(TAGS).disableRules(['target-size']);
  else axe.withRules([...rules]);
  const { violations } = await axe.analyze();
  const found = violations.map(({ id, nodes }) => [
    id,
    ...nodes.slice(0, 3).map(({ html, any }) => `${html.slice(0, 200)} ${any[0]?.message ?? ''}`),
  ]);
  expect.soft(found, `axe in ${where}, ${name}`).toEqual([]);
}

/** What can be pressed and is less than so many px wide or high. A link in running text may be. Runs in the page. */
function smallTargets(leastPx: number): string[] {
  const top = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
  const pressed = top.querySelectorAll<HTMLElement>(
    'button, a[href], input:not([type="hidden"]), select, textarea, summary, [role="slider"], [role="menuitem"]',
  );
  const small = [...pressed].flatMap((element) => {
    const isChoice = element.matches('input[type="radio"], input[type="checkbox"]');
    const target = isChoice ? (element.closest('label') ?? element) : element;
    const { width, height } = target.getBoundingClientRect();
    const isShown = width > 1 && height > 1 && getComputedStyle(element).visibility !== 'hidden';
    const text = element.closest('p, li, dd')?.textContent.trim().length ?? 0;
    const isInText = element.tagName === 'A' && text > element.textContent.trim().length;
    const isSkip = element.matches('.skip');
    if (!isShown || isInText || isSkip || (width >= leastPx - 0.5 && height >= leastPx - 0.5)) return [];
    const name = element.getAttribute('aria-label') ?? target.textContent.trim();
    return [
      `${element.tagName.toLowerCase()}.${element.className} “${name.slice(0, 40)}” ${width.toFixed(0)}x${height.toFixed(0)}`,
    ];
  });
  return [...new Set(small)].slice(0, 12);
}

/** Boxes that scroll sideways and are neither the shelf nor around a table. Runs in the page. */
function scrolledSideways(): string[] {
  return [...document.querySelectorAll<HTMLElement>('*')].flatMap((element) => {
    const { overflowX, visibility } = getComputedStyle(element);
    const isRoot = element === document.documentElement;
    const scrolls = isRoot || overflowX === 'auto' || overflowX === 'scroll';
    if (!scrolls || visibility === 'hidden' || element.scrollWidth <= element.clientWidth + 1) return [];
    // A drawing of what came from where has two dimensions, and the list below it says the same in one.
    if (
      !isRoot &&
      (element.querySelector('table, [role="grid"]') !== null || element.matches('pre, svg, .drawing'))
    )
      return [];
    return [
      `${element.tagName.toLowerCase()}.${element.className} ${element.scrollWidth} > ${element.clientWidth}`,
    ];
  });
}
