import type { WebPreferences } from 'electron';

/**
 * What the page may never have: no Node, no second world to reach into, no frames that are less guarded than it is.
 *
 * @param preload full path of the built preload
 */
export function safePreferences(preload: string): WebPreferences {
  return {
    preload,
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webviewTag: false,
    webSecurity: true,
    allowRunningInsecureContent: false,
    navigateOnDragDrop: false,
    spellcheck: false,
  };
}
