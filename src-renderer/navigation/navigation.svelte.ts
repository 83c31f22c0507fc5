import { tick } from 'svelte';
import { destinationOf, hashOf, type Destination } from './destination.ts';

/** What is remembered of a visit, beside its address, so that going back finds the same spot. */
interface Visit {
  readonly undercroft: true;
  /** How many steps of ours lie behind it. */
  readonly depth: number;
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
  /** Grows each time somebody asks to be brought somewhere, also to where one is already. */
  asked = $state(0);
  #depth = 0;
  #restore: Visit | null = null;

  /** Begins with what the address says and follows it. Called once. */
  start(): void {
    this.current = destinationOf(location.hash);
    history.scrollRestoration = 'manual';
    const kept: unknown = history.state;
    this.#stand(isVisit(kept) ? kept.depth : 0);
    this.#restore = isVisit(kept) ? kept : null;
    history.replaceState(kept ?? this.#visitNow(), '', hashOf(this.current));
    if (this.#restore !== null) void this.#settle();
    window.addEventListener('popstate', (event) => {
      this.#stand(isVisit(event.state) ? event.state.depth : 0);
      this.#restore = isVisit(event.state) ? event.state : null;
      this.current = destinationOf(location.hash);
      void this.#settle();
    });
  }

  go(destination: Destination): void {
    this.asked += 1;
    const hash = hashOf(destination);
    if (hash === location.hash) {
      this.current = destination;
      return;
    }
    history.replaceState(this.#visitNow(), '');
    this.#stand(this.#depth + 1);
    history.pushState({ ...this.#visitNow(), scrollTop: 0, focus: null } satisfies Visit, '', hash);
    const isSameScreen = destination.place === this.current.place && destination.place !== 'leaf';
    this.current = destination;
    if (!isSameScreen) void this.#arrive();
  }

  /** Writes what is shown into the address without a step in the history, as for a selection. */
  replace(destination: Destination): void {
    history.replaceState(this.#visitNow(), '', hashOf(destination));
    this.current = destination;
  }

  back(): void {
    if (this.#depth > 0) history.back();
    else this.go({ place: 'shelves' });
  }

  #stand(depth: number): void {
    this.#depth = depth;
    this.canGoBack = depth > 0;
  }

  #visitNow(): Visit {
    const held = document.activeElement;
    return {
      undercroft: true,
      depth: this.#depth,
      scrollTop: scroller(document)?.scrollTop ?? 0,
      focus: held instanceof HTMLElement && held.id !== '' ? held.id : null,
    };
  }

  /** A place new in the window begins at its top, with focus on the main part unless it takes focus itself. */
  async #arrive(): Promise<void> {
    const before = document.activeElement;
    await tick();
    scroller(document)?.scrollTo({ top: 0 });
    const held = document.activeElement;
    if (held === before || held === document.body) {
      document.getElementById('main')?.focus({ preventScroll: true });
    }
  }

  /** Puts scroll and focus back once what was there is drawn again; a list that is still loading gets a second. */
  async #settle(): Promise<void> {
    // The page as it is now: it may be shut while a list is still loading.
    const page = document;
    const visit = this.#restore;
    this.#restore = null;
    await tick();
    if (visit === null) return;
    for (let look = 0; look < 20; look += 1) {
      const scrolled = scroller(page);
      if (scrolled) scrolled.scrollTop = visit.scrollTop;
      const held = visit.focus === null ? null : page.getElementById(visit.focus);
      if (held) {
        held.focus({ preventScroll: true });
        return;
      }
      if (visit.focus === null && scrolled?.scrollTop === visit.scrollTop) break;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    if (page.activeElement === page.body) page.getElementById('main')?.focus({ preventScroll: true });
  }
}

/** What scrolls in the place in sight: what it marks with `data-scroll`, else the main part. */
function scroller(page: Document): Element | null {
  return page.querySelector('#main [data-scroll]') ?? page.getElementById('main');
}

function isVisit(state: unknown): state is Visit {
  return typeof state === 'object' && state !== null && Reflect.get(state, 'undercroft') === true;
}

export const nav = new Navigation();
export type { Destination };
