import { parentPort } from 'node:worker_threads';
import { BackupRefused } from './backup-refused.ts';
import type { WorkerAsk, WorkerWord } from './in-worker.ts';
import { tasks, type Tell } from './tasks.ts';

// The entry of the worker: does one task after another, each asked for when the one before has ended.

const say = (word: WorkerWord): void => {
  parentPort?.postMessage(word);
};
const tell: Tell = (progress) => {
  say({ type: 'progress', progress });
};

async function run({ task, input }: WorkerAsk): Promise<void> {
  try {
    say({ type: 'done', done: await tasks[task](input as never, tell) });
  } catch (error) {
    if (error instanceof BackupRefused) say({ type: 'refused', refusal: error.refusal });
    else say({ type: 'failed', error });
  }
}

parentPort?.on('message', (ask: WorkerAsk) => void run(ask));
