import type { CheckReport, FileRefusal, Progress } from '#core/contract/cellar.ts';
import { isDefinedError } from '@orpc/client';
import { client } from '../backend/call.ts';
import { faults } from '../cellar/faults.svelte.ts';

export type LongWorkState<Done, Refusal = FileRefusal> =
  | { readonly type: 'idle' }
  | { readonly type: 'running'; readonly progress: Progress | null }
  | { readonly type: 'stopped' }
  | { readonly type: 'done'; readonly done: Done }
  | { readonly type: 'refused'; readonly refusal: Refusal }
  | { readonly type: 'failed' };

export interface CopySaved {
  readonly file: string;
  readonly bytes: number;
}

/** What a streamed call gives: steps of progress, and at its end what came of it. */
type Steps<Done> = AsyncIterator<Progress, Done, unknown>;

/** Work that takes a while: told step by step, and can be stopped with everything left as it was. */
export class LongWork<Input, Done, Refusal = FileRefusal> {
  state = $state.raw<LongWorkState<Done, Refusal>>({ type: 'idle' });
  #stop: AbortController | null = null;
  readonly #begin: (input: Input, signal: AbortSignal) => Promise<Steps<Done>>;

  constructor(begin: (input: Input, signal: AbortSignal) => Promise<Steps<Done>>) {
    this.#begin = begin;
  }

  get running(): boolean {
    return this.state.type === 'running';
  }

  async start(input: Input): Promise<void> {
    if (this.running) return;
    const stop = new AbortController();
    this.#stop = stop;
    this.state = { type: 'running', progress: null };
    try {
      const steps = await this.#begin(input, stop.signal);
      for (;;) {
        const step = await steps.next();
        if (stop.signal.aborted) break;
        if (step.done) {
          this.state = { type: 'done', done: step.value };
          return;
        }
        this.state = { type: 'running', progress: step.value };
      }
      this.state = { type: 'stopped' };
    } catch (error) {
      this.state = stop.signal.aborted ? { type: 'stopped' } : this.#failure(error);
    } finally {
      this.#stop = null;
    }
  }

  stop(): void {
    this.#stop?.abort();
  }

  forget(): void {
    if (!this.running) this.state = { type: 'idle' };
  }

  #failure(error: unknown): LongWorkState<Done, Refusal> {
    const refusal = refusalIn<Refusal>(error);
    if (refusal !== null) return { type: 'refused', refusal };
    faults.report(error);
    return { type: 'failed' };
  }
}

const REFUSED = ['FILE_REFUSED', 'BACKUP_REFUSED', 'REFUSED'];

/** What the host refused, by the contract of the call. */
function refusalIn<Refusal>(error: unknown): Refusal | null {
  if (!(error instanceof Error) || !isDefinedError(error)) return null;
  return REFUSED.includes(String(Reflect.get(error, 'code'))) ? Reflect.get(error, 'data') : null;
}

export const savingCopy = new LongWork<string, CopySaved>((file, signal) =>
  client.cellar.saveCopy({ file }, { signal }),
);
export const checking = new LongWork<undefined, CheckReport>((_none, signal) =>
  client.cellar.check(undefined, { signal }),
);
