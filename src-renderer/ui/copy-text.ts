/** Puts text on the clipboard; where the page may not, through a selection of its own. False when neither works. */
export async function copyText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return copyBySelection(text);
  }
}

function copyBySelection(text: string): boolean {
  const held = document.activeElement;
  const area = document.createElement('textarea');
  area.value = text;
  area.style.position = 'fixed';
  area.style.opacity = '0';
  document.body.append(area);
  area.select();
  // eslint-disable-next-line @typescript-eslint/no-deprecated -- the only way left where a page may not use the clipboard
  const done = document.execCommand('copy');
  area.remove();
  if (held instanceof HTMLElement) held.focus();
  return done;
}
