import { answerPipes, pipeRefusal, type PipeSender } from '#main/hosts/electron/ipc-host.ts';
import { pipeChannel } from '#main/hosts/electron/channels.ts';
import { mayLoad, mayNavigate, type PageAddress } from '#main/hosts/electron/navigation-guard.ts';
import { answerPage, pageUrl } from '#main/hosts/electron/page-scheme.ts';
import { createORPCClient } from '@orpc/client';
import { RPCLink } from '@orpc/client/message-port';
import type { ContractRouterClient } from '@orpc/contract';
import type { IpcMain, IpcMainEvent } from 'electron';
import { EventEmitter } from 'node:events';
import { MessageChannel } from 'node:worker_threads';
import { describe, expect, test } from 'vitest';
import { asMainPort } from '../../../../demo/soak/wires.ts';
import { stubRouter, type stubContract } from '../loopback/stub-router.ts';

const page: PageAddress = { url: pageUrl, strict: true };
const development: PageAddress = { url: 'http://127.0.0.1:5199/', strict: false };

describe('where the window may go', () => {
  test('to its own page, with any fragment', () => {
    expect(mayNavigate('undercroft://cellar/', page)).toBe(true);
    expect(mayNavigate('undercroft://cellar/#/shelves', page)).toBe(true);
    expect(mayNavigate('http://127.0.0.1:5199/#/x', development)).toBe(true);
  });

  test.each([
    'https://example.org/',
    'http://127.0.0.1:5199/',
    'undercroft://other/',
    'undercroft://cellar/assets/index.js',
    'undercroft://cellar@evil.example/',
    'undercroft://someone@cellar/',
    'undercroft:cellar/',
    'file:///etc/passwd',
    'javascript:alert(1)',
    'data:text/html,<script>1</script>',
    'about:blank',
    'blob:undercroft://cellar/1',
    'chrome://version',
    'not an address',
    '',
  ])('not to %j', (address) => {
    expect(mayNavigate(address, page)).toBe(false);
  });
});

describe('what the page may load', () => {
  test('its own files and what it made itself', () => {
    expect(mayLoad('undercroft://cellar/assets/index.js', page)).toBe(true);
    expect(mayLoad('data:image/png;base64,AA', page)).toBe(true);
    expect(mayLoad('blob:undercroft://cellar/1', page)).toBe(true);
  });

  test.each([
    'https://example.org/x.js',
    'http://127.0.0.1/',
    'file:///etc/passwd',
    'ws://127.0.0.1:5199/',
    'devtools://devtools/bundled/x.js',
    'undercroft://other/',
  ])('not %s', (address) => {
    expect(mayLoad(address, page)).toBe(false);
  });

  test('while developing, its own server as well, and no other', () => {
    expect(mayLoad('ws://127.0.0.1:5199/', development)).toBe(true);
    expect(mayLoad('http://127.0.0.1:5199/@vite/client', development)).toBe(true);
    expect(mayLoad('devtools://devtools/bundled/x.js', development)).toBe(true);
    expect(mayLoad('http://127.0.0.1:1/', development)).toBe(false);
    expect(mayLoad('https://example.org/', development)).toBe(false);
  });
});

describe('the page of the desktop', () => {
  const answer = answerPage((path) =>
    path === '/' ? { contentType: 'text/html; charset=utf-8', bytes: new Uint8Array([60]) } : undefined,
  );

  test('comes with its policy', async () => {
    const found = answer(new Request('undercroft://cellar/'));
    expect(found.status).toBe(200);
    expect(found.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(found.headers.get('content-security-policy')).toContain("default-src 'none'");
    expect(await found.text()).toBe('<');
  });

  test('has no other host, no other file and takes nothing in', () => {
    expect(answer(new Request('undercroft://elsewhere/')).status).toBe(404);
    expect(answer(new Request('undercroft://cellar/../x')).status).toBe(404);
    expect(answer(new Request('undercroft://cellar/', { method: 'POST', body: 'x' })).status).toBe(404);
  });
});

describe('a pipe to the cellar', () => {
  const good: PipeSender = {
    isOurWindow: true,
    frameUrl: 'undercroft://cellar/#/shelves',
    isMainFrame: true,
    portCount: 1,
  };

  test('is given to the main frame of our window on our page', () => {
    expect(pipeRefusal(good, page)).toBeUndefined();
  });

  test.each<[string, Partial<PipeSender>]>([
    ['contents that are no window of ours', { isOurWindow: false }],
    ['a frame that is gone', { frameUrl: undefined }],
    ['a frame with no address', { frameUrl: '' }],
    ['a frame inside the page', { isMainFrame: false }],
    ['a foreign page', { frameUrl: 'https://example.org/' }],
    ['no end to hand over', { portCount: 0 }],
    ['two ends', { portCount: 2 }],
  ])('is refused to %s', (_who, change) => {
    expect(pipeRefusal({ ...good, ...change }, page)).toMatch(/\.$/);
  });

  function host() {
    const ipcMain = new EventEmitter();
    const faults: unknown[] = [];
    answerPipes({
      ipcMain: ipcMain as unknown as IpcMain,
      page,
      routerOf: (id) => (id === 1 ? stubRouter().router : undefined),
      log: {
        say: () => undefined,
        refuse: () => undefined,
        fault: (_sentence, reason) => faults.push(reason),
      },
    });
    const ask = (contentsId: number, url: string) => {
      const { port1, port2 } = new MessageChannel();
      const event = {
        sender: { id: contentsId },
        senderFrame: { url, parent: null },
        ports: [asMainPort(port2)],
      } as unknown as IpcMainEvent;
      ipcMain.emit(pipeChannel, event);
      return port1;
    };
    return { ask, faults };
  }

  test('carries calls both ways', async () => {
    const { ask, faults } = host();
    const port = ask(1, pageUrl);
    const client: ContractRouterClient<typeof stubContract> = createORPCClient(new RPCLink({ port: port }));
    port.start();
    expect(await client.greet({ name: 'Ada' })).toEqual({ greeting: 'Hello Ada' });
    const numbers = await client.count();
    expect((await numbers.next()).value).toBe(1);
    await numbers.return();
    expect(faults).toEqual([]);
    port.close();
  });

  test('that is refused is closed and written down', async () => {
    const { ask, faults } = host();
    const ports = [ask(2, pageUrl), ask(1, 'https://example.org/')];
    await Promise.all(ports.map((port) => new Promise((resolve) => port.once('close', resolve))));
    expect(faults).toEqual([
      'A pipe was asked for by something that is no cellar window.',
      'A pipe was asked for by https://example.org/.',
    ]);
  });

  test('reads calls alone: whatever else comes through it is left unread, and calls go on', async () => {
    const { ask, faults } = host();
    const port = ask(1, pageUrl);
    const client: ContractRouterClient<typeof stubContract> = createORPCClient(new RPCLink({ port: port }));
    port.start();
    const form = 'multipart/form-data; boundary=b';
    for (const message of [
      ...['', 'null', '[]', '{', '{}', '{"i":7,"p":{"u":"/greet"}}', '{"i":"1"}', '{"i":"1","p":null}'],
      ...['{"i":"1","p":{"u":"http://elsewhere/greet"}}', '{"i":"1","p":{"u":"/greet","m":"GET"}}'],
      ...['{"i":"1","t":3,"p":{"e":"message"}}', '{"i":"1","p":{"u":"/greet","h":{"cookie":"a"}}}'],
      ...[
        { i: '1', p: { u: '/greet', b: { json: { name: 'Ada' } } } },
        7,
        null,
        Uint8Array.from([255, 1, 2]),
      ],
      ...[`{"i":"1","p":{"u":"/greet","h":{"content-type":"${form}"}}}`, '[['.repeat(10_000)],
    ]) {
      port.postMessage(message);
    }
    expect(await client.greet({ name: 'Ada' })).toEqual({ greeting: 'Hello Ada' });
    expect(faults).toEqual([]);
    port.close();
  });
});
