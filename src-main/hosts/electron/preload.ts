import { contextBridge, ipcRenderer } from 'electron';
import { menuChannel, pipeChannel } from './channels.ts';

/**
 * The page's whole bridge to the desktop: one function that opens a pipe. One end goes to the main process, the other
 * comes to the page as a message from its own window.
 */
function openPipe(): void {
  const { port1, port2 } = new MessageChannel();
  ipcRenderer.postMessage(pipeChannel, null, [port2]);
  window.postMessage(pipeChannel, '/', [port1]);
}

contextBridge.exposeInMainWorld('undercroftPipe', openPipe);

ipcRenderer.on(menuChannel, (_event, request: unknown) => {
  window.postMessage({ [menuChannel]: request }, '/');
});
