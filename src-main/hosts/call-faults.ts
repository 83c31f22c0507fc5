import { ORPCError, type Router } from '@orpc/server';
import type { Log } from '../platform/log.ts';

/** A router of calls that needs nothing from its host. */
// eslint-disable-next-line @typescript-eslint/no-explicit-any -- the contract's own type stays with the one who calls
export type CellarRouter = Router<any, Record<never, never>>;

/**
 * Writes down what failed in a call without having been expected, at once or at any step of a long one, since the page
 * is told only that something failed. An expected failure, input that does not fit, and work that was stopped are
 * answers and not written.
 */
export function faultInterceptor(log: Log) {
  return async <T>({ next, signal }: Call<T>): Promise<T> => {
    const note = (error: unknown): void => {
      const expected =
        error instanceof ORPCError && (error.defined || error.status < 500 || error.code === 'NOT_WRITTEN');
      const stopped = signal?.aborted === true || (error instanceof Error && error.name === 'AbortError');
      if (!expected && !stopped) log.fault('A call to the cellar failed.', error);
    };
    try {
      const answer = await next();
      return isSteps(answer) ? (watched(answer, note) as T) : answer;
    } catch (error) {
      note(error);
      throw error;
    }
  };
}

interface Call<T> {
  readonly next: () => Promise<T>;
  /** Aborted when whoever called has gone. */
  readonly signal?: AbortSignal | undefined;
}

type Steps = AsyncGenerator<unknown, unknown>;

function isSteps(answer: unknown): answer is Steps {
  return typeof answer === 'object' && answer !== null && Symbol.asyncIterator in answer;
}

async function* watched(steps: Steps, note: (error: unknown) => void): Steps {
  try {
    return yield* steps;
  } catch (error) {
    note(error);
    throw error;
  }
}
