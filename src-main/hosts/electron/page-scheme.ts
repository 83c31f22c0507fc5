import type { CustomScheme, Protocol } from 'electron';
import type { PageFiles } from '../page-files.ts';
import { pageHeaders } from '../page-security.ts';

const scheme = 'undercroft';
const host = 'cellar';

/** The page's address in the desktop window. */
export const pageUrl = `${scheme}://${host}/`;

/** Must be registered before Electron is ready: gives the scheme an origin, so that the content policy holds. */
export const pageScheme: CustomScheme = {
  scheme,
  privileges: { standard: true, secure: true, supportFetchAPI: true },
};

/** Answers requests for the page from its built files; anything else does not exist. */
export function answerPage(files: PageFiles): (request: Request) => Response {
  return (request) => {
    const { host: asked, pathname } = new URL(request.url);
    const file = asked === host && request.method === 'GET' ? files(pathname) : undefined;
    if (file === undefined) {
      return new Response('There is no such page.', { status: 404, headers: pageHeaders });
    }
    return new Response(file.bytes, { headers: { ...pageHeaders, 'Content-Type': file.contentType } });
  };
}

export function servePage(protocol: Protocol, files: PageFiles): void {
  protocol.handle(scheme, answerPage(files));
}
