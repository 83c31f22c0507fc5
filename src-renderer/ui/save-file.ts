/** Hands bytes to the window to keep as a file, the way the browser keeps any file: it never writes over another. */
export function saveFile(name: string, file: Blob): void {
  const address = URL.createObjectURL(file);
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
