/** Hands text to the window to keep as a file, the way the browser keeps any file: it never writes over another. */
export function saveAsFile(name: string, parts: readonly string[], type = 'text/csv'): void {
  const address = URL.createObjectURL(new Blob([...parts], { type: `${type};charset=utf-8` }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser has taken the address over by then.
  setTimeout(() => {
    URL.revokeObjectURL(address);
  }, 60_000);
}
