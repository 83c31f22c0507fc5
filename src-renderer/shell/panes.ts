/**
 * Moves focus to the next or previous pane: the elements marked `data-pane`, in the order they stand in the page. A
 * pane takes focus where it was last left, else at its first control, else on itself.
 */
export function cyclePane(step: 1 | -1): void {
  const panes = [...document.querySelectorAll<HTMLElement>('[data-pane]')].filter(isStop);
  if (panes.length === 0) return;
  const at = panes.indexOf(paneOf(document.activeElement) ?? document.body);
  const next = panes[(at + step + panes.length) % panes.length] ?? panes[0];
  if (next) focusPane(next);
}

/** Remembers which element of a pane had focus. Called from one listener of the whole page. */
export function noteFocus(target: EventTarget | null): void {
  if (!(target instanceof HTMLElement)) return;
  const pane = paneOf(target);
  if (pane) lastInPane.set(pane, target);
}

const lastInPane = new WeakMap<HTMLElement, HTMLElement>();

const CONTROLS =
  'a[href], button:not(:disabled), input:not(:disabled), select:not(:disabled), textarea:not(:disabled), [tabindex="0"]';
/** The one tab stop of a grid, a list or a row of tabs: where its own focus stands. */
const ROVING = ':is([role=gridcell], [role=row], [role=option], [role=tab], [role=treeitem])[tabindex="0"]';

function paneOf(element: Element | null): HTMLElement | null {
  return element?.closest<HTMLElement>('[data-pane]') ?? null;
}

/** A pane in sight; one that only holds other panes is passed over. */
function isStop(pane: HTMLElement): boolean {
  if (pane.getClientRects().length === 0) return false;
  return controlsOf(pane).length > 0 || pane.querySelector('[data-pane]') === null;
}

/** The controls of the pane itself that Tab would reach, without those of panes inside it. */
function controlsOf(pane: HTMLElement): readonly HTMLElement[] {
  return [...pane.querySelectorAll<HTMLElement>(CONTROLS)].filter(
    (control) => paneOf(control) === pane && control.tabIndex >= 0 && control.getClientRects().length > 0,
  );
}

function focusPane(pane: HTMLElement): void {
  const last = lastInPane.get(pane);
  const own = controlsOf(pane);
  const first = own.find((control) => control.matches(ROVING)) ?? own[0];
  if (last?.isConnected && last !== pane && paneOf(last) === pane) last.focus();
  else if (first) first.focus();
  else {
    pane.tabIndex = -1;
    pane.focus();
  }
}
