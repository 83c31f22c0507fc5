import { jpegSize } from './jpeg.ts';
import { pictureKind, text } from './picture-kind.ts';
import type { PixelSize } from './pixel-size.ts';

/**
 * The size a picture says it has, px, read from its head without decoding anything; null when it does not say. It is
 * asked before any decoder is, since a small file may unfold to more pixels than a computer can hold.
 */
export function pictureSize(bytes: Uint8Array): PixelSize | null {
  switch (pictureKind(bytes)) {
    case 'jpeg':
      return jpegSize(bytes);
    case 'png':
      return text(bytes, 12, 4) === 'IHDR' ? sized(big32(bytes, 16), big32(bytes, 20)) : null;
    case 'gif':
      return sized(little(bytes, 6, 2), little(bytes, 8, 2));
    case 'webp':
      return webpSize(bytes);
    case 'avif':
      return avifSize(bytes);
    case null:
      return null;
  }
}

/** RFC 9649: a plain lossy frame, a lossless one, or an extended header that names the canvas. */
function webpSize(bytes: Uint8Array): PixelSize | null {
  switch (text(bytes, 12, 4)) {
    case 'VP8 ':
      return sized(little(bytes, 26, 2) & 0x3fff, little(bytes, 28, 2) & 0x3fff);
    case 'VP8L': {
      const bits = little(bytes, 21, 4);
      return sized((bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1);
    }
    case 'VP8X':
      return sized(little(bytes, 24, 3) + 1, little(bytes, 27, 3) + 1);
    default:
      return null;
  }
}

/** How far into a file its head is looked for. */
const HEAD_BYTES = 64 * 1024;

/** The largest of the sizes (property box `ispe`, ISO/IEC 23008-12 section 6.5.3) that the head names: a tile is smaller than the whole. */
function avifSize(bytes: Uint8Array): PixelSize | null {
  const head = bytes.subarray(0, HEAD_BYTES);
  let largest: PixelSize | null = null;
  for (let at = 4; at + 16 <= head.length; at += 1) {
    if (head[at] !== 0x69 || text(head, at, 4) !== 'ispe') continue;
    const found = sized(big32(head, at + 8), big32(head, at + 12));
    if (found !== null && found.widthPx * found.heightPx > area(largest)) largest = found;
  }
  return largest;
}

function area(size: PixelSize | null): number {
  return size === null ? 0 : size.widthPx * size.heightPx;
}

function sized(widthPx: number, heightPx: number): PixelSize | null {
  return widthPx > 0 && heightPx > 0 ? { widthPx, heightPx } : null;
}

function big32(bytes: Uint8Array, at: number): number {
  return [0, 1, 2, 3].reduce((sum, i) => sum * 256 + (bytes[at + i] ?? 0), 0);
}

function little(bytes: Uint8Array, at: number, length: number): number {
  let sum = 0;
  for (let i = length - 1; i >= 0; i -= 1) sum = sum * 256 + (bytes[at + i] ?? 0);
  return sum >>> 0;
}
