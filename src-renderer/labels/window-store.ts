const PREFIX = 'undercroft.labels.';

/** What the desk puts by in the window. Without storage it keeps nothing and fails nowhere. */
export function putBy(name: string, value: unknown): void {
  try {
    window.localStorage.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    // Full or shut off: what is chosen still stands in the window itself.
  }
}

export function fetchBack(name: string): string | null {
  try {
    return window.localStorage.getItem(PREFIX + name);
  } catch {
    return null;
  }
}
