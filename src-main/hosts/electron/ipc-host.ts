import { RPCHandler } from '@orpc/server/message-port';
import type { IpcMain, IpcMainEvent } from 'electron';
import type { Log } from '../../platform/log.ts';
import { faultInterceptor, type CellarRouter } from '../call-faults.ts';
import { pipeChannel } from './channels.ts';
import { mayNavigate, type PageAddress } from './navigation-guard.ts';
import { onlyCalls } from './only-calls.ts';

/** What is known of who asks for a pipe. */
export interface PipeSender {
  /** Whether one of our windows sent it. */
  readonly isOurWindow: boolean;
  /** The frame's address; undefined when the frame is gone. */
  readonly frameUrl: string | undefined;
  readonly isMainFrame: boolean;
  readonly portCount: number;
}

/**
 * Why a pipe to the cellar is refused.
 *
 * @returns a sentence for the log, or undefined for the main frame of one of our windows showing our page
 */
export function pipeRefusal(sender: PipeSender, page: PageAddress): string | undefined {
  if (!sender.isOurWindow) return 'A pipe was asked for by something that is no cellar window.';
  if (sender.frameUrl === undefined) return 'A pipe was asked for by a frame that is gone.';
  if (!sender.isMainFrame) return 'A pipe was asked for by a frame inside the page.';
  if (!mayNavigate(sender.frameUrl, page)) return `A pipe was asked for by ${sender.frameUrl}.`;
  if (sender.portCount !== 1) return `A pipe has one end to hand over, not ${String(sender.portCount)}.`;
  return undefined;
}

export interface IpcHostParts {
  readonly ipcMain: IpcMain;
  readonly page: PageAddress;
  /** The calls of the cellar shown in a window; undefined for contents that are not ours. */
  readonly routerOf: (contentsId: number) => CellarRouter | undefined;
  readonly log: Log;
}

/** Answers the pages' pipes, each with the calls of its own window's cellar. */
export function answerPipes({ ipcMain, page, routerOf, log }: IpcHostParts): void {
  ipcMain.on(pipeChannel, (event) => {
    const router = routerOf(event.sender.id);
    const refusal = pipeRefusal(senderOf(event, router !== undefined), page);
    const [port] = event.ports;
    if (refusal !== undefined || router === undefined || port === undefined) {
      for (const refused of event.ports) refused.close();
      log.fault('A pipe to the cellar was refused.', refusal);
      return;
    }
    new RPCHandler(router, { clientInterceptors: [faultInterceptor(log)] }).upgrade(onlyCalls(port, log), {
      context: {},
    });
    port.start();
  });
}

function senderOf(event: IpcMainEvent, isOurWindow: boolean): PipeSender {
  const frame = event.senderFrame;
  return {
    isOurWindow,
    frameUrl: frame?.url,
    isMainFrame: frame !== null && frame.parent === null,
    portCount: event.ports.length,
  };
}
