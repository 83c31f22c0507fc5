/** Hands bytes to the window to keep as a file, the way the browser keeps any file: it never writes over another. */
export function saveBytes(name: string, file: Blob): void {
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

/** The bytes of a text in base64. */
export function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) bytes[i] = text.charCodeAt(i);
  return bytes;
}
