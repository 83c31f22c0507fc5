import { inflateSync } from 'node:zlib';

/** `wOFF`: what a file of this kind begins with (W3C, WOFF File Format 1.0, section 3). */
const SIGNATURE = 0x774f4646;
const HEADER_BYTES = 44;
const ENTRY_BYTES = 20;
const SFNT_HEADER_BYTES = 12;
const RECORD_BYTES = 16;

/**
 * A WOFF file as the plain font it was made from: every table unpacked once, and not at every glyph as the readers of fonts
 * do it. Throws for what is no WOFF 1.0.
 */
export function unpackWoff(woff: Buffer): Buffer {
  if (woff.readUInt32BE(0) !== SIGNATURE) throw new Error('not a WOFF 1.0 file');
  const flavor = woff.readUInt32BE(4);
  const count = woff.readUInt16BE(12);
  const tables = Array.from({ length: count }, (_, index) => {
    const at = HEADER_BYTES + index * ENTRY_BYTES;
    const [offset, packed, whole] = [4, 8, 12].map((field) => woff.readUInt32BE(at + field)) as [
      number,
      number,
      number,
    ];
    const bytes = woff.subarray(offset, offset + packed);
    return {
      tag: woff.readUInt32BE(at),
      checksum: woff.readUInt32BE(at + 16),
      // A table that would not have become smaller lies there as it is.
      bytes: packed === whole ? bytes : inflateSync(bytes),
    };
  });
  let end = SFNT_HEADER_BYTES + count * RECORD_BYTES;
  const places = tables.map(({ bytes }) => {
    const place = end;
    end = padded(place + bytes.length);
    return place;
  });
  const font = Buffer.alloc(end);
  const power = 2 ** Math.floor(Math.log2(count));
  font.writeUInt32BE(flavor, 0);
  [count, power * RECORD_BYTES, Math.log2(power), (count - power) * RECORD_BYTES].forEach((value, index) => {
    font.writeUInt16BE(value, 4 + index * 2);
  });
  tables.forEach(({ tag, checksum, bytes }, index) => {
    const place = places[index] ?? 0;
    [tag, checksum, place, bytes.length].forEach((value, field) => {
      font.writeUInt32BE(value, SFNT_HEADER_BYTES + index * RECORD_BYTES + field * 4);
    });
    bytes.copy(font, place);
  });
  return font;
}

/** Tables begin at multiples of four bytes. */
function padded(length: number): number {
  return Math.ceil(length / 4) * 4;
}
