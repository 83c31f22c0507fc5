import type { MessagePortMainLike } from '@orpc/client/message-port';
import type { MessagePortMain } from 'electron';
import type { Log } from '../../platform/log.ts';

type Listener = Parameters<MessagePortMainLike['on']>[1];

/**
 * A page's pipe that lets through only what is a call, or the end of one. The library that answers calls reads a message
 * after it has let go of it, so one that it cannot read would be a fault that nobody catches; the page never sends such.
 */
export function onlyCalls(port: MessagePortMain, log: Log): MessagePortMainLike {
  return {
    on(event, listener) {
      if (event === 'message') port.on('message', inTurn(listener, log));
      else if (event === 'close') port.on('close', listener);
    },
    postMessage: (message) => {
      port.postMessage(message);
    },
  };
}

/** Messages are looked at and handed on in the order they came, also those whose look takes longer. */
function inTurn(listener: Listener, log: Log): Listener {
  let last: Promise<void> = Promise.resolve();
  return (event) => {
    last = last.then(async () => {
      if (await isCall(event?.data)) listener(event);
      else log.refuse('A message that is no call came through a pipe and was left unread.');
    });
  };
}

/** Between the head of a message, which is JSON, and the bytes of a form. */
const HEAD_ENDS = 0xff;
const ABORTED = 4;

async function isCall(message: unknown): Promise<boolean> {
  const { head, bytes } = parts(message);
  if (head === undefined || typeof head.i !== 'string') return false;
  if (head.t === ABORTED) return true;
  const { p } = head;
  if (head.t !== undefined || typeof p !== 'object' || p === null) return false;
  const { u, m, h = {} } = p as { readonly u?: unknown; readonly m?: unknown; readonly h?: unknown };
  if (typeof u !== 'string' || !u.startsWith('/') || URL.parse(`http://calls${u}`) === null) return false;
  if (m !== undefined || typeof h !== 'object' || h === null) return false;
  const { 'content-type': type, ...others } = h as Record<string, unknown>;
  if (Object.keys(others).length > 0) return false;
  return type === undefined || (typeof type === 'string' && (await isForm(type, bytes)));
}

interface Head {
  readonly i?: unknown;
  readonly t?: unknown;
  readonly p?: unknown;
}

function parts(message: unknown): { readonly head?: Head; readonly bytes?: Uint8Array<ArrayBuffer> } {
  const bytes = message instanceof ArrayBuffer ? new Uint8Array(message) : message;
  if (!(typeof bytes === 'string' || bytes instanceof Uint8Array)) return {};
  const end = typeof bytes === 'string' ? -1 : bytes.indexOf(HEAD_ENDS);
  const text =
    typeof bytes === 'string' ? bytes : new TextDecoder().decode(end === -1 ? bytes : bytes.subarray(0, end));
  const body =
    typeof bytes === 'string' || end === -1 ? new Uint8Array() : Uint8Array.from(bytes.subarray(end + 1));
  try {
    const head: unknown = JSON.parse(text);
    return typeof head === 'object' && head !== null ? { head, bytes: body } : {};
  } catch {
    return {};
  }
}

async function isForm(type: string, bytes: Uint8Array<ArrayBuffer> | undefined): Promise<boolean> {
  try {
    // What reads the call itself reads its form so: it is tried the same way.
    // eslint-disable-next-line @typescript-eslint/no-deprecated -- at most a photo, from our own window
    await new Response(bytes ?? null, { headers: { 'content-type': type } }).formData();
    return true;
  } catch {
    return false;
  }
}
