import type { Labelled } from '#core/contract/labels.ts';
import { nav } from '../navigation/navigation.svelte.ts';

/** What another place hands to the Label Desk to be labelled, until the desk has taken it. */
class ToLabel {
  #wish = $state.raw<readonly Labelled[] | null>(null);

  /** Goes to the Label Desk with these chosen. */
  label(jars: readonly Labelled[]): void {
    this.#wish = jars;
    nav.go({ place: 'labels' });
  }

  /** What was handed over, once; null when nothing was. */
  take(): readonly Labelled[] | null {
    const wish = this.#wish;
    if (wish !== null) this.#wish = null;
    return wish;
  }
}

export const toLabel = new ToLabel();
