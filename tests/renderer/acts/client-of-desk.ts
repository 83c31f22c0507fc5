import type { TestDesk } from '../../main/desk-for-tests.ts';

/** The desk that answers what the page asks, in the place of `backend/call.ts`. */
export const served: { desk: TestDesk | null } = { desk: null };

export const client: unknown = new Proxy(
  {},
  { get: (_, capability) => Reflect.get(served.desk?.client ?? {}, capability) as unknown },
);
export const backend = {};
