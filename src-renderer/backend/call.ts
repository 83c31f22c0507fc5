import './no-eval.ts';
import type { Contract } from '#core/contract/index.ts';
import { createORPCClient } from '@orpc/client';
import type { ContractRouterClient } from '@orpc/contract';
import type { Backend } from './backend.ts';
import { httpBackend } from './http-backend.ts';
import { ipcBackend } from './ipc-backend.ts';

declare global {
  interface Window {
    /** Put there by the desktop's preload; a browser window has none. */
    readonly undercroftPipe?: () => void;
  }
}

/** The one place that knows there are two hosts. */
export function chooseBackend(page: Window): Backend {
  return page.undercroftPipe === undefined
    ? httpBackend(page.location.origin)
    : ipcBackend(page.undercroftPipe, page);
}

export const backend = chooseBackend(window);

/**
 * The cellar's methods. Each answer has been parsed by the contract's schema before it is given; an expected failure is
 * thrown as a defined `ORPCError` of the contract, a host that has gone as `LostHostError`.
 */
export const client: ContractRouterClient<Contract> = createORPCClient(backend.link);
