import { createORPCClient } from '@orpc/client';
import { RPCLink as FetchLink } from '@orpc/client/fetch';
import { RPCLink as PortLink } from '@orpc/client/message-port';
import type { ContractRouterClient } from '@orpc/contract';
import { RPCHandler as PortHandler } from '@orpc/server/message-port';
import { createHash, randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { MessageChannel } from 'node:worker_threads';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Contract } from '#core/contract/index.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { openHttpHost, type HttpHost } from '#main/hosts/loopback/http-host.ts';
import { jpeg } from '../../core/pictures/pictures-for-tests.ts';
import { begun, openDeskOn, scratchFolder, type TestDesk } from '../desk-for-tests.ts';

type Client = ContractRouterClient<Contract>;
const scratch = scratchFolder();
let desk: TestDesk;
let host: HttpHost;
let vesselId: VesselId;
let count = 0;
beforeEach(async () => {
  desk = openDeskOn(join(scratch.folder, `transport-${(count += 1)}.undercroft`));
  ({ vesselId } = await begun(desk));
  const log = { say: () => undefined, refuse: () => undefined, fault: () => undefined };
  host = await openHttpHost({ router: desk.app.router, page: () => undefined, strict: true, log });
});
afterEach(async () => {
  await host.close();
  desk.close();
});
afterAll(() => {
  scratch.remove();
});

const origin = (): string => `http://127.0.0.1:${host.port}`;
async function entered(): Promise<Record<string, string>> {
  const answer = await fetch(host.entrance(), { redirect: 'manual' });
  return { cookie: answer.headers.get('set-cookie')?.split(';')[0] ?? '', origin: origin() };
}

const overHttp = async (): Promise<{ client: Client; end: () => void }> => {
  const headers = await entered();
  return {
    client: createORPCClient(new FetchLink({ url: `${origin()}/rpc`, headers })),
    end: () => undefined,
  };
};
const overAPort = (): Promise<{ client: Client; end: () => void }> => {
  const { port1, port2 } = new MessageChannel();
  new PortHandler(desk.app.router).upgrade(port2, { context: {} });
  port2.start();
  const client: Client = createORPCClient(new PortLink({ port: port1 }));
  port1.start();
  return Promise.resolve({ client, end: () => port1.close() });
};

describe.each([
  ['the browser host', overHttp],
  ['the desktop host', overAPort],
])('a picture over %s', (_name, open) => {
  it('goes in and comes out byte for byte, with every value a byte can have', async () => {
    const scan = Array.from({ length: 300_000 }, (_, i) => (i % 256 === 255 ? 0x5a : i % 256));
    const bytes = jpeg({ widthPx: 640, heightPx: 480, scan });
    const checksum = createHash('sha256').update(bytes).digest('hex');
    const { client, end } = await open();
    await client.photos.add({
      requestId: randomUUID(),
      act: {
        ...{ kind: 'addPhoto', about: { kind: 'vessel', vesselId }, checksum },
        ...{ widthPx: 640, heightPx: 480, caption: 'à la cave' },
      },
      ...{ happenedAtMs: null, typed: { caption: 'à la cave' } },
      picture: new File([bytes], '../../evil.svg', { type: 'image/svg+xml' }),
      thumbnail: new File([jpeg()], 'small.jpg', { type: 'image/jpeg' }),
    });
    const { picture } = await client.photos.picture({ checksum });
    expect(
      createHash('sha256')
        .update(new Uint8Array(await picture.arrayBuffer()))
        .digest('hex'),
    ).toBe(checksum);
    expect(picture.type).toBe('image/jpeg');
    const [thumb] = await client.photos.thumbnails({ checksums: [checksum] });
    expect(thumb?.thumbnail.size).toBe(jpeg().length);
    end();
  });

  it('that is empty or not a picture is refused by name', async () => {
    const { client, end } = await open();
    for (const [bytes, type] of [
      [new Uint8Array(), 'Empty'],
      [new TextEncoder().encode('<svg onload="alert(1)"/>'), 'NotAJpeg'],
    ] as const) {
      const call = client.photos.add({
        requestId: randomUUID(),
        act: {
          ...{ kind: 'addPhoto', about: { kind: 'vessel', vesselId }, checksum: 'ab'.repeat(32) },
          ...{ widthPx: 4, heightPx: 3, caption: '' },
        },
        ...{ happenedAtMs: null, typed: {} },
        picture: new File([bytes], 'p.jpg', { type: 'image/jpeg' }),
        thumbnail: new File([jpeg()], 'small.jpg'),
      });
      await expect(call).rejects.toMatchObject({ code: 'PICTURE_REFUSED', data: { type } });
    }
    end();
  });
});

describe('the browser host', () => {
  it('cuts off 50 MB with a sentence, and no other call may be as large as a picture', async () => {
    const headers = await entered();
    const send = (path: string, bytes: number) =>
      fetch(`${origin()}${path}`, { method: 'POST', headers, body: new Uint8Array(bytes) });
    const large = await send('/rpc/photos/add', 50 * 1024 * 1024);
    expect(large.status).toBe(413);
    expect(await large.text()).toContain('may not be larger than 3 MB');
    expect(large.headers.get('x-content-type-options')).toBe('nosniff');
    expect((await send('/rpc/ledger/post', 3 * 1024 * 1024)).status).toBe(413);
    expect((await send('/rpc/photos/of', 3 * 1024 * 1024)).status).toBe(413);
  });

  it('takes no picture from a page that is not its own, nor without the cookie', async () => {
    const { cookie = '' } = await entered();
    const send = (headers: Record<string, string>) =>
      fetch(`${origin()}/rpc/photos/add`, { method: 'POST', headers, body: new FormData() });
    expect((await send({ cookie, origin: 'http://127.0.0.1:1' })).status).toBe(403);
    expect((await send({ origin: origin() })).status).toBe(403);
  });
});
