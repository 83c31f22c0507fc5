import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  CLOSING_BYTES,
  MANIFEST_BYTES_MAX,
  SEAL_OPENING,
  closingLine,
  readClosing,
  readSealedWords,
} from '#core/strongbox/seal.ts';

const closing = { payloadBytes: 4096, manifestBytes: 20, sha256: 'ab'.repeat(32) };
const whole = 4096 + SEAL_OPENING.length + 20 + CLOSING_BYTES;

describe('the closing line of a seal', () => {
  it('is read back as it was written, at every size', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 9e14 }),
        fc.integer({ min: 0, max: MANIFEST_BYTES_MAX }),
        (payloadBytes, manifestBytes) => {
          const written = { ...closing, payloadBytes, manifestBytes };
          const line = closingLine(written);
          expect(line).toHaveLength(CLOSING_BYTES);
          const bytes = payloadBytes + SEAL_OPENING.length + manifestBytes + CLOSING_BYTES;
          expect(readClosing(line, bytes)).toEqual(written);
        },
      ),
    );
  });

  it('is none when any one sign of it is another, or the file is longer or shorter than it says', () => {
    const line = closingLine(closing);
    for (let at = 0; at < line.length; at += 1) {
      const other = `${line.slice(0, at)}${line[at] === '0' ? '1' : '0'}${line.slice(at + 1)}`;
      const read = readClosing(other, whole);
      // In the checksum itself another sign may stand; then it is the wrong checksum.
      if (read !== null) expect(read.sha256).not.toBe(closing.sha256);
    }
    expect(readClosing(line, whole)).toEqual(closing);
    expect(readClosing(line, whole + 1)).toBeNull();
    expect(readClosing(line, whole - 1)).toBeNull();
  });
});

describe('the sealed words', () => {
  it.each([
    ['', { type: 'NotAManifest' }],
    [`${SEAL_OPENING}{`, { type: 'NotAManifest' }],
    [`${SEAL_OPENING}{}`, { type: 'NotAManifest' }],
    ['\nUNDERCROFT BACKUP 2\nanything', { type: 'NewerFormat', format: 2 }],
  ])('%j are refused', (text, error) => {
    expect(readSealedWords(text, 4096)).toEqual({ ok: false, error });
  });
});
