export interface LocalDay {
  readonly startMs: number;
  readonly endMs: number;
}

/** The keeper's own calendar day around a moment: from local midnight to the next, 23 to 25 hours. */
export function localDayAround(atMs: number): LocalDay {
  const at = new Date(atMs);
  const startMs = new Date(at.getFullYear(), at.getMonth(), at.getDate()).getTime();
  const endMs = new Date(at.getFullYear(), at.getMonth(), at.getDate() + 1).getTime();
  return { startMs, endMs };
}
