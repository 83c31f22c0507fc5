import type { Session, WebContents } from 'electron';
import type { Log } from '../../platform/log.ts';
import { pageHeaders } from '../page-security.ts';

/** Where the page lives: our own scheme, or a development server. */
export interface PageAddress {
  readonly url: string;
  readonly strict: boolean;
}

/**
 * Whether the window may go to an address: only to its own page, so that a link, a dropped file or a script can never
 * bring a foreign page into the window that reaches the cellar.
 */
export function mayNavigate(address: string, page: PageAddress): boolean {
  const target = parse(address);
  const home = parse(page.url);
  if (target === undefined || home === undefined) return false;
  return sameOrigin(target, home) && target.pathname === home.pathname;
}

/**
 * Whether the page may load something: what our own scheme serves and what it made itself. A development page may also
 * talk to its own server.
 */
export function mayLoad(address: string, page: PageAddress): boolean {
  const target = parse(address);
  const home = parse(page.url);
  if (target === undefined || home === undefined) return false;
  if (target.protocol === 'data:' || target.protocol === 'blob:') return true;
  if (sameOrigin(target, home)) return true;
  if (page.strict) return false;
  return target.protocol === 'devtools:' || (target.protocol === 'ws:' && target.host === home.host);
}

/** The one thing a page may ask of the system: that the screen stays on while hands are sticky. */
export function isGranted(permission: string): boolean {
  return permission === 'screen-wake-lock';
}

/** Puts the guards on everything a session loads and may be asked for. */
export function guardSession(session: Session, page: PageAddress): void {
  session.setPermissionRequestHandler((_contents, permission, answer) => {
    answer(isGranted(permission));
  });
  session.setPermissionCheckHandler((_contents, permission) => isGranted(permission));
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest((details, answer) => {
    answer({ cancel: !mayLoad(details.url, page) });
  });
  if (!page.strict) return;
  session.webRequest.onHeadersReceived((details, answer) => {
    answer({ responseHeaders: { ...details.responseHeaders, ...pageHeaders } });
  });
}

/** Puts the guards on where one window may go and what it may open. */
export function guardContents(contents: WebContents, page: PageAddress, log: Log): void {
  const refuse = (event: { preventDefault(): void }, address: string) => {
    if (mayNavigate(address, page)) return;
    event.preventDefault();
    log.refuse(`The window was asked to go to ${address} and stayed.`);
  };
  contents.on('will-navigate', (event) => {
    refuse(event, event.url);
  });
  contents.on('will-frame-navigate', (event) => {
    refuse(event, event.url);
  });
  contents.on('will-redirect', (event) => {
    refuse(event, event.url);
  });
  contents.on('will-attach-webview', (event) => {
    event.preventDefault();
  });
  contents.setWindowOpenHandler(({ url }) => {
    log.refuse(`The window was asked to open ${url} and did not.`);
    return { action: 'deny' };
  });
}

/** The origin of an unusual scheme is "null" in Node's URL, so scheme and host are compared instead. */
function sameOrigin(one: URL, other: URL): boolean {
  return one.protocol === other.protocol && one.host === other.host && one.username === other.username;
}

function parse(address: string): URL | undefined {
  return URL.parse(address) ?? undefined;
}
