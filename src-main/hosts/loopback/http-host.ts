import { createAdaptorServer, type ServerType } from '@hono/node-server';
import { RPCHandler } from '@orpc/server/fetch';
import { Hono, type Context } from 'hono';
import { bodyLimit } from 'hono/body-limit';
import { getCookie, setCookie } from 'hono/cookie';
import type { AddressInfo } from 'node:net';
import { KEPT_BYTES_MAX, THUMBNAIL_BYTES_MAX } from '#core/pictures/limits.ts';
import type { Log } from '../../platform/log.ts';
import { faultInterceptor, type CellarRouter } from '../call-faults.ts';
import type { PageFile } from '../page-files.ts';
import { pageHeaders } from '../page-security.ts';
import { newEntryPass, type EntryPass } from './entry-pass.ts';
import { isCall, refusalFor } from './origin-guard.ts';
import { startAgainPage } from './refusal-page.ts';

const address = '127.0.0.1';
const callBytesMax = 2 * 1024 * 1024;
/** The one call that carries pictures: both of them whole, and what is said of them. */
const photoCall = '/rpc/photos/add';
const photoBytesMax = KEPT_BYTES_MAX + THUMBNAIL_BYTES_MAX + 256 * 1024;

/** A sender that dribbles its request is cut off; a real page sends at once. */
const patienceAtFirst: Patience = {
  ...{ headersTimeout: 10_000, requestTimeout: 30_000, connectionsCheckingInterval: 2_000 },
};
const connectionsMax = 200;

/** How long a sender may take, in milliseconds: for the head of a request, for all of it, and how often that is looked at. */
export interface Patience {
  readonly headersTimeout: number;
  readonly requestTimeout: number;
  readonly connectionsCheckingInterval: number;
}

export interface HttpHostParts {
  readonly router: CellarRouter;
  /** The page; a promise where a development server is asked. */
  readonly page: (path: string) => PageFile | undefined | Promise<PageFile | undefined>;
  /** False only while developing, where the page's own server needs scripts of its own. */
  readonly strict: boolean;
  readonly port?: number;
  readonly patience?: Patience;
  readonly log: Log;
}

export interface HttpHost {
  readonly port: number;
  /** A fresh address that opens the program once. */
  entrance(): string;
  /** Stops listening and cuts open connections. */
  close(): Promise<void>;
}

/** The wished port belongs to another program, or may not be used. */
export class PortRefusedError extends Error {
  readonly sentence: string;
  constructor(port: number, code: string) {
    const why = code === 'EACCES' ? 'may not be used by this account' : 'is in use by another program';
    const sentence = `Port ${String(port)} ${why}. Name another with --port, or leave it out and a free one is found.`;
    super(sentence);
    this.sentence = sentence;
  }
}

/**
 * Serves the page and its calls to this computer only.
 *
 * @throws PortRefusedError with a sentence for the person when the port cannot be had
 */
export async function openHttpHost(parts: HttpHostParts): Promise<HttpHost> {
  const pass = newEntryPass();
  const port = { number: 0 };
  const app = buildApp(parts, pass, () => port.number);
  const server = createAdaptorServer({
    fetch: app.fetch,
    serverOptions: { ...(parts.patience ?? patienceAtFirst) },
  });
  server.maxConnections = connectionsMax;
  port.number = await listen(server, parts.port ?? 0);
  return {
    port: port.number,
    entrance: () => `http://${address}:${String(port.number)}/enter?t=${pass.newToken()}`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => {
          resolve();
        });
        if ('closeAllConnections' in server) server.closeAllConnections();
      }),
  };
}

function listen(server: ServerType, wished: number): Promise<number> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const refused = error.code === 'EADDRINUSE' || error.code === 'EACCES';
      reject(refused ? new PortRefusedError(wished, error.code ?? '') : error);
    });
    server.listen(wished, address, () => {
      resolve((server.address() as AddressInfo).port);
    });
  });
}

function buildApp(parts: HttpHostParts, pass: EntryPass, port: () => number): Hono {
  const app = new Hono();
  const calls = new RPCHandler(parts.router, { clientInterceptors: [faultInterceptor(parts.log)] });
  const here = () => `${address}:${String(port())}`;
  const cookieName = () => `undercroft_${String(port())}`;
  const hasSession = (context: Context) => pass.isSession(getCookie(context, cookieName()));

  app.use(async (context, next) => {
    const { req } = context;
    const refusal = refusalFor(
      {
        method: req.method,
        path: req.path,
        // A request may name its target whole; that name then stands above the Host (RFC 9112, section 3.2.2).
        host: new URL(req.url).host === here() ? req.header('host') : undefined,
        origin: req.header('origin'),
        fetchSite: req.header('sec-fetch-site'),
      },
      here(),
    );
    if (refusal === undefined) await next();
    else context.res = context.text(refusal.sentence, refusal.status);
    const fromDevelopmentServer = !parts.strict && context.res.status === 200 && !isCall(req.path);
    for (const [name, value] of Object.entries(pageHeaders)) {
      if (fromDevelopmentServer && name === 'Content-Security-Policy') continue;
      context.res.headers.set(name, value);
    }
  });

  app.get('/enter', (context) => {
    if (!hasSession(context)) {
      if (!pass.useToken(context.req.query('t') ?? '')) return context.html(startAgainPage, 403);
      setCookie(context, cookieName(), pass.session, { httpOnly: true, sameSite: 'Strict', path: '/' });
    }
    return context.redirect('/', 303);
  });

  app.use(async (context, next) => {
    if (hasSession(context)) {
      await next();
      return;
    }
    return isCall(context.req.path)
      ? context.text('This window no longer belongs to a running Undercroft.', 403)
      : context.html(startAgainPage, 403);
  });

  const answerCall = async (context: Context): Promise<Response> => {
    const { matched, response } = await calls.handle(context.req.raw, { prefix: '/rpc', context: {} });
    return matched ? response : context.text('There is no such call.', 404);
  };
  app.post(
    photoCall,
    bodyLimit({
      maxSize: photoBytesMax,
      onError: (context) => context.text('A photo may not be larger than 3 MB once it is made ready.', 413),
    }),
    answerCall,
  );
  app.post(
    '/rpc/*',
    bodyLimit({
      maxSize: callBytesMax,
      onError: (context) => context.text('A call may not be larger than 2 MB.', 413),
    }),
    answerCall,
  );

  app.get('*', async (context) => {
    const file = await parts.page(context.req.path);
    if (file === undefined) return context.text('There is no such page.', 404);
    return context.body(file.bytes, 200, { 'Content-Type': file.contentType });
  });

  app.onError((error, context) => {
    // Who called has gone, or was cut off in the middle of what it sent: nobody is there to be answered.
    if (isGone(context.req.raw, error)) return context.text('This request did not come whole.', 400);
    parts.log.fault('A request failed.', error);
    return context.text('Something in Undercroft failed. Nothing was changed by this request.', 500);
  });
  return app;
}

function isGone({ signal }: Request, error: Error): boolean {
  return signal.aborted || ('code' in error && error.code === 'ECONNRESET');
}
