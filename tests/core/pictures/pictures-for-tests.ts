/** Pictures put together byte by byte, as their standards lay them out; none was taken with a camera. */

const two = (n: number): number[] => [n >> 8, n & 255];
const four = (n: number): number[] => [(n >>> 24) & 255, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];
const letters = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));

/** One marker segment of a JPEG. */
export function segment(marker: number, body: readonly number[]): number[] {
  return [0xff, marker, ...two(body.length + 2), ...body];
}

export interface JpegGiven {
  readonly widthPx?: number;
  readonly heightPx?: number;
  /** Segments between the beginning and the frame. */
  readonly notes?: readonly number[];
  /** Bytes of the scan, stuffed as they would be. */
  readonly scan?: readonly number[];
  readonly after?: readonly number[];
}

/** A JPEG whose parts hold together; what its scan shows is of no account. */
export function jpeg(given: JpegGiven = {}): Uint8Array<ArrayBuffer> {
  const { widthPx = 4, heightPx = 3, notes = [], scan = [0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56] } = given;
  return Uint8Array.from([
    ...[0xff, 0xd8],
    ...segment(0xe0, [...letters('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0]),
    ...notes,
    ...segment(0xdb, [0, ...Array<number>(64).fill(1)]),
    ...segment(0xc0, [8, ...two(heightPx), ...two(widthPx), 1, 1, 0x11, 0]),
    ...segment(0xda, [1, 1, 0, 0, 63, 0]),
    ...scan,
    ...[0xff, 0xd9],
    ...(given.after ?? []),
  ]);
}

/** An Exif segment, where a camera writes when and where a picture was taken. */
export const exif = segment(0xe1, [...letters('Exif\0\0'), ...letters('MM\0*'), 0, 0, 0, 8, 0, 0]);
export const comment = segment(0xfe, letters('<script>alert(1)</script>'));

export function png(widthPx: number, heightPx: number): Uint8Array<ArrayBuffer> {
  return Uint8Array.from([
    ...[0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a],
    ...[0, 0, 0, 13, ...letters('IHDR'), ...four(widthPx), ...four(heightPx), 8, 2, 0, 0, 0, 0, 0, 0, 0],
  ]);
}

export function gif(widthPx: number, heightPx: number): Uint8Array<ArrayBuffer> {
  return Uint8Array.from([
    ...letters('GIF89a'),
    ...[widthPx & 255, widthPx >> 8, heightPx & 255, heightPx >> 8, 0, 0, 0, 0x3b],
  ]);
}

export function webp(chunk: 'VP8 ' | 'VP8L' | 'VP8X', widthPx: number, heightPx: number) {
  const [w, h] = [widthPx - 1, heightPx - 1];
  const packed = w + h * 0x4000;
  const body = {
    'VP8 ': [0, 0, 0, 0x9d, 0x01, 0x2a, widthPx & 255, widthPx >> 8, heightPx & 255, heightPx >> 8],
    VP8L: [0x2f, ...four(packed).reverse()],
    VP8X: [0, 0, 0, 0, w & 255, (w >> 8) & 255, w >> 16, h & 255, (h >> 8) & 255, h >> 16],
  }[chunk];
  const length = four(body.length).reverse();
  return Uint8Array.from([
    ...letters('RIFF'),
    ...four(body.length + 12).reverse(),
    ...letters('WEBP'),
    ...letters(chunk),
    ...length,
    ...body,
  ]);
}

export function avif(...sizes: readonly (readonly [widthPx: number, heightPx: number])[]) {
  return Uint8Array.from([
    ...[0, 0, 0, 24, ...letters('ftypavif'), 0, 0, 0, 0, ...letters('mif1miaf')],
    ...sizes.flatMap(([w, h]) => [0, 0, 0, 20, ...letters('ispe'), 0, 0, 0, 0, ...four(w), ...four(h)]),
  ]);
}

export const bytesOf = (text: string): Uint8Array<ArrayBuffer> => new TextEncoder().encode(text);
