import type { Contract } from '#core/contract/index.ts';
import { HOUSE_RULES_AT_FIRST, houseRulesContract } from '#core/contract/house-rules.ts';
import { menuChannel, pipeChannel } from '#main/hosts/electron/channels.ts';
import { LostHostError, type Backend } from '#renderer/backend/backend.ts';
import { chooseBackend } from '#renderer/backend/call.ts';
import { httpBackend } from '#renderer/backend/http-backend.ts';
import { ipcBackend } from '#renderer/backend/ipc-backend.ts';
import { createORPCClient } from '@orpc/client';
import type { ContractRouterClient } from '@orpc/contract';
import { implement, os } from '@orpc/server';
import { RPCHandler as FetchHandler } from '@orpc/server/fetch';
import { RPCHandler as PortHandler } from '@orpc/server/message-port';
import { MessageChannel } from 'node:worker_threads';
import { describe, expect, test } from 'vitest';

const origin = 'http://127.0.0.1:4321';

/** A cellar that knows its house rules and nothing else; a lying one answers in another shape. */
function router(isLying = false) {
  const read = isLying
    ? os.handler(() => ({ volume: 'buckets' }))
    : implement(houseRulesContract.read).handler(() => HOUSE_RULES_AT_FIRST);
  return { houseRules: { read } };
}

function client(backend: Backend): ContractRouterClient<Contract> {
  return createORPCClient(backend.link);
}

function http(isLying = false): Backend {
  const handler = new FetchHandler(router(isLying));
  return httpBackend(origin, async (request, init) => {
    const asked = new Request(request, init);
    const { response } = await handler.handle(asked, { prefix: '/rpc' });
    return response ?? new Response('There is no such call.', { status: 404 });
  });
}

/** A window that gets its pipe, as the preload gives it one. */
function desktop(isLying = false) {
  const page = new EventTarget() as Window;
  const post = (data: unknown, ports: readonly unknown[] = [], source: unknown = page) =>
    page.dispatchEvent(Object.assign(new Event('message'), { data, ports, source }));
  const backend = ipcBackend(() => {
    const { port1, port2 } = new MessageChannel();
    new PortHandler(router(isLying)).upgrade(port2);
    port2.start();
    post(pipeChannel, [port1], 'another window');
    post('something else', [port1]);
    post(pipeChannel, [port1]);
  }, page);
  return { backend, post };
}

describe.each([
  ['the browser host', http],
  ['the desktop host', (isLying?: boolean) => desktop(isLying).backend],
])('a call to %s', (_name, open) => {
  test('is answered', async () => {
    expect(await client(open()).houseRules.read()).toEqual(HOUSE_RULES_AT_FIRST);
  });

  test('is refused when the answer has another shape than the contract says', async () => {
    await expect(client(open(true)).houseRules.read()).rejects.toThrow('does not match expected schema');
  });
});

describe('a browser window whose program has gone', () => {
  const answering = (answer: () => Promise<Response>) =>
    client(httpBackend(origin, answer)).houseRules.read();

  test('is told so when nothing answers', async () => {
    await expect(answering(() => Promise.reject(new TypeError('Failed to fetch')))).rejects.toThrow(
      LostHostError,
    );
  });

  test.each([403, 421])('is told so when it is no longer known (%i)', async (status) => {
    const refusal = () =>
      Promise.resolve(
        new Response('No.', { status, headers: { 'content-type': 'text/plain;charset=UTF-8' } }),
      );
    await expect(answering(refusal)).rejects.toThrow(LostHostError);
  });

  test('is not told so when it left by itself', async () => {
    const leaving = new AbortController();
    const call = client(
      httpBackend(origin, () => {
        leaving.abort();
        return Promise.reject(new DOMException('Aborted', 'AbortError'));
      }),
    ).houseRules.read(undefined, { signal: leaving.signal });
    await expect(call).rejects.not.toThrow(LostHostError);
  });
});

describe('the menu of the desktop', () => {
  test('reaches the page, and only the page that listens', () => {
    const { backend, post } = desktop();
    const heard: string[] = [];
    const stop = backend.onMenuRequest((request) => heard.push(request));
    post({ [menuChannel]: 'cultures' });
    post({ [menuChannel]: 'drop everything' });
    post({ [menuChannel]: 'shelves' }, [], 'another window');
    post('shelves');
    post(null);
    stop();
    post({ [menuChannel]: 'shelves' });
    expect(heard).toEqual(['cultures']);
  });
});

test('the host is chosen by whether the bridge is there', () => {
  let opened = 0;
  const bridge = Object.assign(new EventTarget(), { undercroftPipe: () => (opened += 1) });
  chooseBackend(bridge as unknown as Window);
  expect(opened).toBe(1);
  const plain = Object.assign(new EventTarget(), { location: { origin } });
  chooseBackend(plain as unknown as Window);
  expect(opened).toBe(1);
});
