import { dialog, type BrowserWindow } from 'electron';
import type { Progress } from '#core/contract/cellar.ts';
import type { Log } from '../../platform/log.ts';

/**
 * Lets a window wait with its closing for the backup, where one is wished: a sheet says so and offers to skip it, the task
 * bar shows how far it is, and the window closes when it is done, failed or skipped.
 */
export function backUpOnClosing(
  window: BrowserWindow,
  backUp: (signal: AbortSignal) => AsyncGenerator<Progress, unknown, void> | null,
  log: Log,
): void {
  let begun = false;
  window.on('close', (event) => {
    // A second press of the cross, while the sheet is there, closes at once.
    if (begun) return;
    const skipped = new AbortController();
    const work = backUp(skipped.signal);
    if (work === null) return;
    begun = true;
    event.preventDefault();
    void finish(window, work, skipped, log).finally(() => {
      if (!window.isDestroyed()) window.destroy();
    });
  });
}

async function finish(
  window: BrowserWindow,
  work: AsyncGenerator<Progress, unknown, void>,
  skipped: AbortController,
  log: Log,
): Promise<void> {
  const sheet = new AbortController();
  const asked = dialog.showMessageBox(window, {
    ...{ type: 'info', title: 'Undercroft', message: 'Backing up before closing…' },
    ...{ detail: 'The cellar itself is saved already.', buttons: ['Skip and close'], signal: sheet.signal },
  });
  void asked.then(() => {
    if (!sheet.signal.aborted) skipped.abort();
  });
  try {
    for (;;) {
      const step = await work.next();
      if (step.done === true) return;
      if (!window.isDestroyed()) window.setProgressBar(step.value.done / Math.max(1, step.value.total));
    }
  } catch (error) {
    if (!skipped.signal.aborted)
      log.fault('The backup on closing was not made; the cellar itself is saved.', error);
  } finally {
    sheet.abort();
  }
}
