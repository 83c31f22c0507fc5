/**
 * Keys as the keyboard in front of the person names them: `Ctrl+K` on most systems, `⌘K` on a Mac. Parts are joined
 * by `+` in the argument, in the order modifier, modifier, key.
 */
export function sayKeys(keys: string, isMac: boolean = onMac()): string {
  const named = keys.replace('ArrowLeft', '←');
  if (isMac) return named.replace('Ctrl+', '⌘').replace('Shift+', '⇧').replace('Alt+', '⌥');
  return named.replaceAll('+', ' ').replace(/ $/u, '+');
}

/** Whether the page runs on a Mac, where Command stands for Control. */
export function onMac(): boolean {
  return typeof navigator !== 'undefined' && /mac/iu.test(navigator.userAgent);
}
