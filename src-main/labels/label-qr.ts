import QrCode from 'qrcode';
import { isAlphanumeric } from '#core/labels/label-code.ts';

/**
 * The modules of the code of a text (ISO/IEC 18004) at error correction level Q, row by row, `1` for dark. A text in capitals,
 * digits and a few marks stays in alphanumeric mode, so that up to 16 characters go into version 1.
 */
export function labelQr(text: string): readonly string[] {
  const segments = [
    { data: text, mode: isAlphanumeric(text) ? ('alphanumeric' as const) : ('byte' as const) },
  ];
  const { modules } = QrCode.create(segments as never, { errorCorrectionLevel: 'Q' });
  const side = modules.size;
  return Array.from({ length: side }, (_, row) =>
    Array.from({ length: side }, (__, column) => (modules.get(row, column) ? '1' : '0')).join(''),
  );
}
