import { createORPCClient } from '@orpc/client';
import { RPCLink } from '@orpc/client/fetch';
import type { ContractRouterClient } from '@orpc/contract';
import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { resolve } from 'node:path';
import type { Contract } from '#core/contract/index.ts';
import { entranceOf } from '../built-host.ts';

export type CellarClient = ContractRouterClient<Contract>;

/** The built program in a process of its own, which is killed without a word. */
export interface KillableHost {
  /** Enters as a window does, once the program is open. */
  enter(): Promise<CellarClient>;
  /** Kills it, and settles when it is gone. */
  kill(): Promise<void>;
  /** Ends it as Ctrl+C does; gives its exit code. */
  end(): Promise<number | null>;
  said(): string;
}

const PROGRAM = resolve(import.meta.dirname, '../../out/main/serve.js');

export interface HostGiven {
  readonly cellar: string;
  readonly dataFolder: string;
  /** Put before the program, for instance a shell that sets limits. */
  readonly under?: readonly string[];
}

export function startHost({ cellar, dataFolder, under = [] }: HostGiven): KillableHost {
  const [command, ...words] = [...under, process.execPath, PROGRAM, '--ready-line', '--cellar', cellar];
  const child: ChildProcess = spawn(command, words, {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, XDG_DATA_HOME: dataFolder, NODE_NO_WARNINGS: '1' },
  });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream?.on('data', (chunk: Buffer) => (said += chunk.toString()));
  }
  const gone = once(child, 'exit');
  const ready = entranceOf(child);
  ready.catch(() => undefined);
  return {
    enter: async () => enterAt(await ready),
    async kill() {
      child.kill('SIGKILL');
      await gone;
    },
    async end() {
      child.kill('SIGINT');
      await gone;
      return child.exitCode;
    },
    said: () => said,
  };
}

async function enterAt(entrance: string): Promise<CellarClient> {
  const { origin } = new URL(entrance);
  const entered = await fetch(entrance, { redirect: 'manual' });
  const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? '';
  return createORPCClient(new RPCLink({ url: `${origin}/rpc`, headers: { cookie, origin } }));
}

/** Takes a long call to its end. */
export async function toItsEnd<T>(steps: Promise<AsyncIterator<unknown, T>>): Promise<T> {
  const work = await steps;
  for (;;) {
    const step = await work.next();
    if (step.done === true) return step.value;
  }
}
