import { openHttpHost, PortRefusedError, type HttpHost } from '#main/hosts/loopback/http-host.ts';
import { pageFilesIn } from '#main/hosts/page-files.ts';
import type { Log } from '#main/platform/log.ts';
import { createORPCClient, isDefinedError, safe } from '@orpc/client';
import { RPCLink } from '@orpc/client/fetch';
import type { ContractRouterClient } from '@orpc/contract';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request, type IncomingHttpHeaders } from 'node:http';
import { createConnection } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { stubRouter, type stubContract } from './stub-router.ts';

let folder: string;
let host: HttpHost;
let faults: unknown[];
let seen: { countStopped: boolean };

const log: Log = {
  say: () => undefined,
  refuse: () => undefined,
  fault: (_sentence, error) => faults.push(error),
};

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'undercroft-host-'));
  mkdirSync(join(folder, 'page/assets'), { recursive: true });
  writeFileSync(join(folder, 'page/index.html'), '<title>Undercroft</title>');
  writeFileSync(join(folder, 'page/assets/a.js'), 'export {};');
  writeFileSync(join(folder, 'secret.txt'), 'secret');
  faults = [];
  const stub = stubRouter();
  seen = stub.seen;
  host = await openHttpHost({
    router: stub.router,
    page: pageFilesIn(join(folder, 'page')),
    strict: true,
    log,
  });
});

afterEach(async () => {
  await host.close();
  rmSync(folder, { recursive: true, force: true });
});

interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

/** A request with exactly these headers and this path, which fetch would tidy up. */
function ask(path: string, headers: Record<string, string> = {}, method = 'GET', body = ''): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const asking = request(
      { host: '127.0.0.1', port: host.port, path, method, headers: { connection: 'close', ...headers } },
      (answer) => {
        const chunks: Buffer[] = [];
        answer.on('data', (chunk: Buffer) => chunks.push(chunk));
        answer.on('error', reject);
        answer.on('end', () => {
          resolve({
            status: answer.statusCode ?? 0,
            headers: answer.headers,
            body: Buffer.concat(chunks).toString(),
          });
        });
      },
    );
    asking.on('error', reject);
    asking.end(body);
  });
}

function entrancePath(): string {
  const { pathname, search } = new URL(host.entrance());
  return pathname + search;
}

async function enter(): Promise<string> {
  const answer = await ask(entrancePath());
  return answer.headers['set-cookie']?.[0]?.split(';')[0] ?? '';
}

function origin(): string {
  return `http://127.0.0.1:${host.port}`;
}

describe('the entrance', () => {
  test('is traded once for a strict cookie that scripts cannot read', async () => {
    const path = entrancePath();
    const first = await ask(path);
    expect(first.status).toBe(303);
    expect(first.headers.location).toBe('/');
    expect(first.headers['set-cookie']?.[0]).toMatch(
      new RegExp(`^undercroft_${host.port}=[\\w-]{43}; Path=/; HttpOnly; SameSite=Strict$`),
    );
    const second = await ask(path);
    expect(second.status).toBe(403);
    expect(second.body).toContain('Start Undercroft again');
    expect(second.headers['set-cookie']).toBeUndefined();
  });

  test('tried again by the window that used it leads home', async () => {
    const path = entrancePath();
    const cookie = (await ask(path)).headers['set-cookie']?.[0]?.split(';')[0] ?? '';
    expect((await ask(path, { cookie })).status).toBe(303);
  });

  test.each(['/enter', '/enter?t=', '/enter?t=guess', `/enter?t=${'a'.repeat(43)}`])(
    '%s without a token of ours is refused',
    async (path) => {
      expect((await ask(path)).status).toBe(403);
    },
  );
});

describe('who is answered', () => {
  test('no page and no call without the cookie', async () => {
    const page = await ask('/');
    expect(page.status).toBe(403);
    expect(page.headers['content-type']).toContain('text/html');
    expect((await ask('/assets/a.js')).status).toBe(403);
    expect((await ask('/rpc/greet', { origin: origin() }, 'POST', '{}')).status).toBe(403);
    expect((await ask('/', { cookie: `undercroft_${host.port}=guess` })).status).toBe(403);
  });

  test.each(['localhost', '127.0.0.1', 'evil.example', '127.0.0.1:1'])(
    'a request for host %s is misdirected, even with the cookie',
    async (name) => {
      const cookie = await enter();
      expect((await ask('/', { cookie, host: name })).status).toBe(421);
    },
  );

  test('a request that names a foreign target whole is misdirected, whatever its host says', async () => {
    const cookie = await enter();
    expect((await ask('http://evil.example/', { cookie })).status).toBe(421);
    expect((await ask(`${origin()}/`, { cookie })).status).toBe(200);
  });

  test.each([
    ['no origin', {}],
    ['a foreign origin', { origin: 'http://evil.example' }],
    ['another port of this computer', { origin: 'http://127.0.0.1:1' }],
    ['an opaque origin', { origin: 'null' }],
  ])('a call with %s is refused', async (_name, headers) => {
    const cookie = await enter();
    expect((await ask('/rpc/greet', { cookie, ...headers }, 'POST', '{}')).status).toBe(403);
  });

  test.each(['cross-site', 'same-site'])('a %s request is refused, page and call', async (site) => {
    const cookie = await enter();
    const headers = { cookie, 'sec-fetch-site': site };
    expect((await ask('/', headers)).status).toBe(403);
    expect((await ask('/rpc/greet', { ...headers, origin: origin() }, 'POST', '{}')).status).toBe(403);
  });

  test('a call is only ever a POST, and the page is only ever read', async () => {
    const cookie = await enter();
    expect((await ask('/rpc/greet', { cookie, origin: origin() })).status).toBe(405);
    expect((await ask('/', { cookie, origin: origin() }, 'POST')).status).toBe(405);
    expect((await ask('/', { cookie }, 'DELETE')).status).toBe(405);
  });

  test('a foreign host and a refused page carry the content policy too', async () => {
    for (const answer of [await ask('/'), await ask('/', { host: 'evil.example' })]) {
      expect(answer.headers['content-security-policy']).toContain("default-src 'none'");
      expect(answer.headers['cache-control']).toBe('no-store');
    }
  });
});

describe('the page', () => {
  test('comes with its type, its policy, and is kept nowhere', async () => {
    const cookie = await enter();
    const page = await ask('/', { cookie });
    expect(page.status).toBe(200);
    expect(page.body).toContain('<title>Undercroft</title>');
    expect(page.headers).toMatchObject({
      'content-type': 'text/html; charset=utf-8',
      'cache-control': 'no-store',
      'x-content-type-options': 'nosniff',
      'x-frame-options': 'DENY',
    });
    const policy = page.headers['content-security-policy'];
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toContain('unsafe-eval');
    expect(policy).not.toMatch(/script-src[^;]*unsafe-inline/);
    const script = await ask('/assets/a.js', { cookie });
    expect(script.headers['content-type']).toBe('text/javascript; charset=utf-8');
  });

  test.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '/assets/..%5c..%5csecret.txt',
    '/assets/../../secret.txt',
    '/%00',
    '//secret.txt',
    '/assets',
    '/assets/',
    '/missing.js',
  ])('%s is no file of the page', async (path) => {
    const cookie = await enter();
    const answer = await ask(path, { cookie });
    expect([400, 404]).toContain(answer.status);
    expect(answer.body).not.toContain('secret');
  });
});

describe('calls', () => {
  async function client(): Promise<ContractRouterClient<typeof stubContract>> {
    const cookie = await enter();
    const link = new RPCLink({ url: `${origin()}/rpc`, headers: { cookie, origin: origin() } });
    return createORPCClient(link);
  }

  test('are answered, and kept in no cache', async () => {
    expect(await (await client()).greet({ name: 'Ada' })).toEqual({ greeting: 'Hello Ada' });
    const cookie = await enter();
    const answer = await ask(
      '/rpc/greet',
      { cookie, origin: origin(), 'content-type': 'application/json' },
      'POST',
      '{"json":{"name":"Ada"}}',
    );
    expect(answer.status).toBe(200);
    expect(answer.headers['cache-control']).toBe('no-store');
  });

  test('an expected failure arrives typed and is not written down', async () => {
    const { error } = await safe((await client()).greet({ name: 'nobody' }));
    expect(isDefinedError(error) && error.data).toEqual({ name: 'nobody' });
    expect(faults).toEqual([]);
  });

  test('a fault is written down, and its text stays inside', async () => {
    const { error } = await safe((await client()).greet({ name: 'fault' }));
    expect(error).toMatchObject({ code: 'INTERNAL_SERVER_ERROR' });
    expect(String(error)).not.toContain('secret');
    expect(faults).toHaveLength(1);
  });

  test('a fault in the middle of a long call is written down too', async () => {
    const numbers = await (await client()).stumble();
    expect((await numbers.next()).value).toBe(1);
    const { error } = await safe(numbers.next());
    expect(error).toMatchObject({ code: 'INTERNAL_SERVER_ERROR' });
    expect(String(error)).not.toContain('secret');
    expect(faults).toHaveLength(1);
  });

  test('input of another shape is refused by name', async () => {
    const cookie = await enter();
    const headers = { cookie, origin: origin(), 'content-type': 'application/json' };
    for (const body of [
      '{"json":{"name":7}}',
      '{"json":null}',
      'not json',
      '',
      '[]',
      '{"json":{"__proto__":1}}',
    ]) {
      const answer = await ask('/rpc/greet', headers, 'POST', body);
      expect(answer.status, body).toBe(400);
    }
    expect((await ask('/rpc/unknown', headers, 'POST', '{}')).status).toBe(404);
    expect((await ask('/rpc/__proto__', headers, 'POST', '{}')).status).toBe(404);
    expect((await ask('/rpc/constructor', headers, 'POST', '{}')).status).toBe(404);
    expect(faults).toEqual([]);
  });

  test('a call larger than 2 MB is refused', async () => {
    const cookie = await enter();
    const headers = { cookie, origin: origin(), 'content-type': 'application/json' };
    const answer = await ask(
      '/rpc/greet',
      headers,
      'POST',
      `{"json":{"name":"${'a'.repeat(2 * 1024 * 1024)}"}}`,
    );
    expect(answer.status).toBe(413);
  });

  test('a job that the page leaves is stopped', async () => {
    const leaving = new AbortController();
    const numbers = await (await client()).count(undefined, { signal: leaving.signal });
    expect((await numbers.next()).value).toBe(1);
    leaving.abort();
    await expect.poll(() => seen.countStopped).toBe(true);
    expect(faults).toEqual([]);
  });
});

describe('the port', () => {
  test('that is taken is refused with a sentence', async () => {
    const second = openHttpHost({
      router: stubRouter().router,
      page: () => undefined,
      strict: true,
      port: host.port,
      log,
    });
    await expect(second).rejects.toThrow(PortRefusedError);
    await expect(second).rejects.toMatchObject({
      sentence: expect.stringContaining(`Port ${host.port} is in use by another program.`) as string,
    });
  });

  test('is open on this computer alone', async () => {
    const answered = await new Promise((resolve) => {
      const socket = createConnection({ host: '127.0.0.2', port: host.port });
      socket.once('connect', () => {
        socket.destroy();
        resolve(true);
      });
      socket.once('error', () => {
        resolve(false);
      });
    });
    expect(answered).toBe(false);
  });

  test('closes although a window still holds a connection', async () => {
    const socket = createConnection({ host: '127.0.0.1', port: host.port });
    await new Promise((resolve) => socket.once('connect', resolve));
    const closed = new Promise((resolve) => socket.once('close', resolve));
    socket.on('error', () => undefined);
    await host.close();
    await closed;
  });
});
