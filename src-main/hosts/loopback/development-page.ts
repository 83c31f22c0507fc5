import type { PageFile } from '../page-files.ts';

/**
 * Hands on the page from a development server, so that an edit shows at once. Only `npm run dev` sets its address; the
 * program as people run it never does.
 *
 * @param server address of the development server
 */
export function developmentPage(server: string): (path: string) => Promise<PageFile | undefined> {
  return async (path) => {
    const answer = await fetch(new URL(path, server));
    if (!answer.ok) return undefined;
    return {
      contentType: answer.headers.get('content-type') ?? 'application/octet-stream',
      bytes: new Uint8Array(await answer.arrayBuffer()),
    };
  };
}
