import { isDefinedError } from '@orpc/client';
import { faults } from '../cellar/faults.svelte.ts';

/** What a form is about, read once when it opens. */
export class Subject<T> {
  value = $state.raw<T | null>(null);
  /** True when the cellar has no such thing any more. */
  gone = $state(false);
  /** Settles once it has been read, or could not be. Never fails. */
  readonly settled: Promise<void>;

  constructor(read: () => Promise<T>, ontaken?: (value: T) => void) {
    this.settled = read().then(
      (value) => {
        this.value = value;
        ontaken?.(value);
      },
      (error: unknown) => {
        if (isDefinedError(error)) this.gone = true;
        else faults.report(error);
      },
    );
  }
}
