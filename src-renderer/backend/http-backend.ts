import { contract } from '#core/contract/index.ts';
import { ResponseValidationPlugin } from '@orpc/contract/plugins';
import { RPCLink } from '@orpc/client/fetch';
import { LostHostError, type Backend } from './backend.ts';

/** What the loopback host answers, in plain text, to a window it does not know. */
const refusedStatuses = [403, 421];

/**
 * Calls the loopback host this page came from. There is no menu of the host's own.
 *
 * @param origin of the page
 */
export function httpBackend(origin: string, send: typeof fetch = fetch): Backend {
  return {
    link: new RPCLink({
      url: `${origin}/rpc`,
      plugins: [new ResponseValidationPlugin(contract)],
      fetch: async (request, init) => {
        const answer = await send(request, init).catch((error: unknown) => {
          if (request.signal.aborted) throw error;
          throw new LostHostError('The program does not answer.', { cause: error });
        });
        const isOurs = answer.headers.get('content-type')?.startsWith('text/plain') !== true;
        if (refusedStatuses.includes(answer.status) && !isOurs) {
          throw new LostHostError('The program no longer knows this window.');
        }
        return answer;
      },
    }),
    onMenuRequest: () => () => undefined,
  };
}
