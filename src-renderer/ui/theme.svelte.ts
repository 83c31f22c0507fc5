export type ThemeChoice = 'system' | 'light' | 'dark';

const KEPT = 'undercroft.theme';

/**
 * Which theme the page is drawn in. The resolved one stands on the root as `data-theme`; `revision` grows with each
 * change of theme, contrast or forced colours, for drawings that must read their colours again.
 */
class Theme {
  choice = $state<ThemeChoice>('system');
  resolved = $state<'light' | 'dark'>('light');
  forcedColors = $state(false);
  revision = $state(0);

  /** Starts following the system. Called once, before the first drawing. */
  start(): void {
    const kept = readKept();
    if (kept !== null) this.choice = kept;
    for (const query of [
      '(prefers-color-scheme: dark)',
      '(forced-colors: active)',
      '(prefers-contrast: more)',
    ]) {
      window.matchMedia(query).addEventListener('change', () => {
        this.#resolve();
      });
    }
    this.#resolve();
  }

  choose(choice: ThemeChoice): void {
    this.choice = choice;
    try {
      localStorage.setItem(KEPT, choice);
    } catch {
      // A page without storage only loses the head start at the next opening; the cellar keeps the choice itself.
    }
    this.#resolve();
  }

  #resolve(): void {
    const dark =
      this.choice === 'dark' || (this.choice === 'system' && matches('(prefers-color-scheme: dark)'));
    this.resolved = dark ? 'dark' : 'light';
    this.forcedColors = matches('(forced-colors: active)');
    document.documentElement.dataset['theme'] = this.resolved;
    this.revision += 1;
  }
}

function matches(query: string): boolean {
  return window.matchMedia(query).matches;
}

function readKept(): ThemeChoice | null {
  try {
    const kept = localStorage.getItem(KEPT);
    return kept === 'system' || kept === 'light' || kept === 'dark' ? kept : null;
  } catch {
    return null;
  }
}

export const theme = new Theme();
