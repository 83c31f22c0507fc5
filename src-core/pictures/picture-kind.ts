/** Kinds of picture that are taken as a source. Told by their first bytes, never by a file's name or what it calls itself. */
export const PICTURE_KINDS = ['jpeg', 'png', 'webp', 'gif', 'avif'] as const;
export type PictureKind = (typeof PICTURE_KINDS)[number];

/**
 * What kind of picture bytes begin as; null for anything else, text (so also SVG) among it. Signatures after
 * ISO/IEC 10918-1 annex B (JPEG), the W3C PNG specification section 5.2, RFC 9649 (WebP), the GIF89a specification
 * section 17, and ISO/IEC 14496-12 section 4.3 with the AVIF brands of AOM.
 */
export function pictureKind(bytes: Uint8Array): PictureKind | null {
  if (startsWith(bytes, 0, [0xff, 0xd8, 0xff])) return 'jpeg';
  if (startsWith(bytes, 0, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'png';
  if (text(bytes, 0, 4) === 'RIFF' && text(bytes, 8, 4) === 'WEBP') return 'webp';
  if (['GIF87a', 'GIF89a'].includes(text(bytes, 0, 6))) return 'gif';
  if (text(bytes, 4, 4) === 'ftyp' && ['avif', 'avis'].includes(text(bytes, 8, 4))) return 'avif';
  return null;
}

export function startsWith(bytes: Uint8Array, at: number, wanted: readonly number[]): boolean {
  return wanted.every((byte, i) => bytes[at + i] === byte);
}

/** Bytes read as Latin letters; '' beyond the end. */
export function text(bytes: Uint8Array, at: number, length: number): string {
  return at < 0 || at + length > bytes.length ? '' : String.fromCharCode(...bytes.subarray(at, at + length));
}
