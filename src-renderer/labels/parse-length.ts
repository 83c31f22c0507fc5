/** Millimetres in an inch, exactly (international inch of 1959). */
const INCH_MM = 25.4;

export type LengthUnit = 'mm' | 'in';

export type ReadLength =
  { readonly ok: true; readonly mm: number } | { readonly ok: false; readonly why: 'empty' | 'notALength' };

/**
 * A length as people write it: `63.5`, `63,5 mm`, `2 5/8 in`, `2⅝"`, `0.5`. Without a unit it is in the one given.
 *
 * @param unit what a bare number is counted in
 * @returns millimetres; never less than 0 unless `signed`
 */
export function parseLength(text: string, unit: LengthUnit, signed = false): ReadLength {
  const plain = unfolded(text).trim();
  if (plain === '') return { ok: false, why: 'empty' };
  const found =
    /^([+-]?)\s*(?:(\d+(?:\.\d+)?)(?:[\s-]+(\d+)\/(\d+))?|(\d+)\/(\d+))\s*(mm|cm|in|inch|inches|")?$/iu.exec(
      plain,
    );
  if (found === null) return { ok: false, why: 'notALength' };
  const [, sign = '', whole, top, bottom, onlyTop, onlyBottom, written] = found;
  const fraction = fractionOf(top ?? onlyTop, bottom ?? onlyBottom);
  if (fraction === null || (sign === '-' && !signed)) return { ok: false, why: 'notALength' };
  const number = (Number(whole ?? 0) + fraction) * (sign === '-' ? -1 : 1);
  return { ok: true, mm: number * mmOf(written?.toLowerCase() ?? unit) };
}

const VULGAR: Readonly<Record<string, string>> = {
  ...{ '½': '1/2', '¼': '1/4', '¾': '3/4', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8' },
  ...{ '⅓': '1/3', '⅔': '2/3' },
};

function unfolded(text: string): string {
  return text
    .replaceAll(/[½¼¾⅛⅜⅝⅞⅓⅔]/gu, (sign) => ` ${VULGAR[sign] ?? ''}`)
    .replaceAll('\u2212', '-')
    .replaceAll('\u00A0', ' ')
    .replaceAll(/[″”]/gu, '"')
    .replace(/(\d),(\d)/u, '$1.$2');
}

function fractionOf(top: string | undefined, bottom: string | undefined): number | null {
  if (top === undefined || bottom === undefined) return 0;
  return Number(bottom) === 0 ? null : Number(top) / Number(bottom);
}

function mmOf(unit: string): number {
  if (unit === 'mm') return 1;
  return unit === 'cm' ? 10 : INCH_MM;
}
