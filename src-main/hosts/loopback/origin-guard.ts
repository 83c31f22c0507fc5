/** The parts of a request that say where it comes from. */
export interface RequestOrigin {
  readonly method: string;
  readonly path: string;
  readonly host: string | undefined;
  readonly origin: string | undefined;
  readonly fetchSite: string | undefined;
}

export interface Refusal {
  readonly status: 403 | 405 | 421;
  readonly sentence: string;
}

/**
 * Whether a request comes from this program's own page, before any cookie is looked at. The Host must be this very
 * address, which stops a foreign name pointed at 127.0.0.1; a call must be a POST from our own origin, which stops
 * other pages, also those served from another port of this computer.
 *
 * @param address the host's own `127.0.0.1:PORT`
 * @returns the refusal, or undefined when the request may go on
 */
export function refusalFor(request: RequestOrigin, address: string): Refusal | undefined {
  if (request.host !== address) return { status: 421, sentence: 'This address is not served here.' };
  if (!['same-origin', 'none', undefined].includes(request.fetchSite)) {
    return { status: 403, sentence: 'Undercroft answers its own page only.' };
  }
  if (isCall(request.path)) {
    if (request.method !== 'POST') return { status: 405, sentence: 'A call to the cellar is a POST.' };
    if (request.origin !== `http://${address}`) {
      return { status: 403, sentence: 'Undercroft answers its own page only.' };
    }
    return undefined;
  }
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    return { status: 405, sentence: 'The page can only be read.' };
  }
  return undefined;
}

/** Whether a path is a call to the cellar, not a file of the page. */
export function isCall(path: string): boolean {
  return path === '/rpc' || path.startsWith('/rpc/');
}
