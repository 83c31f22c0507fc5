/** How a file was read, to be said where it is not the usual way. */
export interface TextOfFile {
  readonly text: string;
  readonly encoding: 'utf-8' | 'utf-16' | 'windows-1252';
}

/**
 * The text of a file: UTF-8, or UTF-16 where its mark says so. Bytes that are no UTF-8 are read as Windows-1252, which older
 * spreadsheets write, and that is told.
 */
export async function readTextFile(file: Blob): Promise<TextOfFile> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    const text = new TextDecoder(first === 0xff ? 'utf-16le' : 'utf-16be').decode(bytes);
    return { text, encoding: 'utf-16' };
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'utf-8' };
  } catch (error) {
    if (!(error instanceof TypeError)) throw error;
    return { text: new TextDecoder('windows-1252').decode(bytes), encoding: 'windows-1252' };
  }
}
