import { createConnection, type Socket } from 'node:net';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openHttpHost, type HttpHost, type Patience } from '#main/hosts/loopback/http-host.ts';
import { pageFilesIn } from '#main/hosts/page-files.ts';
import { scratchFolder } from '../main/desk-for-tests.ts';
import { stubRouter } from '../main/hosts/loopback/stub-router.ts';

/** Bytes as no browser would send them, straight onto the port. What must never happen: the page or a call is answered. */

const scratch = scratchFolder();
mkdirSync(join(scratch.folder, 'page/assets'), { recursive: true });
writeFileSync(join(scratch.folder, 'page/index.html'), '<title>Undercroft</title>');
writeFileSync(join(scratch.folder, 'secret.txt'), 'secret');
symlinkSync(join(scratch.folder, 'secret.txt'), join(scratch.folder, 'page/assets/link.js'));
afterAll(() => {
  scratch.remove();
});

let host: HttpHost;
let faults: unknown[];
const open: Socket[] = [];

async function openWith(patience?: Patience): Promise<void> {
  faults = [];
  host = await openHttpHost({
    ...{ router: stubRouter().router, page: pageFilesIn(join(scratch.folder, 'page')), strict: true },
    ...(patience === undefined ? {} : { patience }),
    log: { say: () => undefined, refuse: () => undefined, fault: (_sentence, error) => faults.push(error) },
  });
}

beforeEach(() => openWith());
afterEach(async () => {
  for (const socket of open.splice(0)) socket.destroy();
  await host.close();
  expect(faults).toEqual([]);
});

const here = (): string => `127.0.0.1:${host.port}`;

/** Sends bytes and gives all that comes back until the host hangs up, or until an answer is whole. */
function onTheWire(bytes: string | Uint8Array): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect();
    let said = '';
    socket.on('data', (chunk: Buffer) => (said += chunk.toString('latin1')));
    socket.on('close', () => {
      resolve(said);
    });
    socket.write(bytes);
  });
}

function connect(): Socket {
  const socket = createConnection({ host: '127.0.0.1', port: host.port });
  socket.on('error', () => undefined);
  open.push(socket);
  return socket;
}

async function enter(): Promise<string> {
  const { pathname, search } = new URL(host.entrance());
  const said = await onTheWire(head(`GET ${pathname}${search} HTTP/1.1`));
  return /set-cookie: ([^;]+)/iu.exec(said)?.[1] ?? '';
}

function head(first: string, ...lines: string[]): string {
  return [first, `Host: ${here()}`, 'Connection: close', ...lines, '', ''].join('\r\n');
}

const statuses = (said: string): number[] =>
  [...said.matchAll(/HTTP\/1\.1 (\d{3}) /gu)].map(([, status]) => Number(status));

const call = '{"json":{"name":"Ada"}}';

async function isAlive(): Promise<boolean> {
  const cookie = await enter();
  const said = await onTheWire(
    `${head('POST /rpc/greet HTTP/1.1', `Cookie: ${cookie}`, `Origin: http://${here()}`, 'Content-Type: application/json', `Content-Length: ${call.length}`)}${call}`,
  );
  return said.includes('Hello Ada');
}

describe('requests that two readers could read two ways', () => {
  const smuggled = 'POST /rpc/greet HTTP/1.1\r\nHost: x\r\n\r\n';
  test.each<[string, string[], string]>([
    ['two lengths', ['Content-Length: 5', 'Content-Length: 6'], 'aaaaaa'],
    ['a length and chunks', ['Content-Length: 5', 'Transfer-Encoding: chunked'], `0\r\n\r\n${smuggled}`],
    ['a length below nothing', ['Content-Length: -1'], 'a'],
    ['a length that is no number', ['Content-Length: 0x10'], 'a'],
    ['a length with a plus', ['Content-Length: +5'], 'aaaaa'],
    ['a length beyond all numbers', [`Content-Length: ${'9'.repeat(40)}`], 'a'],
    ['chunks of garbage', ['Transfer-Encoding: chunked'], 'zz\r\naa\r\n0\r\n\r\n'],
    ['a chunk below nothing', ['Transfer-Encoding: chunked'], '-1\r\naa\r\n0\r\n\r\n'],
    ['a chunk longer than it says', ['Transfer-Encoding: chunked'], '1\r\naaaa\r\n0\r\n\r\n'],
    ['a chunk beyond all numbers', ['Transfer-Encoding: chunked'], `${'f'.repeat(20)}\r\naa`],
    ['an encoding nobody knows', ['Transfer-Encoding: chunked, identity'], '0\r\n\r\n'],
    ['a space before the colon', ['Content-Length : 5'], 'aaaaa'],
    ['a folded line', ['X-Note: a\r\n b'], ''],
    ['a zero byte', ['X-Note: a\0b'], ''],
    ['a bare carriage return', ['X-Note: a\rb'], ''],
    ['a name with a bracket', ['X[Note]: a'], ''],
  ])('%s: refused, and the door is closed', async (_name, lines, body) => {
    const cookie = await enter();
    const said = await onTheWire(
      `${head('POST /rpc/greet HTTP/1.1', `Cookie: ${cookie}`, `Origin: http://${here()}`, 'Content-Type: application/json', ...lines)}${body}`,
    );
    expect(said).not.toContain('Hello');
    for (const status of statuses(said)) expect(status).toBeGreaterThanOrEqual(400);
    expect(statuses(said).length).toBeLessThanOrEqual(1);
    expect(await isAlive()).toBe(true);
  });

  test('what stands behind an answered request is judged by itself', async () => {
    const cookie = await enter();
    const said = await onTheWire(
      `GET / HTTP/1.1\r\nHost: ${here()}\r\nCookie: ${cookie}\r\n\r\n` +
        `POST /rpc/greet HTTP/1.1\r\nHost: ${here()}\r\nOrigin: http://${here()}\r\nContent-Length: ${call.length}\r\nConnection: close\r\n\r\n${call}`,
    );
    expect(statuses(said)).toEqual([200, 403]);
    expect(said).not.toContain('Hello');
  });
});

describe('bytes that are no request of ours', () => {
  test.each<[string, string | Uint8Array]>([
    ['nothing of HTTP', 'hello\r\n\r\n'],
    ['the oldest HTTP', 'GET /\r\n\r\n'],
    ['a newer HTTP', 'PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n'],
    ['the beginning of TLS', Uint8Array.from([22, 3, 1, 2, 0, 1, 0, 1, 252, 3, 3])],
    ['no host', 'GET / HTTP/1.1\r\n\r\n'],
    ['a method nobody knows', 'BREW / HTTP/1.1\r\nHost: x\r\n\r\n'],
    ['heads without end', `GET / HTTP/1.1\r\n${'X-Note: aaaaaaaaaaaaaaaaaaaa\r\n'.repeat(2000)}\r\n`],
    ['an address without end', `GET /${'a'.repeat(100_000)} HTTP/1.1\r\nHost: x\r\n\r\n`],
  ])('%s: no page, no call', async (_name, bytes) => {
    const said = await onTheWire(bytes);
    for (const status of statuses(said)) expect(status).toBeGreaterThanOrEqual(400);
    expect(said).not.toContain('<title>Undercroft</title>');
    expect(await isAlive()).toBe(true);
  });

  test.each(['PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE', 'PROPFIND', 'CONNECT'])(
    '%s is answered neither on the page nor on a call, with the cookie and from our own origin',
    async (method) => {
      const cookie = await enter();
      for (const path of ['/', '/rpc/greet']) {
        const target = method === 'CONNECT' ? here() : path;
        const lines = [`Cookie: ${cookie}`, `Origin: http://${here()}`];
        const said = await onTheWire(head(`${method} ${target} HTTP/1.1`, ...lines));
        for (const status of statuses(said)) expect(status).toBeGreaterThanOrEqual(400);
        expect(said.toLowerCase()).not.toContain('access-control-allow');
        expect(said).not.toContain(cookie);
      }
    },
  );

  test('HEAD gives the head of the page alone, and of a call nothing', async () => {
    const cookie = await enter();
    const page = await onTheWire(head('HEAD / HTTP/1.1', `Cookie: ${cookie}`));
    expect(statuses(page)).toEqual([200]);
    expect(page).not.toContain('<title>');
    expect(statuses(await onTheWire(head('HEAD / HTTP/1.1')))).toEqual([403]);
    expect(statuses(await onTheWire(head('HEAD /rpc/greet HTTP/1.1', `Cookie: ${cookie}`)))).toEqual([405]);
  });

  test.each(['websocket', 'h2c', 'TLS/1.0'])('there is no changing over to %s', async (protocol) => {
    const cookie = await enter();
    for (const lines of [[], [`Cookie: ${cookie}`]]) {
      const said = await onTheWire(
        `GET / HTTP/1.1\r\nHost: ${here()}\r\nConnection: Upgrade, close\r\nUpgrade: ${protocol}\r\n` +
          `Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\nSec-WebSocket-Version: 13\r\n${lines.map((line) => `${line}\r\n`).join('')}\r\n`,
      );
      expect(statuses(said)).not.toContain(101);
      expect(statuses(said).length).toBeLessThanOrEqual(1);
    }
    expect(await isAlive()).toBe(true);
  });
});

describe('the pass', () => {
  test('is not the cookie of another port, half of one, or one of many', async () => {
    const cookie = await enter();
    const [name = '', value = ''] = cookie.split('=');
    for (const wrong of [
      `undercroft_1=${value}`,
      `${name}=${value.slice(0, -1)}`,
      `${name}=${value.toLowerCase()}x`,
      `${name.toUpperCase()}=${value}`,
      `${name}=`,
      `x${name}=${value}`,
    ]) {
      expect(statuses(await onTheWire(head('GET / HTTP/1.1', `Cookie: ${wrong}`))), wrong).toEqual([403]);
    }
  });

  test('is not given for a token that was used, from wherever it was overheard', async () => {
    const { pathname, search } = new URL(host.entrance());
    await onTheWire(head(`GET ${pathname}${search} HTTP/1.1`));
    for (const again of [search, `${search}&t=x`, search.replace('t=', 'T='), `${search}%00`]) {
      const said = await onTheWire(head(`GET ${pathname}${again} HTTP/1.1`));
      expect(statuses(said), again).toEqual([403]);
      expect(said.toLowerCase()).not.toContain('set-cookie');
    }
  });

  test('two who race for one token do not both get in', async () => {
    const { pathname, search } = new URL(host.entrance());
    const said = await Promise.all(
      Array.from({ length: 20 }, () => onTheWire(head(`GET ${pathname}${search} HTTP/1.1`))),
    );
    expect(said.flatMap(statuses).filter((status) => status === 303)).toHaveLength(1);
  });

  test('is not had by a name that points here, however it is written', async () => {
    const cookie = await enter();
    for (const name of [
      ...[
        `rebound.example:${host.port}`,
        `localhost:${host.port}`,
        `[::1]:${host.port}`,
        `0.0.0.0:${host.port}`,
      ],
      ...[
        `127.1:${host.port}`,
        `2130706433:${host.port}`,
        `127.0.0.1.:${host.port}`,
        `127.0.0.1:0${host.port}`,
      ],
      ...[`127.0.0.1:${host.port}@rebound.example`, `127.0.0.1:${host.port},rebound.example`, ''],
    ]) {
      const said = await onTheWire(
        `GET / HTTP/1.1\r\nHost: ${name}\r\nCookie: ${cookie}\r\nConnection: close\r\n\r\n`,
      );
      expect(said, name).not.toContain('<title>Undercroft</title>');
      for (const status of statuses(said)) expect(status, name).toBeGreaterThanOrEqual(400);
    }
  });
});

describe('files of the page', () => {
  test.each([
    ...['/..%252fsecret.txt', '/%252e%252e/secret.txt', '/%c0%ae%c0%ae/secret.txt', '/..\\secret.txt'],
    ...['/assets/..%5c..%5csecret.txt', '/assets/....//secret.txt', '/assets/%2e%2e%2f%2e%2e%2fsecret.txt'],
    ...[
      '///etc/passwd',
      '/%2fetc%2fpasswd',
      'file:///etc/passwd',
      '/assets/link.js',
      '/index.html%00.js',
      '/C:/x',
    ],
  ])('%s is none', async (path) => {
    const cookie = await enter();
    const said = await onTheWire(head(`GET ${path} HTTP/1.1`, `Cookie: ${cookie}`));
    expect(said).not.toContain('secret');
    expect(said).not.toContain('root:');
    for (const status of statuses(said)) expect([400, 404, 421]).toContain(status);
  });
});

describe('senders that take their time', () => {
  const hasty: Patience = { headersTimeout: 250, requestTimeout: 500, connectionsCheckingInterval: 50 };
  beforeEach(async () => {
    await host.close();
    await openWith(hasty);
  });

  test('a head that never ends is cut off, and others are answered meanwhile', async () => {
    const slow = onTheWire(`GET / HTTP/1.1\r\nHost: ${here()}\r\n`);
    expect(await isAlive()).toBe(true);
    expect(await slow).not.toContain('200');
  });

  test('a body that never comes whole is cut off, and is no call', async () => {
    const cookie = await enter();
    const lines = [`Cookie: ${cookie}`, `Origin: http://${here()}`, 'Content-Type: application/json'];
    const slow = onTheWire(`${head('POST /rpc/greet HTTP/1.1', ...lines, 'Content-Length: 100')}${call}`);
    const endless = onTheWire(
      `${head('POST /rpc/greet HTTP/1.1', ...lines, 'Transfer-Encoding: chunked')}1\r\n{\r\n`,
    );
    expect(await isAlive()).toBe(true);
    for (const said of await Promise.all([slow, endless])) expect(said).not.toContain('Hello');
  });

  test('more callers than there is room for are turned away, and there is room again when they are gone', async () => {
    const crowd = Array.from({ length: 260 }, () => connect().resume());
    await Promise.all(crowd.map((socket) => new Promise((resolve) => socket.once('close', resolve))));
    expect(await isAlive()).toBe(true);
  });
});

test('a call that is too large is not read to its end', async () => {
  const cookie = await enter();
  const lines = [`Cookie: ${cookie}`, `Origin: http://${here()}`, 'Content-Type: application/json'];
  const piece = `${(64 * 1024).toString(16)}\r\n${'a'.repeat(64 * 1024)}\r\n`;
  const said = await onTheWire(
    `${head('POST /rpc/greet HTTP/1.1', ...lines, 'Transfer-Encoding: chunked')}${piece.repeat(48)}0\r\n\r\n`,
  );
  for (const status of statuses(said)) expect(status).toBe(413);
  expect(said).not.toContain('Hello');
  expect(await isAlive()).toBe(true);
});
