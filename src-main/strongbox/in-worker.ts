import { existsSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Progress } from '#core/contract/cellar.ts';
import type { BackupRefusal } from '#core/contract/strongbox-files.ts';
import { BackupRefused } from './backup-refused.ts';
import type { Tasks } from './tasks.ts';

export interface WorkerAsk {
  readonly task: keyof Tasks;
  readonly input: unknown;
}

export type WorkerWord =
  | { readonly type: 'progress'; readonly progress: Progress }
  | { readonly type: 'done'; readonly done: unknown }
  | { readonly type: 'refused'; readonly refusal: BackupRefusal }
  | { readonly type: 'failed'; readonly error: unknown };

type Input<T extends keyof Tasks> = Parameters<Tasks[T]>[0];
type Done<T extends keyof Tasks> = Awaited<ReturnType<Tasks[T]>>;

/** How long a worker that has nothing to do waits for the next task. */
const IDLE_MS = 20_000;
let idle: Worker | null = null;
let idleUntil: NodeJS.Timeout | null = null;

/**
 * Runs one task in a worker, telling how far it is. Stopped, it ends the worker as soon as SQLite lets go of it, so that
 * whoever asked can throw away what was half done.
 *
 * @throws BackupRefused what the task refused; the reason of the signal when it was stopped; a fault of the task
 */
export async function* inWorker<T extends keyof Tasks>(
  task: T,
  input: Input<T>,
  stop: AbortSignal,
): AsyncGenerator<Progress, Done<T>, void> {
  stop.throwIfAborted();
  const worker = takeWorker();
  const words: WorkerWord[] = [];
  let wake: () => void = () => undefined;
  const hear = (word: WorkerWord): void => {
    words.push(word);
    wake();
  };
  const fail = (error: unknown): void => {
    hear({ type: 'failed', error });
  };
  const end = (): void => {
    fail(new Error(`the worker ended without a word: ${task}`));
  };
  const ring = (): void => {
    wake();
  };
  worker.on('message', hear).on('error', fail).on('exit', end);
  stop.addEventListener('abort', ring);
  let isFree = false;
  try {
    const ask: WorkerAsk = { task, input };
    worker.postMessage(ask);
    for (;;) {
      stop.throwIfAborted();
      const word = words.shift();
      isFree = word?.type === 'done' || word?.type === 'refused';
      if (word?.type === 'progress') yield word.progress;
      else if (word?.type === 'done') return word.done as Done<T>;
      else if (word?.type === 'refused') throw new BackupRefused(word.refusal);
      else if (word?.type === 'failed') throw word.error;
      else
        await new Promise<void>((resolve) => {
          wake = resolve;
        });
    }
  } finally {
    stop.removeEventListener('abort', ring);
    worker.off('message', hear).off('error', fail).off('exit', end);
    if (isFree) rest(worker);
    else await worker.terminate();
  }
}

function takeWorker(): Worker {
  const worker = idle ?? newWorker();
  idle = null;
  if (idleUntil !== null) clearTimeout(idleUntil);
  worker.ref();
  return worker;
}

function newWorker(): Worker {
  const worker = new Worker(workerFile(), { execArgv: [] });
  // One that ends while it rests is not asked again, and takes nothing with it.
  worker
    .on('error', () => undefined)
    .once('exit', () => {
      if (idle === worker) idle = null;
    });
  return worker;
}

/** One worker is kept for a while: most work is of several tasks, and starting one costs more than a small task. */
function rest(worker: Worker): void {
  worker.unref();
  if (idle !== null) {
    void worker.terminate();
    return;
  }
  idle = worker;
  idleUntil = setTimeout(() => {
    if (idle === worker) idle = null;
    void worker.terminate();
  }, IDLE_MS);
  idleUntil.unref();
}

/** Beside this file as a source, beside the entries when built. */
function workerFile(): string {
  const folder = import.meta.dirname;
  if (basename(import.meta.filename).endsWith('.ts')) return join(folder, 'strongbox-worker.ts');
  const beside = join(folder, 'strongbox-worker.js');
  return existsSync(beside) ? beside : join(dirname(folder), 'strongbox-worker.js');
}
