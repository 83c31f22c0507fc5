import { contract } from '#core/contract/index.ts';
import { isMenuRequest } from '#core/contract/menu-request.ts';
import { DynamicLink, type ClientContext } from '@orpc/client';
import { RPCLink } from '@orpc/client/message-port';
import { ResponseValidationPlugin } from '@orpc/contract/plugins';
import type { Backend } from './backend.ts';

/** The messages the desktop's preload posts into the page's own window. */
const pipeMessage = 'undercroft:pipe';
const menuMessage = 'undercroft:menu';

/**
 * Calls the main process of the desktop through a pipe.
 *
 * @param openPipe the preload's one function: answers with a message that carries the page's end of the pipe
 * @param page the page's own window
 */
export function ipcBackend(openPipe: () => void, page: Window): Backend {
  const link = pipeFrom(openPipe, page).then((port) => {
    const made = new RPCLink<ClientContext>({ port, plugins: [new ResponseValidationPlugin(contract)] });
    port.start();
    return made;
  });
  return {
    link: new DynamicLink(() => link),
    onMenuRequest(heed) {
      const listener = (event: MessageEvent<unknown>) => {
        if (event.source !== page || typeof event.data !== 'object' || event.data === null) return;
        const request: unknown = Reflect.get(event.data, menuMessage);
        if (isMenuRequest(request)) heed(request);
      };
      page.addEventListener('message', listener);
      return () => {
        page.removeEventListener('message', listener);
      };
    },
  };
}

function pipeFrom(openPipe: () => void, page: Window): Promise<MessagePort> {
  return new Promise((resolve) => {
    const listener = (event: MessageEvent<unknown>) => {
      const [port] = event.ports;
      if (event.source !== page || event.data !== pipeMessage || port === undefined) return;
      page.removeEventListener('message', listener);
      resolve(port);
    };
    page.addEventListener('message', listener);
    openPipe();
  });
}
