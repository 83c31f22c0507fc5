import type { ActRequest } from './act-request.ts';
import type { Correcting } from './correcting.ts';

/** Which act is being filled in. Any screen asks for one; the dialogs stand once, beside the screens. */
class Acts {
  request = $state.raw<ActRequest | null>(null);
  /** The line of the book that the form tells anew, where it is opened for that. */
  correcting = $state.raw<Correcting | null>(null);
  /** Grows with every request, so that asking for the same act again begins a new form. */
  serial = $state(0);

  /** Opens the form of an act. A form that was open keeps what was typed as a draft. */
  open(request: ActRequest, correcting: Correcting | null = null): void {
    this.request = request;
    this.correcting = correcting;
    this.serial += 1;
  }

  /** Shuts whichever form is open. */
  close(): void {
    this.request = null;
    this.correcting = null;
  }
}

export const acts = new Acts();
export type { ActRequest } from './act-request.ts';
