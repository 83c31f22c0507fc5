import { Calibration } from '#core/contract/labels.ts';
import type { LayoutMeasures } from '#core/labels/layout.ts';
import { parseLength } from './parse-length.ts';

/** What was measured on a test sheet, as typed. */
export interface CalibrationFields {
  readonly printer: string;
  readonly shiftAcrossMm: string;
  readonly shiftDownMm: string;
  readonly rulerAcrossMm: string;
  readonly rulerDownMm: string;
}
export type CalibrationField = keyof CalibrationFields;

export const NOTHING_MEASURED: CalibrationFields = {
  ...{ printer: '', shiftAcrossMm: '0', shiftDownMm: '0', rulerAcrossMm: '100', rulerDownMm: '100' },
};

/** Under this a printer shrinks pages and is better told not to. */
export const SHRUNK_MM = 99;
const SHIFT_MOST = 10;
const RULER = [97, 103] as const;

export type BuiltCalibration =
  | { readonly ok: true; readonly calibration: Calibration }
  | { readonly ok: false; readonly problems: Readonly<Partial<Record<CalibrationField, string>>> };

/** Reads what was typed, in millimetres unless another unit is written; each problem says how to mend it. */
export function buildCalibration(
  fields: CalibrationFields,
  paper: LayoutMeasures['paper'],
): BuiltCalibration {
  const problems: Partial<Record<CalibrationField, string>> = {};
  const printer = fields.printer.trim();
  if (printer === '') problems.printer = 'Name the printer, in any words you know it by.';
  else if (printer.length > 60) problems.printer = 'At most 60 characters.';

  const read = (
    field: Exclude<CalibrationField, 'printer'>,
    low: number,
    high: number,
    why: string,
  ): number => {
    const length = parseLength(fields[field], 'mm', true);
    if (length.ok && length.mm >= low && length.mm <= high) return Math.round(length.mm * 100) / 100;
    problems[field] = why;
    return 0;
  };
  const shift = 'Type millimetres from −10 to 10, such as 0.4 or −0.6.';
  const ruler = `Type millimetres from ${String(RULER[0])} to ${String(RULER[1])}. Further off, the printer does not print at actual size: mend that in its print sheet.`;
  const measured = {
    shiftAcrossMm: read('shiftAcrossMm', -SHIFT_MOST, SHIFT_MOST, shift),
    shiftDownMm: read('shiftDownMm', -SHIFT_MOST, SHIFT_MOST, shift),
    rulerAcrossMm: read('rulerAcrossMm', RULER[0], RULER[1], ruler),
    rulerDownMm: read('rulerDownMm', RULER[0], RULER[1], ruler),
  };
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  const calibration = Calibration.safeParse({ printer, paper, ...measured });
  return calibration.success
    ? { ok: true, calibration: calibration.data }
    : { ok: false, problems: { printer: 'This name cannot be kept.' } };
}

/** What is kept of a printer, as a form shows it. */
export function fieldsOfCalibration(kept: Calibration): CalibrationFields {
  const text = (mm: number): string => String(mm).replace('-', '\u2212');
  return {
    printer: kept.printer,
    ...{ shiftAcrossMm: text(kept.shiftAcrossMm), shiftDownMm: text(kept.shiftDownMm) },
    ...{ rulerAcrossMm: text(kept.rulerAcrossMm), rulerDownMm: text(kept.rulerDownMm) },
  };
}

/** True when the ruler as typed came out so short that the printer must be shrinking pages. */
export function shrinks(fields: CalibrationFields): boolean {
  return [fields.rulerAcrossMm, fields.rulerDownMm].some((text) => {
    const length = parseLength(text, 'mm');
    return length.ok && length.mm > 0 && length.mm < SHRUNK_MM;
  });
}
