import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jpegParts } from '#core/pictures/jpeg.ts';
import { checkKept } from '#core/pictures/kept-check.ts';
import { SOURCE_BYTES_MAX } from '#core/pictures/limits.ts';
import { pictureKind } from '#core/pictures/picture-kind.ts';
import { pictureSize } from '#core/pictures/picture-size.ts';
import { fitted } from '#core/pictures/pixel-size.ts';
import { checkSource } from '#core/pictures/source-check.ts';
import { avif, bytesOf, comment, exif, gif, jpeg, png, segment, webp } from './pictures-for-tests.ts';

const KEPT = { bytesMax: 3000, sidePxMax: 2048 };

/** The smallest GIF, 1 by 1 px, as it has been written down everywhere for decades; from memory. */
const SPACER = Uint8Array.from(atob('R0lGODlhAQABAIAAAAAAAP///yH5BAEAAAAALAAAAAABAAEAAAIBRAA7'), (letter) =>
  letter.charCodeAt(0),
);

describe('what a file is', () => {
  it.each([
    ['jpeg', jpeg({ widthPx: 640, heightPx: 480 }), 640, 480],
    ['png', png(800, 600), 800, 600],
    ['gif', gif(320, 200), 320, 200],
    ['gif', SPACER, 1, 1],
    ['webp', webp('VP8 ', 1024, 768), 1024, 768],
    ['webp', webp('VP8L', 16_383, 2), 16_383, 2],
    ['webp', webp('VP8X', 70_000, 3), 70_000, 3],
    ['avif', avif([64, 64], [4032, 3024]), 4032, 3024],
  ])('%s is told by its bytes, and so is its size', (kind, bytes, widthPx, heightPx) => {
    expect(pictureKind(bytes)).toBe(kind);
    expect(pictureSize(bytes)).toEqual({ widthPx, heightPx });
    expect(checkSource(bytes).ok).toBe(widthPx <= 16_000);
  });

  it.each([
    ['a drawing with a script', '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'],
    ['a page that calls itself a picture', '<!doctype html><img src="x.jpg">'],
    ['a document', '%PDF-1.7'],
    ['a program', 'MZ\u0090\0'],
    ['a film that is no picture', '\0\0\0 ftypmp42'],
    ['letters', 'JPEG'],
  ])('%s is no picture', (_what, text) => {
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    expect(checkSource(bytes)).toEqual({ ok: false, error: { type: 'NotAPicture' } });
  });

  it('nothing, too much, a head without a size, and too many pixels are refused before anything is decoded', () => {
    expect(checkSource(new Uint8Array())).toMatchObject({ error: { type: 'Empty' } });
    const large = new Uint8Array(SOURCE_BYTES_MAX + 1);
    expect(checkSource(large)).toMatchObject({ error: { type: 'TooLarge', bytes: large.length } });
    expect(checkSource(jpeg().subarray(0, 30))).toMatchObject({
      error: { type: 'Unreadable', kind: 'jpeg' },
    });
    expect(checkSource(png(0, 5))).toMatchObject({ error: { type: 'Unreadable' } });
    expect(checkSource(png(100_000, 100_000))).toMatchObject({ error: { type: 'TooManyPixels' } });
    expect(checkSource(png(9000, 9000))).toMatchObject({ error: { type: 'TooManyPixels', widthPx: 9000 } });
    expect(checkSource(png(16_001, 1))).toMatchObject({ error: { type: 'TooManyPixels' } });
    expect(checkSource(png(16_000, 3750)).ok).toBe(true);
  });

  it('any bytes at all are answered, never thrown at', () => {
    const heads = [jpeg(), png(4, 4), gif(4, 4), webp('VP8L', 4, 4), avif([4, 4])];
    fc.assert(
      fc.property(
        fc.constantFrom(new Uint8Array(), ...heads),
        fc.nat(40),
        fc.uint8Array({ maxLength: 400 }),
        (head, cut, tail) => {
          const bytes = Uint8Array.from([...head.subarray(0, cut), ...tail]);
          const source = checkSource(bytes);
          const kept = checkKept(bytes, KEPT);
          expect([source.ok, kept.ok].every((is) => typeof is === 'boolean')).toBe(true);
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('what may be kept', () => {
  it('is a whole JPEG and nothing else', () => {
    expect(checkKept(jpeg({ widthPx: 640, heightPx: 480 }), KEPT)).toEqual({
      ...{ ok: true, value: { widthPx: 640, heightPx: 480 } },
    });
  });

  it.each([
    ['nothing', new Uint8Array(), 'Empty'],
    ['more bytes than a picture may have', jpeg({ scan: Array<number>(4000).fill(1) }), 'TooLarge'],
    ['another kind of picture', png(4, 4), 'NotAJpeg'],
    ['a drawing with a script', bytesOf('<svg onload="alert(1)"/>'), 'NotAJpeg'],
    ['a page behind the picture', jpeg({ after: [...bytesOf('<html><script>1</script>')] }), 'Damaged'],
    ['an archive behind the picture', jpeg({ after: [0x50, 0x4b, 3, 4] }), 'Damaged'],
    ['a second picture behind the first', jpeg({ after: [...jpeg()] }), 'Damaged'],
    ['a picture cut off in its scan', jpeg().subarray(0, -3), 'Damaged'],
    ['a picture without a scan', Uint8Array.from([0xff, 0xd8, 0xff, 0xd9]), 'Damaged'],
    [
      'a segment that leads past the end',
      Uint8Array.from([0xff, 0xd8, 0xff, 0xe0, 0xff, 0xff, 1]),
      'Damaged',
    ],
    ['a frame of no size', jpeg({ widthPx: 0 }), 'Damaged'],
    ['where it was taken', jpeg({ notes: exif }), 'CarriesNotes'],
    ['a comment with a script', jpeg({ notes: comment }), 'CarriesNotes'],
    ['an application segment nobody knows', jpeg({ notes: segment(0xed, [1, 2, 3]) }), 'CarriesNotes'],
    ['more pixels than are kept', jpeg({ widthPx: 2049 }), 'TooManyPixels'],
  ])('not %s', (_what, bytes, type) => {
    expect(checkKept(bytes, KEPT)).toMatchObject({ ok: false, error: { type } });
  });

  it('a colour profile and fill bytes are no notes', () => {
    const notes = [...segment(0xe2, [1, 2, 3]), 0xff, 0xff, ...segment(0xee, [0]).slice(1)];
    expect(checkKept(jpeg({ notes }), KEPT).ok).toBe(true);
  });

  it('marks in the scan that are data or restarts do not end it', () => {
    const scan = [1, 0xff, 0x00, 2, 0xff, 0xd7, 3];
    const bytes = jpeg({ scan });
    expect(jpegParts(bytes)).toMatchObject({ endsAt: bytes.length, carriesNotes: false });
  });
});

describe('fitting a picture', () => {
  it('keeps its shape and never makes it larger', () => {
    expect(fitted({ widthPx: 4032, heightPx: 3024 }, 2048)).toEqual({ widthPx: 2048, heightPx: 1536 });
    expect(fitted({ widthPx: 3024, heightPx: 4032 }, 320)).toEqual({ widthPx: 240, heightPx: 320 });
    expect(fitted({ widthPx: 200, heightPx: 100 }, 320)).toEqual({ widthPx: 200, heightPx: 100 });
    expect(fitted({ widthPx: 16_000, heightPx: 1 }, 320)).toEqual({ widthPx: 320, heightPx: 1 });
  });
});
