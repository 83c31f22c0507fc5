import { ORPCError } from '@orpc/client';
import { NotWritten } from '#core/contract/ledger.ts';
import { LostHostError } from '../backend/backend.ts';
import { sayNotWritten } from '../words/not-written.ts';

export interface Fault {
  readonly title: string;
  readonly message: string;
  /** A short code for a person to quote, or null when there is none. */
  readonly detail: string | null;
}

/**
 * What has gone wrong with the program itself, as opposed to an act the book refused. It stays in sight until a retry
 * succeeds; nothing that was typed is touched by it.
 */
class Faults {
  current = $state.raw<Fault | null>(null);
  retrying = $state(false);
  #retries = new Set<() => Promise<void>>();

  /** Whatever a retry should do again; returns the way to take it back. */
  onRetry(again: () => Promise<void>): () => void {
    this.#retries.add(again);
    return () => this.#retries.delete(again);
  }

  report(error: unknown): void {
    if (isAbort(error)) return;
    console.warn('Undercroft: a call failed.', error);
    this.current = faultOf(error);
  }

  clear(): void {
    this.current = null;
  }

  async retry(): Promise<void> {
    if (this.retrying) return;
    this.retrying = true;
    try {
      for (const again of this.#retries) await again();
      this.current = null;
    } catch (error) {
      this.report(error);
    } finally {
      this.retrying = false;
    }
  }
}

/** The sentence for a failure nobody expected. */
export function faultOf(error: unknown): Fault {
  if (error instanceof LostHostError || isNetworkFailure(error)) {
    return {
      title: 'Undercroft does not answer.',
      message:
        'The program behind this window has stopped or was closed. What is in the book is safe, and what you have typed stays here. Start Undercroft again if it does not come back.',
      detail: null,
    };
  }
  const disk = notWrittenOf(error);
  if (disk !== null) {
    return { title: 'The cellar was not written.', message: sayNotWritten(disk), detail: disk.detail };
  }
  return {
    title: 'Something in Undercroft went wrong.',
    message:
      'What is in the book is safe, and what you have typed stays here. Try again; if it happens twice, quote the detail.',
    detail: detailOf(error),
  };
}

/** What every method answers when the disk does not take what it writes. */
function notWrittenOf(error: unknown): NotWritten | null {
  if (!(error instanceof ORPCError) || error.code !== 'NOT_WRITTEN') return null;
  const data = NotWritten.safeParse(error.data);
  return data.success ? data.data : null;
}

function detailOf(error: unknown): string {
  const code: unknown = typeof error === 'object' && error !== null ? Reflect.get(error, 'code') : null;
  const words = error instanceof Error ? error.message : String(error);
  return typeof code === 'string' && code !== words ? `${code}: ${words}` : words;
}

/** What fetch throws in Chromium when nobody listens at the address any more. */
function isNetworkFailure(error: unknown): boolean {
  return error instanceof TypeError && /fetch/iu.test(error.message);
}

function isAbort(error: unknown): boolean {
  return typeof error === 'object' && error !== null && Reflect.get(error, 'name') === 'AbortError';
}

export const faults = new Faults();
