import { tick } from 'svelte';
import { destinationOf, hashOf, type Destination } from './destination.ts';

/** What is remembered of a visit, beside its address, so that going back finds the same spot. */
interface Visit {
  readonly undercroft: true;
  readonly scrollTop: number;
  readonly focus: string | null;
}

/**
 * Where in the program the window is. The address carries it, so that a reload and the browser's own Back find it
 * again; scroll and focus of a visit are kept in the history beside it.
 */
class Navigation {
  current = $state.raw<Destination>({ place: 'shelves' });
  /** True while there is somewhere of ours to go back to. */
  canGoBack = $state(false);
  #depth = 0;
  #restore: Visit | null = null;

  /** Begins with what the address says and follows it. Called once. */
  start(): void {
    this.current = destinationOf(location.hash);
    history.scrollRestoration = 'manual';
    history.replaceState(visitNow(), '', hashOf(this.current));
    window.addEventListener('popstate', (event) => {
      this.#depth = Math.max(0, this.#depth - 1);
      this.canGoBack = this.#depth > 0;
      this.#restore = isVisit(event.state) ? event.state : null;
      this.current = destinationOf(location.hash);
      void this.#settle();
    });
  }

  go(destination: Destination): void {
    const hash = hashOf(destination);
    if (hash === location.hash) {
      this.current = destination;
      return;
    }
    history.replaceState(visitNow(), '');
    history.pushState(null, '', hash);
    this.#depth += 1;
    this.canGoBack = true;
    const samePlace = destination.place === this.current.place;
    this.current = destination;
    if (!samePlace) void this.#arrive();
  }

  /** Writes what is shown into the address without a step in the history, as for a selection. */
  replace(destination: Destination): void {
    history.replaceState(visitNow(), '', hashOf(destination));
    this.current = destination;
  }

  back(): void {
    if (this.#depth > 0) history.back();
    else this.go({ place: 'shelves' });
  }

  /** A place new in the window begins at its top, with focus on the main part unless it takes focus itself. */
  async #arrive(): Promise<void> {
    const before = document.activeElement;
    await tick();
    scroller()?.scrollTo({ top: 0 });
    const held = document.activeElement;
    if (held === before || held === document.body) {
      document.getElementById('main')?.focus({ preventScroll: true });
    }
  }

  /** Puts scroll and focus back once what was there is drawn again; a list that is still loading gets a second. */
  async #settle(): Promise<void> {
    const visit = this.#restore;
    this.#restore = null;
    await tick();
    if (visit === null) return;
    for (let look = 0; look < 20; look += 1) {
      const scrolled = scroller();
      if (scrolled) scrolled.scrollTop = visit.scrollTop;
      const held = visit.focus === null ? null : document.getElementById(visit.focus);
      if (held) {
        held.focus({ preventScroll: true });
        return;
      }
      if (visit.focus === null && (!scrolled || scrolled.scrollTop === visit.scrollTop)) return;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
}

/** What scrolls in the place in sight: what it marks with `data-scroll`, else the main part. */
function scroller(): Element | null {
  return document.querySelector('#main [data-scroll]') ?? document.getElementById('main');
}

function visitNow(): Visit {
  const held = document.activeElement;
  return {
    undercroft: true,
    scrollTop: scroller()?.scrollTop ?? 0,
    focus: held instanceof HTMLElement && held.id !== '' ? held.id : null,
  };
}

function isVisit(state: unknown): state is Visit {
  return typeof state === 'object' && state !== null && Reflect.get(state, 'undercroft') === true;
}

export const nav = new Navigation();
export type { Destination };
