import type { HouseUnits } from '#core/quantities/house-units.ts';
import { formatQuantity, formatWithUncertainty, shownText } from '#core/quantities/format-quantity.ts';
import { gravityToBrix } from '#core/quantities/gravity.ts';
import { roundedText, type SafeSide } from '#core/quantities/round.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';
import type { ReckonedAnswer } from '#core/reckonings/reckoning.ts';

/** A unit an answer can be read in: what turns the answer's own number into it, and how steeply. */
interface ReadingUnit {
  readonly unit: string;
  readonly from: (value: number) => number;
  readonly slopeAt: (value: number) => number;
}

function per(unit: string, factor: number): ReadingUnit {
  return { unit, from: (value) => value * factor, slopeAt: () => factor };
}

/** US measures are exact in millilitres: 1 gal = 231 in³ (NIST SP 811, appendix B). */
const GALLON_UL = 3_785_411.784;
const POUND_UG = 453_592_370;
/** 1 psi in bar (NIST SP 811, appendix B). */
const PSI_PER_BAR = 14.5037738;

/** Units of volume, of a number that counts so many microlitres. */
function volumes(ul: number): readonly ReadingUnit[] {
  return [
    per('L', ul / 1e6),
    per('ml', ul / 1e3),
    per('gal', ul / GALLON_UL),
    per('qt', (4 * ul) / GALLON_UL),
    per('fl oz', (128 * ul) / GALLON_UL),
  ];
}

/** Units of mass, of a number that counts so many micrograms. */
function masses(ug: number): readonly ReadingUnit[] {
  return [per('kg', ug / 1e9), per('g', ug / 1e6), per('lb', ug / POUND_UG), per('oz', (16 * ug) / POUND_UG)];
}

const BY_UNIT: Readonly<Record<string, readonly ReadingUnit[]>> = {
  volume: volumes(1),
  mass: masses(1),
  L: volumes(1e6),
  kg: masses(1e9),
  temperature: [per('°C', 1), { unit: '°F', from: (celsius) => (celsius * 9) / 5 + 32, slopeAt: () => 1.8 }],
  acidity: [per('%', 1), per('g/L', 10)],
  bar: [per('bar', 1), per('kPa', 100), per('psi', PSI_PER_BAR)],
};
const BRIX: ReadingUnit = {
  unit: '°Bx',
  from: brixOf,
  slopeAt: (gravity) => (brixOf(gravity + 1e-4) - brixOf(gravity)) / 1e-4,
};

const KIND_UNITS: Readonly<Record<QuantityKind, string>> = {
  gravity: 'SG',
  acidity: '%',
  pH: 'pH',
  volume: 'L',
  temperature: '°C',
  mass: 'g',
  freeSulfite: 'mg/L',
  alcohol: '% vol',
  salt: '%',
};

function isKind(unit: string): unit is QuantityKind {
  return Object.hasOwn(KIND_UNITS, unit);
}

/** The units an answer can be switched between; one where there is nothing to switch. */
export function unitsFor(answer: ReckonedAnswer): readonly string[] {
  return readingUnits(answer).map(({ unit }) => unit);
}

/** The unit an answer is first shown in: the household's own, and of those the one that keeps three or four digits. */
export function houseUnit(answer: ReckonedAnswer, house: HouseUnits): string {
  const value = biggestOf(answer);
  switch (answer.unit) {
    case 'L':
      return formatQuantity({ kind: 'volume', value: value * 1e6, house }).unit;
    case 'kg':
      return formatQuantity({ kind: 'mass', value: value * 1e9, house }).unit;
    case 'gravity':
      return house.gravity === 'Bx' && unitsFor(answer).includes('°Bx') ? '°Bx' : 'SG';
    default:
      if (isKind(answer.unit)) return formatQuantity({ kind: answer.unit, value, house }).unit;
      return answer.unit;
  }
}

/** An answer written out in one of its units. */
export interface AnswerWritten {
  /** `4.1 ± 0.2 %`, `1.234 ± 0.002`, `about 40 L`; null when only the range says something. */
  readonly text: string | null;
  /** `3.9 to 4.3 L`, outward, so that the range is never told narrower than it is. */
  readonly range: string | null;
}

/**
 * Writes an answer in a unit, its error rounded up and its value rounded away from the safe side. `isExact` is for measures
 * turned into others, of which six digits are told.
 */
export function writeAnswer(answer: ReckonedAnswer, unit: string, isExact = false): AnswerWritten {
  const units = readingUnits(answer);
  const { from, slopeAt } = units.find((one) => one.unit === unit) ?? units[0] ?? per(unit, 1);
  const side: SafeSide = answer.limit ?? 'none';
  const value = from(answer.value);
  const range =
    answer.range === null ? null : sayRange(from(answer.range.low), from(answer.range.high), unit);
  if (answer.uncertainty !== null) {
    const uncertainty = Math.abs(slopeAt(answer.value)) * answer.uncertainty;
    return { text: withError(value, uncertainty, unit, side), range };
  }
  if (answer.range !== null) return { text: null, range };
  return { text: withUnit(isExact ? trimmedTo(value, 6) : plainNumber(value, unit, side), unit), range };
}

/** The answer's value alone, rounded away from the safe side, as it is typed into a field: `1.23 L`. */
export function fieldText(answer: ReckonedAnswer, unit: string): string {
  const units = readingUnits(answer);
  const { from } = units.find((one) => one.unit === unit) ?? units[0] ?? per(unit, 1);
  const side: SafeSide = answer.limit ?? 'none';
  return `${plainNumber(from(answer.value), unit, side).replace('\u2212', '-')} ${unit}`;
}

function readingUnits(answer: ReckonedAnswer): readonly ReadingUnit[] {
  if (answer.unit === 'gravity') {
    const isOnScale = [answer.value, answer.range?.low, answer.range?.high].every(
      (value) => value === undefined || gravityToBrix(value).ok,
    );
    return isOnScale && answer.value >= 1 ? [per('SG', 1), BRIX] : [per('SG', 1)];
  }
  const known = BY_UNIT[answer.unit];
  if (known !== undefined) return known;
  return [per(isKind(answer.unit) ? KIND_UNITS[answer.unit] : answer.unit, 1)];
}

function brixOf(gravity: number): number {
  const brix = gravityToBrix(gravity);
  return brix.ok ? brix.value : Number.NaN;
}

/** An error of ten and more is told in its leading digits too, as a smaller one is: `13000 ± 7000 ppm`. */
function withError(value: number, uncertainty: number, unit: string, side: SafeSide): string {
  if (!(uncertainty >= 10) || !Number.isFinite(uncertainty)) {
    return formatWithUncertainty({ value, uncertainty, unit, side });
  }
  const magnitude = Math.floor(Math.log10(uncertainty));
  const place = 10 ** (uncertainty / 10 ** magnitude < 2 ? magnitude - 1 : magnitude);
  const noughts = '0'.repeat(Math.round(Math.log10(place)));
  const whole = (number: number, of: SafeSide): string => {
    const text = roundedText(number / place, 0, of);
    return text === '0' ? text : text + noughts;
  };
  return withUnit(`${whole(value, side)} ± ${whole(uncertainty, 'upper')}`, unit);
}

function biggestOf({ value, range }: ReckonedAnswer): number {
  return range === null ? value : Math.max(Math.abs(value), Math.abs(range.high));
}

function sayRange(low: number, high: number, unit: string): string {
  const decimals = Math.min(decimalsOf(low, unit), decimalsOf(high, unit));
  let from = roundedText(low, decimals, 'lower');
  let to = roundedText(high, decimals, 'upper');
  for (let left = decimals; left > 0 && from.endsWith('0') && to.endsWith('0'); left -= 1) {
    from = from.slice(0, left === 1 ? -2 : -1);
    to = to.slice(0, left === 1 ? -2 : -1);
  }
  return withUnit(`${from} to ${to}`, unit);
}

function trimmedTo(value: number, digits: number): string {
  const size = Math.abs(value);
  const decimals = size === 0 ? 0 : Math.min(9, Math.max(0, digits - 1 - Math.floor(Math.log10(size))));
  const text = roundedText(value, decimals);
  return decimals > 0 ? text.replace(/\.?0+$/u, '') : text;
}

function plainNumber(value: number, unit: string, side: SafeSide): string {
  const decimals = decimalsOf(value, unit);
  const text = roundedText(value, decimals, side);
  const isScale = unit === 'SG' || unit === 'pH' || unit === '°Bx';
  return decimals > 0 && !isScale ? text.replace(/\.?0+$/u, '') : text;
}

/** Things that come whole, and parts in a million, of which no instrument shows less than one. */
const COUNTED: ReadonlySet<string> = new Set(['bottles', 'vessels', 'ppm']);

/** Three or four digits, or as many decimals as the instrument of the unit can show. */
function decimalsOf(value: number, unit: string): number {
  if (unit === 'SG') return 3;
  if (unit === 'pH') return 2;
  if (unit === '°Bx' || unit === '% vol') return 1;
  if (COUNTED.has(unit)) return 0;
  if (unit === 'ml') return Math.abs(value) < 10 ? 1 : 0;
  const size = Math.abs(value);
  if (size === 0 || size >= 100) return 0;
  if (size >= 10) return 1;
  if (size >= 1) return 2;
  return Math.min(6, 2 - Math.floor(Math.log10(size)));
}

function withUnit(number: string, unit: string): string {
  return shownText({ number, unit });
}
