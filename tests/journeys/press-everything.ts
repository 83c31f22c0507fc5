import type { Locator, Page } from '@playwright/test';
import { expect, test } from './program.ts';

/** A part of the window in which everything is pressed. */
export interface Scene {
  readonly name: string;
  /** The part, when it is in sight. */
  readonly part: (page: Page) => Promise<Locator> | Locator;
  /** Brings it into sight as it was the first time. */
  readonly open: (page: Page) => Promise<Locator>;
  /** Puts back what a press did that outlasts it. */
  readonly after?: (page: Page) => Promise<void>;
  /** The one after which the scene cannot be opened again. */
  readonly last?: RegExp;
}

/** Presses that rightly change nothing, each with its reason. */
const NOTHING_TO_CHANGE: readonly {
  readonly scene: RegExp;
  readonly control: RegExp;
  readonly why: string;
}[] = [
  {
    scene: /.*/,
    control: /^link “(Shelves|Cellar Book|Cultures|Bench|Calendar|Label Desk|Strongbox) \d”$/,
    why: 'one is in that place already',
  },
  {
    scene: /.*/,
    control: /^link “(Labels|Shelf list|Due list|Culture cards)”$/,
    why: 'one is at that paper already',
  },
  {
    scene: /^the label desk$/,
    control: /^button “(Place 1:|Save test sheet|Previous label|Plum wine)/,
    why: 'it stands so already, is the last or the first, or what it hands to the window is a file',
  },
  {
    scene: /^the strongbox/,
    control: /^button “”$/,
    why: 'the system’s own chooser of files cannot be seen by a page',
  },
  {
    scene: /^a leaf$/,
    control: /^button “\d+: /,
    why: 'a pin of the chart is told as soon as focus is on it',
  },
];

const ROLES = ['button', 'link', 'radio', 'checkbox', 'menuitem'] as const;

interface Control {
  readonly role: (typeof ROLES)[number];
  readonly name: string;
  /** Which of those of its role. */
  readonly at: number;
}

/** Presses, from the same beginning each time, each thing of a scene that can be pressed; each has to change something. */
export async function pressEverything(page: Page, scene: Scene): Promise<void> {
  const controls = await controlsIn(await scene.open(page));
  expect(controls.length, `controls of ${scene.name}`).toBeGreaterThan(0);
  if (scene.last !== undefined) {
    const { last } = scene;
    controls.sort((a, b) => Number(last.test(a.name)) - Number(last.test(b.name)));
  }
  const idle: string[] = [];
  let fresh = true;
  for (const { role, at, name } of controls) {
    const said = `${role} “${name}”`;
    await test.step(`${scene.name}: ${said}`, async () => {
      const part = fresh ? await scene.part(page) : await scene.open(page);
      fresh = false;
      const control = part.getByRole(role).nth(at);
      await control.focus();
      await control.hover();
      const before = await looks(page);
      await control.click();
      const excused = NOTHING_TO_CHANGE.some((one) => one.scene.test(scene.name) && one.control.test(said));
      if (!excused && !(await changes(page, before))) idle.push(said);
      await scene.after?.(page);
    });
  }
  expect(idle, `pressed in ${scene.name} without any change`).toEqual([]);
}

/** What can be pressed in a part of the window; of the lines of a list or a table those of the first. */
async function controlsIn(part: Locator): Promise<Control[]> {
  const found: Control[] = [];
  for (const role of ROLES) {
    for (const { at, name } of await part.getByRole(role).evaluateAll(pressable))
      found.push({ role, name, at });
  }
  return found;
}

/** The elements that can be pressed, by where they stand among those given. Runs in the page. */
function pressable(elements: readonly Element[]): { at: number; name: string }[] {
  const seen = new Map<string, number>();
  return elements.flatMap((element, at) => {
    const isShown = element.getClientRects().length > 0 && getComputedStyle(element).visibility !== 'hidden';
    const isOff =
      element.matches(':disabled') || (element.matches('input[type=radio]') && element.matches(':checked'));
    if (!isShown || isOff) return [];
    const list = element.closest('table, ul, ol, [role="grid"]');
    if (list !== null) {
      const kind = `${[...document.querySelectorAll('*')].indexOf(list)} ${element.tagName} ${element.className}`;
      const before = seen.get(kind) ?? 0;
      seen.set(kind, before + 1);
      if (before >= 1) return [];
    }
    const words =
      element.getAttribute('aria-label') ?? element.closest('label')?.textContent ?? element.textContent;
    return [{ at, name: words.replaceAll(/\s+/g, ' ').trim().slice(0, 80) }];
  });
}

/** All that can be noticed of the window, summed up: what it says and shows, what is typed, where focus rests. */
function looks(page: Page): Promise<string> {
  return page.evaluate(() => {
    const held = document.activeElement;
    const typed = [...document.querySelectorAll<HTMLInputElement>('input, select, textarea')].map((input) =>
      input.type === 'radio' || input.type === 'checkbox' ? String(input.checked) : input.value,
    );
    const scrolled = [...document.querySelectorAll('main, [data-scroll], .scroller, .body')].map(
      (part) => part.scrollTop,
    );
    const opened = document.querySelectorAll(':popover-open, dialog[open], details[open]').length;
    const focus = held === null ? '' : `${held.tagName} ${held.id} ${held.textContent}`;
    const all = [location.hash, focus, typed, scrolled, opened, document.documentElement.outerHTML].join(
      '\n',
    );
    let sum = 0;
    for (let i = 0; i < all.length; i += 1) sum = (Math.imul(sum, 31) + all.charCodeAt(i)) | 0;
    return `${all.length} ${sum}`;
  });
}

async function changes(page: Page, before: string): Promise<boolean> {
  const until = Date.now() + 3_000;
  while (Date.now() < until) {
    if ((await looks(page)) !== before) return true;
    await page.waitForTimeout(25);
  }
  return false;
}
