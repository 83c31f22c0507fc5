import { add, negate, rational, rationalOfDecimal, type Rational } from './rational.ts';

/** One way to read the number a text begins with. */
export interface NumberReading {
  readonly value: Rational;
  /** The number as a plain decimal with a point, for offering it back. Fractions keep their fraction. */
  readonly plain: string;
  readonly decimals: number;
  readonly commaWas: 'none' | 'decimal' | 'thousands';
}

export interface NumberText {
  /** One reading, or two when a comma may be a decimal or a thousands mark. Never empty. */
  readonly readings: readonly NumberReading[];
  /** What follows the number, trimmed. */
  readonly rest: string;
}

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '⅓': '1/3',
  '⅔': '2/3',
  '¼': '1/4',
  '¾': '3/4',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/**
 * The same text with one kind of space, minus, apostrophe and digit, so that a number pasted from anywhere reads
 * as if typed. Vulgar fractions become ` 1/2`.
 */
export function plainTyping(text: string): string {
  let plain = '';
  for (const character of text.normalize('NFC'))
    plain += VULGAR[character] ? ` ${VULGAR[character]}` : character;
  return plain
    .normalize('NFKC')
    .replaceAll('\u2044', '/')
    .replaceAll(/[\u2212\u2010-\u2015\uFE63]/gu, '-')
    .replaceAll(/[\u2019\u02BC]/gu, "'")
    .replaceAll(/[\s\u200B\u2060\uFEFF]+/gu, ' ')
    .trim();
}

/**
 * Reads the number at the start of a text already put through {@link plainTyping}: `1.5`, `1,5`, `1 048`, `1'048`,
 * `1,048.5`, `1 1/2`, `3/4`, with an optional sign. Null when the text does not begin with a number or the marks in
 * it fit no way of writing one.
 */
export function readNumber(text: string): NumberText | null {
  const sign = /^[+-] ?/u.exec(text)?.[0] ?? '';
  const unsigned = text.slice(sign.length);
  const body = numberBody(unsigned);
  const afterBody = unsigned.slice(body.length);
  const fraction = /^ ?([0-9]{1,4}) ?\/ ?([0-9]{1,4})(?![0-9.,])/u.exec(afterBody);
  if (fraction && /^[0-9]*$/u.test(body)) return mixedFraction(sign, body, fraction, afterBody);
  const bare = /^\/ ?([0-9]{1,4})(?![0-9.,])/u.exec(afterBody.trimStart());
  if (bare && /^[0-9]{1,4}$/u.test(body)) {
    return fractionReading(sign, '', body, bare[1] ?? '', afterBody.trimStart().slice(bare[0].length));
  }
  if (!/[0-9]/u.test(body)) return null;
  const readings = bodyReadings(body);
  if (readings.length === 0) return null;
  const signed = readings.map((reading) => (sign.startsWith('-') ? negated(reading) : reading));
  return { readings: signed, rest: afterBody.trim() };
}

function mixedFraction(
  sign: string,
  whole: string,
  fraction: RegExpExecArray,
  afterBody: string,
): NumberText | null {
  return fractionReading(
    sign,
    whole,
    fraction[1] ?? '',
    fraction[2] ?? '',
    afterBody.slice(fraction[0].length),
  );
}

function fractionReading(
  sign: string,
  whole: string,
  above: string,
  below: string,
  rest: string,
): NumberText | null {
  if (BigInt(below) === 0n) return null;
  const value = add(rationalOfDecimal(whole || '0'), rational(BigInt(above), BigInt(below)));
  const negative = sign.startsWith('-');
  const plain = `${negative ? '-' : ''}${whole ? `${whole} ` : ''}${above}/${below}`;
  const reading: NumberReading = {
    value: negative ? negate(value) : value,
    plain,
    decimals: 0,
    commaWas: 'none',
  };
  return { readings: [reading], rest: rest.trim() };
}

/** The longest run that may be one number: digits and marks, and a space or apostrophe before a group of three. */
function numberBody(text: string): string {
  let end = 0;
  while (end < text.length) {
    const character = text.charAt(end);
    if (/[0-9.,]/u.test(character)) {
      end += 1;
      continue;
    }
    const groupFollows =
      end > 0 &&
      (character === ' ' || character === "'") &&
      /^[0-9]{3}(?![0-9])(?! ?\/)/u.test(text.slice(end + 1, end + 8)) &&
      /^[0-9]{1,3}(?:[ '][0-9]{3})*$/u.test(text.slice(0, end));
    if (!groupFollows) break;
    end += 4;
  }
  return text.slice(0, end);
}

function bodyReadings(body: string): readonly NumberReading[] {
  const spaced = /[ ']/u.test(body);
  const joined = body.replaceAll(/[ ']/gu, '');
  const points = joined.split('.').length - 1;
  const commas = joined.split(',').length - 1;
  if (points === 0 && commas === 0) return [reading(joined, 'none')];
  if (points > 0 && commas > 0) return bothMarks(joined, spaced);
  const mark = points > 0 ? '.' : ',';
  const count = points + commas;
  if (count > 1)
    return isGrouped(joined, mark) && !spaced ? [reading(withoutMark(joined, mark), 'thousands')] : [];
  const asDecimal = reading(joined.replace(mark, '.'), mark === ',' ? 'decimal' : 'none');
  if (mark === ',' && !spaced && /^[1-9][0-9]{0,2},[0-9]{3}$/u.test(joined)) {
    return [asDecimal, reading(withoutMark(joined, ','), 'thousands')];
  }
  return [asDecimal];
}

/** With both marks the later one is the decimal and the earlier one must part groups of three. */
function bothMarks(joined: string, spaced: boolean): readonly NumberReading[] {
  const decimalMark = joined.lastIndexOf('.') > joined.lastIndexOf(',') ? '.' : ',';
  const groupMark = decimalMark === '.' ? ',' : '.';
  const at = joined.lastIndexOf(decimalMark);
  const whole = joined.slice(0, at);
  if (spaced || whole.includes(decimalMark) || !isGrouped(whole, groupMark)) return [];
  const plain = `${withoutMark(whole, groupMark)}.${joined.slice(at + 1)}`;
  return [reading(plain, decimalMark === ',' ? 'decimal' : 'thousands')];
}

function isGrouped(whole: string, mark: string): boolean {
  const [first = '', ...groups] = whole.split(mark);
  return /^[0-9]{1,3}$/u.test(first) && groups.every((group) => /^[0-9]{3}$/u.test(group));
}

function withoutMark(text: string, mark: string): string {
  return text.split(mark).join('');
}

function reading(plain: string, commaWas: NumberReading['commaWas']): NumberReading {
  const tidy = plain.startsWith('.') ? `0${plain}` : plain.endsWith('.') ? plain.slice(0, -1) : plain;
  const point = tidy.indexOf('.');
  return {
    value: rationalOfDecimal(tidy),
    plain: tidy,
    decimals: point < 0 ? 0 : tidy.length - point - 1,
    commaWas,
  };
}

function negated(of: NumberReading): NumberReading {
  return { ...of, value: negate(of.value), plain: `-${of.plain}` };
}
