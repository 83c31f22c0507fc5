/**
 * Keys as the keyboard in front of the person names them: `Ctrl+K` on most systems, `⌘K` on a Mac. Parts are joined
 * by `+` in the argument, in the order modifier, modifier, key.
 */
export function sayKeys(keys: string, isMac: boolean = onMac()): string {
  if (!isMac) return keys.replaceAll('+', ' ').replace(/ $/u, '+');
  return keys.replace('Ctrl+', '⌘').replace('Shift+', '⇧').replace('Alt+', '⌥');
}

/** Whether the page runs on a Mac, where Command stands for Control. */
export function onMac(): boolean {
  return typeof navigator !== 'undefined' && /mac/iu.test(navigator.userAgent);
}
