/**
 * Moves focus to the next or previous pane: the elements marked `data-pane`, in the order they stand in the page. A
 * pane takes focus where it was last left, else at its first control, else on itself.
 */
export function cyclePane(step: 1 | -1): void {
  const panes = [...document.querySelectorAll<HTMLElement>('[data-pane]')].filter(
    (pane) => pane.getClientRects().length > 0,
  );
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

function paneOf(element: Element | null): HTMLElement | null {
  return element?.closest<HTMLElement>('[data-pane]') ?? null;
}

function focusPane(pane: HTMLElement): void {
  const last = lastInPane.get(pane);
  const own = [...pane.querySelectorAll<HTMLElement>(CONTROLS)].filter(
    (control) => paneOf(control) === pane && control.tabIndex >= 0 && control.getClientRects().length > 0,
  );
  const first = own.find((control) => control.getAttribute('tabindex') === '0') ?? own[0];
  if (last?.isConnected && paneOf(last) === pane) last.focus();
  else if (first) first.focus();
  else {
    pane.tabIndex = -1;
    pane.focus();
  }
}
