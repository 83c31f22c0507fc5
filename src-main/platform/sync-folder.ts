import { closeSync, fsyncSync, openSync } from 'node:fs';

/** Brings the names in a folder to the disk. Windows has no such call, and some file systems refuse it. */
export function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : '';
    if (code !== 'EINVAL' && code !== 'ENOTSUP' && code !== 'EPERM') throw error;
  } finally {
    closeSync(handle);
  }
}
