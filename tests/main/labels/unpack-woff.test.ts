import * as fontkit from 'fontkit';
import type { Font } from 'fontkit';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { unpackWoff } from '#main/labels/unpack-woff.ts';

const require = createRequire(import.meta.url);
const packed = (name: string): Buffer => readFileSync(require.resolve(`@fontsource/${name}`));

describe('a WOFF file, unpacked', () => {
  it.each([
    'archivo/files/archivo-latin-700-normal.woff',
    'noto-sans-arabic/files/noto-sans-arabic-arabic-400-normal.woff',
    'noto-emoji/files/noto-emoji-8-400-normal.woff',
  ])('%s is the same font, and every table has the checksum it was packed with', (name) => {
    const woff = packed(name);
    const font = unpackWoff(woff);
    const [as, plain] = [fontkit.create(woff) as Font, fontkit.create(font) as Font];
    expect(plain.numGlyphs).toBe(as.numGlyphs);
    expect(plain.postscriptName).toBe(as.postscriptName);
    for (let id = 0; id < Math.min(as.numGlyphs, 80); id += 7) {
      expect(plain.getGlyph(id).path.toSVG()).toBe(as.getGlyph(id).path.toSVG());
    }
    const count = font.readUInt16BE(4);
    for (let index = 0; index < count; index += 1) {
      const record = 12 + index * 16;
      const tag = font.toString('latin1', record, record + 4);
      const [checksum, at, length] = [4, 8, 12].map((field) => font.readUInt32BE(record + field)) as [
        number,
        number,
        number,
      ];
      if (tag !== 'head') expect(sum(font.subarray(at, at + Math.ceil(length / 4) * 4)), tag).toBe(checksum);
    }
  });

  it('is refused when it is none', () => {
    expect(() => unpackWoff(Buffer.from('wOF2 and so on, longer than a header'))).toThrow('not a WOFF');
  });
});

/** The sum of a table's 32-bit words (OpenType, table checksums). `head` holds a sum of the whole file and is left out. */
function sum(table: Buffer): number {
  let total = 0;
  for (let at = 0; at < table.length; at += 4) total = (total + table.readUInt32BE(at)) >>> 0;
  return total;
}
