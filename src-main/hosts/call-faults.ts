import { ORPCError, type Router } from '@orpc/server';
import type { Log } from '../platform/log.ts';

/** A router of calls that needs nothing from its host. */
// eslint-disable-next-line @typescript-eslint/no-explicit-any -- the contract's own type stays with the one who calls
export type CellarRouter = Router<any, Record<never, never>>;

/**
 * Writes down what failed in a call without having been expected, since the page is told only that something failed.
 * An expected failure, and input that does not fit, is an answer and not written.
 */
export function faultInterceptor(log: Log) {
  return async <T>({ next }: { next: () => Promise<T> }): Promise<T> => {
    try {
      return await next();
    } catch (error) {
      const expected = error instanceof ORPCError && (error.defined || error.status < 500);
      if (!expected) log.fault('A call to the cellar failed.', error);
      throw error;
    }
  };
}
