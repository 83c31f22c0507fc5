import type { BaseWindow, MenuItemConstructorOptions } from 'electron';
import { menuRequests, type MenuRequest } from '#core/contract/menu-request.ts';

export interface MenuParts {
  readonly isMac: boolean;
  /** Asks the page in a window to do something; the window is undefined when none has focus. */
  readonly ask: (window: BaseWindow | undefined, request: MenuRequest) => void;
  /** Shows the engine's own tools; only while developing. */
  readonly withTools: boolean;
}

/**
 * The native menu: the system's own items, the places, and what the page offers from everywhere. An item stands here
 * only when it does something.
 */
export function menuTemplate({ isMac, ask, withTools }: MenuParts): MenuItemConstructorOptions[] {
  const item = (wanted: MenuRequest): MenuItemConstructorOptions => {
    const found = menuRequests.find(({ request }) => request === wanted);
    if (found === undefined) throw new Error(`The menu has no words for ${wanted}.`);
    return {
      label: found.label,
      accelerator: found.accelerator,
      click: (_item, window) => {
        ask(window, wanted);
      },
    };
  };
  const line: MenuItemConstructorOptions = { type: 'separator' };
  const houseRules = item('house-rules');

  const application: MenuItemConstructorOptions = {
    role: 'appMenu',
    submenu: [
      { role: 'about' },
      line,
      houseRules,
      line,
      { role: 'services' },
      line,
      { role: 'hide' },
      { role: 'hideOthers' },
      { role: 'unhide' },
      line,
      { role: 'quit' },
    ],
  };
  return [
    ...(isMac ? [application] : []),
    {
      label: 'File',
      submenu: [
        item('open-cellar'),
        item('save-copy'),
        line,
        item('back-up-now'),
        item('restore'),
        line,
        { role: 'close' },
        ...(isMac ? [] : [{ role: 'quit' } as const]),
      ],
    },
    {
      label: 'Edit',
      submenu: [
        { role: 'undo' },
        { role: 'redo' },
        line,
        { role: 'cut' },
        { role: 'copy' },
        { role: 'paste' },
        { role: 'selectAll' },
        line,
        item('find-or-chalk'),
        ...(isMac ? [] : [houseRules]),
      ],
    },
    {
      label: 'View',
      submenu: [
        item('shelves'),
        item('cellar-book'),
        item('cultures'),
        item('bench'),
        item('calendar'),
        item('label-desk'),
        item('strongbox'),
        line,
        { role: 'zoomIn', label: 'Larger' },
        { role: 'zoomOut', label: 'Smaller' },
        { role: 'resetZoom', label: 'Usual size' },
        line,
        { role: 'togglefullscreen' },
        ...(withTools ? [line, { role: 'toggleDevTools' } as const] : []),
      ],
    },
    { role: 'windowMenu' },
    ...(isMac ? [] : [{ label: 'Help', submenu: [{ role: 'about' } as const] }]),
  ];
}
