import { expect, type Locator, type Page } from '@playwright/test';

/** What a keeper does at the window: everything by the names and words in sight. */

/** A form or message that lies on top of the place, by its title. */
export function sheet(page: Page, title: string | RegExp): Locator {
  return page.getByRole('dialog', { name: title });
}

/** The text field whose label begins with these words. */
export function field(within: Page | Locator, label: string): Locator {
  return within.getByRole('textbox', { name: beginsWith(label) });
}

/** The drop-down or search-and-choose field whose label begins with these words. */
export function choice(within: Page | Locator, label: string): Locator {
  return within.getByRole('combobox', { name: beginsWith(label) });
}

/** One of the choices that lie side by side under a label. */
export function segment(within: Page | Locator, group: string, option: string | RegExp): Locator {
  return within.getByRole('group', { name: group }).getByRole('radio', { name: option });
}

export function press(within: Page | Locator, name: string | RegExp): Promise<void> {
  return within.getByRole('button', { name }).click();
}

/** The cell of a vessel or of a free place on the shelf, by the spot its name ends in or by what it says. */
export function onShelf(page: Page, says: string | RegExp): Locator {
  return page.getByRole('gridcell', { name: says });
}

/** The panel beside the shelves. */
export function sidePanel(page: Page): Locator {
  return page.getByRole('main').getByRole('complementary');
}

/** Waits until the bar at the foot says that this was done last. */
export async function seeDone(page: Page, words: string): Promise<void> {
  await expect(page.getByRole('status').filter({ hasText: said(words) })).toBeVisible();
}

/** Goes to one of the places named in the rail. */
export async function goTo(page: Page, place: 'Shelves' | 'Cellar Book' | 'Cultures'): Promise<void> {
  await page
    .getByRole('navigation', { name: 'Places' })
    .getByRole('link', { name: new RegExp(`^${place}`) })
    .click();
}

/** Types into fields by their labels. */
export async function fill(within: Locator, texts: Readonly<Record<string, string>>): Promise<void> {
  for (const [label, text] of Object.entries(texts)) await field(within, label).fill(text);
}

/** Types part of a name, a spot or a number into a vessel field and takes the line that says so. */
export async function chooseVessel(within: Locator, label: string, text: string | RegExp): Promise<void> {
  const box = choice(within, label);
  await box.click();
  if (typeof text === 'string') await box.fill(text);
  await within.getByRole('option', { name: text }).filter({ visible: true }).first().click();
}

/** Takes the first line of a drop-down that reads so. */
export async function choose(within: Locator, label: string, says: RegExp): Promise<void> {
  const line = choice(within, label).getByRole('option', { name: says }).first();
  await choice(within, label).selectOption(await line.innerText());
}

/** Presses the act of a form and waits until the form is gone, which means that it is written. */
export async function carryOut(form: Locator, act: string | RegExp): Promise<void> {
  await press(form.getByRole('contentinfo'), act);
  await expect(form).toBeHidden();
}

/** Closes a form without carrying it out; what is typed in it is kept as a draft. */
export async function closeForm(form: Locator): Promise<void> {
  await press(form.getByRole('contentinfo'), 'Close');
  await expect(form).toBeHidden();
}

/** Fills in the first page and begins a cellar with its shelves. */
export async function beginCellar(
  page: Page,
  given: { readonly name?: string; readonly shelves?: number; readonly positions?: number } = {},
): Promise<void> {
  await expect(page.getByRole('heading', { name: 'Start a cellar' })).toBeVisible();
  if (given.name !== undefined) await field(page, 'What it is called').fill(given.name);
  await field(page, 'Shelves').fill(String(given.shelves ?? 3));
  await field(page, 'Places on each').fill(String(given.positions ?? 8));
  await press(page, 'Start the cellar');
  await expect(page.getByRole('grid', { name: 'Shelves, grouped by place' })).toBeVisible();
}

/** A vessel as a keeper describes it to the form; what is left out stays as the form suggests it. */
export interface VesselWords {
  readonly shape?: string;
  readonly holds?: string;
  readonly closedBy?: string;
  readonly name?: string;
}

/** Puts a vessel on the free place with this code, such as `A1`. */
export async function putVessel(page: Page, spot: string, given: VesselWords): Promise<void> {
  await onShelf(page, new RegExp(`^${spot}, free`)).click();
  const form = sheet(page, 'Add a vessel');
  if (given.shape !== undefined) await form.getByRole('radio', { name: given.shape }).check();
  if (given.holds !== undefined) await field(form, 'Holds, brim full').fill(given.holds);
  if (given.closedBy !== undefined) await segment(form, 'Closed by', given.closedBy).check();
  if (given.name !== undefined) await field(form, 'Name of its own').fill(given.name);
  await carryOut(form, 'Add it');
}

/** Presses a vessel on the shelf, so that the side panel tells of it. */
export async function chooseOnShelf(page: Page, which: RegExp | Locator): Promise<Locator> {
  await (which instanceof RegExp ? onShelf(page, which) : which).click();
  return sidePanel(page);
}

/** Opens the form for something new from the Add button of the shelves. */
export async function addFromMenu(page: Page, what: string): Promise<void> {
  await press(page, 'Add');
  await page.getByRole('menuitem', { name: what, exact: true }).click();
}

/** How many lines the book has, as the host counts them and House Rules then says. */
export async function linesInTheBook(page: Page): Promise<number> {
  const counted = page.waitForResponse((answer) => new URL(answer.url()).pathname === '/rpc/cellar/about');
  await page.keyboard.press('Control+,');
  const about = (await (await counted).json()) as { readonly json: { readonly entryCount: number } };
  const { entryCount } = about.json;
  const words = `${new Intl.NumberFormat('en').format(entryCount)} ${entryCount === 1 ? 'line' : 'lines'}`;
  const rules = sheet(page, 'House Rules');
  await expect(
    rules
      .getByRole('region', { name: 'About' })
      .getByRole('definition')
      .filter({ hasText: /lines?$/ }),
  ).toHaveText(words);
  await page.keyboard.press('Escape');
  await expect(rules).toBeHidden();
  return entryCount;
}

/** Matches a sentence wherever it stands: `…` is anything between, and a space may be one that does not break. */
export function said(words: string): RegExp {
  return new RegExp(literally(words).replaceAll('…', '.*').replaceAll(' ', '\\s'));
}

function beginsWith(label: string): RegExp {
  return new RegExp(`^${literally(label)}`);
}

function literally(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
}

/**
 * Waits until focus rests on something that is in sight, not covered, and marked so that it can be seen: by an outline
 * on it, on what it holds or on the label around it.
 */
export async function seeFocus(page: Page): Promise<void> {
  await expect(async () => {
    expect(await page.evaluate(hiddenFocus)).toBe('');
  }).toPass({ timeout: 5_000, intervals: [50, 100, 200] });
}

/** Why the focus cannot be seen; '' when it can. Runs in the page. */
function hiddenFocus(): string {
  const held = document.activeElement;
  if (held === null || held === document.body) return 'nothing has focus';
  const name = `${held.tagName.toLowerCase()} “${(held.getAttribute('aria-label') ?? held.textContent).trim().slice(0, 60)}”`;
  const isMarked = (element: Element | null): boolean => {
    if (element === null) return false;
    const { outlineStyle, outlineWidth, boxShadow } = getComputedStyle(element);
    return (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2) || boxShadow !== 'none';
  };
  const marked = [held, ...held.querySelectorAll('*'), held.closest('label'), held.parentElement].some(
    isMarked,
  );
  if (!marked) return `${name} has focus without a mark`;
  const box = (held.closest('label') ?? held).getBoundingClientRect();
  const left = Math.max(0, box.left);
  const top = Math.max(0, box.top);
  const right = Math.min(innerWidth, box.right);
  const bottom = Math.min(innerHeight, box.bottom);
  if (right <= left || bottom <= top) return `${name} has focus out of sight`;
  const middle = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
  const over = held.closest('label') ?? held;
  const isOpen = middle !== null && (over.contains(middle) || middle.contains(over));
  return isOpen ? '' : `${name} has focus but is covered`;
}

/** Another cellar file takes its moment to open; what is pressed next is pressed in it. */
export async function fileChanged(page: Page): Promise<void> {
  await expect(page.getByRole('button', { name: /^(?:Opening|Going back|Starting)…$/ })).toHaveCount(0);
}
