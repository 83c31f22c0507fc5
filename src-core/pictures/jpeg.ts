import type { PixelSize } from './pixel-size.ts';

/** What a JPEG is made of, as far as can be told without decoding it. */
export interface JpegParts {
  readonly size: PixelSize;
  /** It carries notes beside the picture (Exif, XMP, IPTC, comments): where and when it was taken may stand there. */
  readonly carriesNotes: boolean;
  /** How many bytes it has; what stands after is no part of the picture. */
  readonly endsAt: number;
}

const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const COM = 0xfe;
/** JFIF, a colour profile, and Adobe's word on the colour model speak of colour alone; every other application segment may say more. */
const HARMLESS_NOTES = new Set([0xe0, 0xe2, 0xee]);

/**
 * Walks the segments of a JPEG (ISO/IEC 10918-1 annex B) from its beginning to its end; null when they do not hold
 * together: a length that leads nowhere, no frame, no scan, or no end.
 */
export function jpegParts(bytes: Uint8Array): JpegParts | null {
  if (bytes[0] !== 0xff || bytes[1] !== SOI) return null;
  let at = 2;
  let size: PixelSize | null = null;
  let carriesNotes = false;
  let scanned = false;
  while (at + 1 < bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === EOI) return size === null || !scanned ? null : { size, carriesNotes, endsAt: at + 2 };
    if (marker === SOI || marker === 0x00 || marker === 0x01 || isRestart(marker)) return null;
    const length = two(bytes, at + 2);
    if (length < 2 || at + 2 + length > bytes.length) return null;
    if (isFrame(marker)) size = { heightPx: two(bytes, at + 5), widthPx: two(bytes, at + 7) };
    if (marker === COM || (marker >= 0xe0 && marker <= 0xef && !HARMLESS_NOTES.has(marker))) {
      carriesNotes = true;
    }
    at += 2 + length;
    if (marker === SOS) {
      scanned = true;
      at = afterScan(bytes, at);
    }
  }
  return null;
}

/** The size of a JPEG from its frame header, wherever its later parts lead; null when it has none. */
export function jpegSize(bytes: Uint8Array): PixelSize | null {
  let at = 2;
  while (at + 8 < bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (isFrame(marker)) {
      const [heightPx, widthPx] = [two(bytes, at + 5), two(bytes, at + 7)];
      return heightPx > 0 && widthPx > 0 ? { widthPx, heightPx } : null;
    }
    if (marker === SOS || marker === EOI) return null;
    at += 2 + Math.max(2, two(bytes, at + 2));
  }
  return null;
}

/** Entropy-coded bytes run to the next marker that is neither a stuffed zero nor a restart. */
function afterScan(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at + 1 < bytes.length) {
    const next = bytes[at + 1] ?? 0;
    if (bytes[at] === 0xff && next !== 0x00 && !isRestart(next)) return at;
    at += 1;
  }
  return bytes.length;
}

function isRestart(marker: number): boolean {
  return marker >= 0xd0 && marker <= 0xd7;
}

/** Start of frame, any process; 0xc4, 0xc8 and 0xcc in that range are tables. */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
}

function two(bytes: Uint8Array, at: number): number {
  return (bytes[at] ?? 0) * 256 + (bytes[at + 1] ?? 0);
}
