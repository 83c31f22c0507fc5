import { eventIterator, oc } from '@orpc/contract';
import { implement } from '@orpc/server';
import { z } from 'zod';

/** A small contract of its own, so that the host is tested without the cellar behind it. */
export const stubContract = {
  greet: oc
    .input(z.object({ name: z.string() }))
    .output(z.object({ greeting: z.string() }))
    .errors({ NOT_HOME: { status: 422, data: z.object({ name: z.string() }) } }),
  count: oc.output(eventIterator(z.number(), z.string())),
  stumble: oc.output(eventIterator(z.number(), z.string())),
};

const os = implement(stubContract);

/** Counts slowly until told to stop, and notes whether it was. */
export function stubRouter() {
  const seen = { countStopped: false };
  const router = os.router({
    greet: os.greet.handler(({ input, errors }) => {
      if (input.name === 'nobody') throw errors.NOT_HOME({ data: { name: input.name } });
      if (input.name === 'fault') throw new Error('a secret of the inside');
      return { greeting: `Hello ${input.name}` };
    }),
    count: os.count.handler(async function* ({ signal }) {
      try {
        for (let number = 1; number <= 500; number += 1) {
          signal?.throwIfAborted();
          yield number;
          await new Promise((resolve) => setTimeout(resolve, 5));
        }
        return 'done';
      } finally {
        seen.countStopped = true;
      }
    }),
    stumble: os.stumble.handler(async function* () {
      yield await Promise.resolve(1);
      throw new Error('a secret of the inside');
    }),
  });
  return { router, seen };
}
