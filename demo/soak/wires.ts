import type { IpcMain } from 'electron';
import { EventEmitter, once } from 'node:events';
import { MessageChannel, type MessagePort } from 'node:worker_threads';
import { pipeChannel } from '../../src-main/hosts/electron/channels.ts';
import { answerPipes } from '../../src-main/hosts/electron/ipc-host.ts';
import { openHttpHost } from '../../src-main/hosts/loopback/http-host.ts';
import type { CellarRouter } from '../../src-main/hosts/call-faults.ts';
import type { Log } from '../../src-main/platform/log.ts';

/** One of the two doors to the cellar, as somebody who is inside would use it: with any bytes at all. */
export interface Wire {
  /** Sends a call with this text, or form, for a body, and waits for the whole answer. */
  send(path: string, body: string | FormData): Promise<Answer>;
  /** Sends a body that was torn; null where one that cannot be read is never answered. */
  sendTorn(path: string, body: string): Promise<Answer | null>;
  /** Sends what is no call; whether anything comes back is not waited for. */
  sendGarbage(bytes: string | Uint8Array | object): Promise<void>;
  close(): Promise<void>;
}

export interface Answer {
  readonly status: number;
  readonly text: string;
}

/** The loopback host, entered with its cookie. */
export async function httpWire(router: CellarRouter, log: Log): Promise<Wire> {
  const host = await openHttpHost({ router, page: () => undefined, strict: true, log });
  const origin = `http://127.0.0.1:${host.port}`;
  const entered = await fetch(host.entrance(), { redirect: 'manual' });
  const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? '';
  const post = async (path: string, body: string | FormData | Uint8Array): Promise<Answer> => {
    const type: Record<string, string> =
      body instanceof FormData ? {} : { 'content-type': 'application/json' };
    const answer = await fetch(`${origin}/rpc/${path}`, {
      ...{ method: 'POST', body: body as string | FormData, headers: { cookie, origin, ...type } },
    });
    return { status: answer.status, text: await answer.text() };
  };
  return {
    send: post,
    sendTorn: post,
    async sendGarbage(bytes) {
      const body = typeof bytes === 'string' || bytes instanceof Uint8Array ? bytes : JSON.stringify(bytes);
      await post('ledger/post', body);
    },
    close: () => host.close(),
  };
}

const PAGE = { url: 'undercroft://cellar/', strict: true };

/** The desktop host's pipe, with Node's own message channel in place of Electron's. */
export function pipeWire(router: CellarRouter, log: Log): Wire {
  const ipcMain = new EventEmitter();
  answerPipes({ ipcMain: ipcMain as unknown as IpcMain, page: PAGE, routerOf: () => router, log });
  const { port1, port2 } = new MessageChannel();
  ipcMain.emit(pipeChannel, {
    ...{ sender: { id: 1 }, senderFrame: { url: PAGE.url, parent: null }, ports: [asMainPort(port2)] },
  });
  const waiting = new Map<string, (answer: Answer) => void>();
  let sent = 0;
  port1.on('message', (message: unknown) => {
    const { i, t, p } = readAnswer(message);
    const isStream = t === undefined && JSON.stringify(p?.h ?? {}).includes('event-stream');
    const goesOn = isStream || (t === 3 && p?.e === 'message');
    if (goesOn) return;
    const code = (p?.d as { json?: { status?: number } } | undefined)?.json?.status;
    waiting.get(i)?.({
      status: (t === 3 && p?.e === 'error' ? code : p?.s) ?? 200,
      text: JSON.stringify(p?.b ?? p?.d),
    });
    waiting.delete(i);
  });
  const send = async (path: string, body: string | FormData): Promise<Answer> => {
    sent += 1;
    const id = String(sent);
    const message = typeof body === 'string' ? callText(id, path, body) : await callBytes(id, path, body);
    const answered = new Promise<Answer>((resolve) => waiting.set(id, resolve));
    port1.postMessage(message);
    return answered;
  };
  return {
    send,
    sendTorn(path, body) {
      if (isJson(callText('0', path, body))) return send(path, body);
      port1.postMessage(callText('0', path, body));
      return Promise.resolve(null);
    },
    sendGarbage(bytes) {
      port1.postMessage(bytes);
      return Promise.resolve();
    },
    async close() {
      const closed = once(port1, 'close');
      port1.close();
      await closed;
    },
  };
}

function callText(id: string, path: string, body: string): string {
  return `{"i":"${id}","p":{"u":${JSON.stringify(`/${path}`)},"b":${body}}}`;
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

async function callBytes(id: string, path: string, form: FormData): Promise<Uint8Array> {
  const whole = new Response(form);
  const h = { 'content-type': whole.headers.get('content-type') ?? '' };
  const head = Buffer.from(JSON.stringify({ i: id, p: { u: `/${path}`, h } }));
  return Buffer.concat([head, Buffer.from([255]), Buffer.from(await whole.arrayBuffer())]);
}

interface PipeAnswer {
  readonly i: string;
  readonly t?: number;
  readonly p?: {
    readonly s?: number;
    readonly h?: unknown;
    readonly b?: unknown;
    readonly e?: string;
    readonly d?: unknown;
  };
}

function readAnswer(message: unknown): PipeAnswer {
  if (typeof message === 'string') return JSON.parse(message) as PipeAnswer;
  const bytes = Buffer.from(message as Uint8Array);
  const end = bytes.indexOf(255);
  return JSON.parse(bytes.subarray(0, end === -1 ? bytes.length : end).toString()) as PipeAnswer;
}

/** Electron hands a message on as `{ data }`, Node as it is; the host is written for Electron's. */
export function asMainPort(port: MessagePort): object {
  return {
    on: (event: string, listen: (given: unknown) => void) => {
      port.on(event, (data: unknown) => {
        listen(event === 'message' ? { data } : data);
      });
    },
    postMessage: (message: unknown) => {
      port.postMessage(message);
    },
    start: () => {
      port.start();
    },
    close: () => {
      port.close();
    },
  };
}
