/** Whether a process of this id runs, ours or another's. */
export function isRunning(pid: number): boolean {
  if (!Number.isInteger(pid) || pid <= 0) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // A process of another user answers EPERM: it runs.
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
