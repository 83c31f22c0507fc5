import jsQR from 'jsqr';
import { describe, expect, it } from 'vitest';
import { codeText, Q_CAPACITY, QUIET_MODULES } from '#core/labels/label-code.ts';
import { labelQr } from '#main/labels/label-qr.ts';

/** The modules as a picture, so many dots a module, with the quiet zone, read by another library. */
function readBack(rows: readonly string[]): string | null {
  const dots = 4;
  const side = (rows.length + 2 * QUIET_MODULES) * dots;
  const pixels = new Uint8ClampedArray(side * side * 4).fill(255);
  rows.forEach((row, y) => {
    [...row].forEach((module, x) => {
      if (module !== '1') return;
      for (let dy = 0; dy < dots; dy += 1) {
        for (let dx = 0; dx < dots; dx += 1) {
          const at = ((y + QUIET_MODULES) * dots + dy) * side + (x + QUIET_MODULES) * dots + dx;
          pixels.fill(0, at * 4, at * 4 + 3);
        }
      }
    });
  });
  return jsQR(pixels, side, side)?.data ?? null;
}

describe('the square code (ISO/IEC 18004)', () => {
  // The standard: version 1 has 21 modules a side and each further version four more; at level Q versions 1 to 3 hold
  // 16, 29 and 47 alphanumeric characters. The numbers are from memory of the standard's tables; the library agrees.
  it.each([
    [1, 21],
    [2, 25],
    [3, 29],
  ] as const)('of version %i has %i modules and holds what the standard says at level Q', (version, side) => {
    const most = 'UC:'.padEnd(Q_CAPACITY[version], 'A');
    expect(labelQr(most)).toHaveLength(side);
    expect(labelQr(`${most}A`).length).toBeGreaterThan(side);
  });

  it('has a finder pattern in three corners, and a dark module where every code has one', () => {
    const rows = labelQr('UC:V-7');
    const finder = ['1111111', '1000001', '1011101', '1011101', '1011101', '1000001', '1111111'];
    const corner = (top: number, left: number) =>
      rows.slice(top, top + 7).map((row) => row.slice(left, left + 7));
    expect(corner(0, 0)).toEqual(finder);
    expect(corner(0, 14)).toEqual(finder);
    expect(corner(14, 0)).toEqual(finder);
    // Row 4·version + 9, column 8.
    expect(rows[13]?.[8]).toBe('1');
  });

  it.each(['V-7', 'AV-26-003', 'AV-26-003/57', 'AV-26-0031/123456789', 'PÉ-26-001'])(
    'of %s is read back by another library',
    (id) => {
      expect(readBack(labelQr(codeText(id)))).toBe(`UC:${id}`);
    },
  );

  it('of an id of 13 characters still is of version 1', () => {
    expect(labelQr(codeText('AV-26-0003/57'))).toHaveLength(21);
    expect(labelQr(codeText('AV-26-0003/571'))).toHaveLength(25);
  });
});
