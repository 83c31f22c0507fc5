/** What the desktop's menu may ask the page to do, with the words the menu uses and the key beside them. */
export const menuRequests = [
  { request: 'open-cellar', label: 'Open another cellar…', accelerator: 'CmdOrCtrl+O' },
  { request: 'save-copy', label: 'Save a copy…', accelerator: 'CmdOrCtrl+Shift+S' },
  { request: 'back-up-now', label: 'Back up now', accelerator: 'CmdOrCtrl+Shift+B' },
  { request: 'restore', label: 'Restore…', accelerator: 'CmdOrCtrl+Shift+O' },
  { request: 'shelves', label: 'Shelves', accelerator: 'CmdOrCtrl+1' },
  { request: 'cellar-book', label: 'Cellar Book', accelerator: 'CmdOrCtrl+2' },
  { request: 'cultures', label: 'Cultures', accelerator: 'CmdOrCtrl+3' },
  { request: 'bench', label: 'Bench', accelerator: 'CmdOrCtrl+4' },
  { request: 'calendar', label: 'Calendar', accelerator: 'CmdOrCtrl+5' },
  { request: 'label-desk', label: 'Label Desk', accelerator: 'CmdOrCtrl+6' },
  { request: 'strongbox', label: 'Strongbox', accelerator: 'CmdOrCtrl+7' },
  { request: 'find-or-chalk', label: 'Find or chalk', accelerator: 'CmdOrCtrl+K' },
  { request: 'house-rules', label: 'House Rules', accelerator: 'CmdOrCtrl+,' },
] as const;

export type MenuRequest = (typeof menuRequests)[number]['request'];

/** Whether a message that reached the page names something the menu may ask for. */
export function isMenuRequest(value: unknown): value is MenuRequest {
  return menuRequests.some(({ request }) => request === value);
}
