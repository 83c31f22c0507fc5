/** The files in what was dropped or pasted; none where only text or a link was. */
export function filesIn(given: DataTransfer | null): readonly File[] {
  return given === null ? [] : [...given.files];
}

/** Whether what hangs over the page holds files: only then is a drop taken. */
export function hasFiles(given: DataTransfer | null): boolean {
  return given?.types.includes('Files') ?? false;
}

/** True where a paste belongs to the text that is being written. */
export function isWriting(target: EventTarget | null): boolean {
  return (
    target instanceof HTMLElement &&
    (target.isContentEditable || ['INPUT', 'TEXTAREA', 'SELECT'].includes(target.tagName))
  );
}
