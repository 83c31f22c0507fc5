import type { MenuRequest } from '#core/contract/menu-request.ts';
import type { ClientContext, ClientLink } from '@orpc/client';

/** What the page needs of the host it runs in; there is one for the desktop and one for the browser window. */
export interface Backend {
  /** Carries calls to the cellar and their answers back. */
  readonly link: ClientLink<ClientContext>;
  /**
   * Tells what is chosen in the host's own menu.
   *
   * @returns a function that ends the listening
   */
  onMenuRequest(heed: (request: MenuRequest) => void): () => void;
}

/** The program behind the window has ended or no longer knows this window; nothing can be read or kept. */
export class LostHostError extends Error {
  override readonly name = 'LostHostError';
}
