import { cellar } from '../cellar/cellar-state.svelte.ts';
import { faults } from '../cellar/faults.svelte.ts';
import type { PaperDestination } from '../navigation/destination.ts';
import { readPaper, type PaperData } from './paper-data.ts';

/** The paper in sight, read anew when the book, the day or the wish changes. */
export class PaperState {
  data = $state.raw<PaperData | null>(null);
  status = $state<'loading' | 'ready' | 'gone' | 'fault'>('loading');
  #asking = 0;

  async load(to: PaperDestination): Promise<void> {
    const asking = (this.#asking += 1);
    const stopped = (): boolean => asking !== this.#asking;
    if (this.data?.paper !== to.paper) {
      this.data = null;
      this.status = 'loading';
    }
    try {
      const data = await readPaper(to, cellar.today(), stopped);
      if (stopped()) return;
      this.data = data;
      this.status = data === null ? 'gone' : 'ready';
    } catch (error) {
      if (stopped()) return;
      this.status = this.data === null ? 'fault' : 'ready';
      faults.report(error);
    }
  }

  leave(): void {
    this.#asking += 1;
  }
}
