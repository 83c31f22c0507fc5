import { describe, expect, it } from 'vitest';
import { corrected, correctionFor } from '#core/labels/calibration.ts';
import { cornerPlaces, rulerMm } from '#core/labels/test-sheet.ts';

const MEASURED = { shiftAcrossMm: 0, shiftDownMm: 0, rulerAcrossMm: 100, rulerDownMm: 100 };

describe('the calibration of a printer', () => {
  it('changes nothing when nothing was measured', () => {
    expect(corrected(correctionFor(null), { xMm: 12, yMm: 34 })).toEqual({ xMm: 12, yMm: 34 });
    expect(corrected(correctionFor(MEASURED), { xMm: 12, yMm: 34 })).toEqual({ xMm: 12, yMm: 34 });
  });

  it('moves the print as asked', () => {
    const moved = correctionFor({ ...MEASURED, shiftAcrossMm: 0.4, shiftDownMm: -0.6 });
    const at = corrected(moved, { xMm: 7.25, yMm: 15.15 });
    expect(at.xMm).toBeCloseTo(7.65);
    expect(at.yMm).toBeCloseTo(14.55);
  });

  it('makes a ruler that came out at 98 mm come out at 100', () => {
    const printerScale = 0.98;
    const correction = correctionFor({ ...MEASURED, rulerAcrossMm: 98 });
    const ends = [10, 110].map((xMm) => corrected(correction, { xMm, yMm: 0 }).xMm * printerScale);
    expect((ends[1] ?? 0) - (ends[0] ?? 0)).toBeCloseTo(100);
  });
});

describe('the test sheet', () => {
  it('has crosses on the labels at the corners', () => {
    expect(cornerPlaces({ columns: 3, rows: 7 })).toEqual([1, 3, 19, 21]);
    expect(cornerPlaces({ columns: 1, rows: 3 })).toEqual([1, 3]);
    expect(cornerPlaces({ columns: 1, rows: 1 })).toEqual([1]);
  });

  it('has a ruler of 100 mm where the paper holds one, else of whole centimetres', () => {
    expect([297, 108, 107, 29, 10].map(rulerMm)).toEqual([100, 100, 90, 20, 0]);
  });
});
