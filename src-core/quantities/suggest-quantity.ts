import { PLAUSIBLE, PLAUSIBLE_BRIX } from './plausible.ts';
import { multiply, rational, toNumber } from './rational.ts';
import type { Meaning } from './understand.ts';
import type { QuantityKind, Suggestion } from './understood.ts';
import { findUnit } from './units.ts';

const MOST_OFFERED = 3;

/**
 * Texts that would have been plausible, for the slips of rule MEAS-09: a decimal point in the wrong place, g/L typed as
 * per cent, °F as °C, thousandths. At most three, the likeliest first.
 */
export function suggestionsFor(kind: QuantityKind, meaning: Meaning): readonly Suggestion[] {
  if (meaning.reading.plain.includes('/')) return [];
  const offers = [
    ...otherUnits(kind, meaning),
    ...gravitySlips(kind, meaning),
    ...decimalSlips(kind, meaning),
  ];
  const seen = new Set<string>();
  return offers.filter(({ text }) => !seen.has(text) && seen.add(text)).slice(0, MOST_OFFERED);
}

function otherUnits(kind: QuantityKind, meaning: Meaning): readonly Suggestion[] {
  const { plain } = meaning.reading;
  const value = toNumber(meaning.reading.value);
  if (
    kind === 'acidity' &&
    meaning.unit.symbol === '%' &&
    value / 10 <= PLAUSIBLE.acidity.high &&
    value > 0
  ) {
    return [{ text: `${plain} g/L`, why: 'gramsPerLitre' }];
  }
  if (kind !== 'temperature') return [];
  const { low, high } = PLAUSIBLE.temperature;
  const fromFahrenheit = ((value - 32) * 5) / 9;
  if (meaning.unit.symbol === '°C' && fromFahrenheit >= low && fromFahrenheit <= high) {
    return [{ text: `${plain} °F`, why: 'fahrenheit' }];
  }
  if (meaning.unit.symbol === '°F' && value >= low && value <= high) {
    return [{ text: `${plain} °C`, why: 'celsius' }];
  }
  return [];
}

/** `1.48` for 1.048 and `0.096` for 0.996: a digit lost beside the point. */
function gravitySlips(kind: QuantityKind, meaning: Meaning): readonly Suggestion[] {
  if (kind !== 'gravity' || meaning.unit.symbol !== 'SG') return [];
  const value = toNumber(meaning.reading.value);
  const guesses = value < 0.1 ? [0.9 + value] : value > 0.9 && value < 3 ? [1 + (value - 1) / 10] : [];
  return guesses
    .map((guess) => Number(guess.toFixed(6)))
    .filter((guess) => guess >= PLAUSIBLE.gravity.low && guess <= PLAUSIBLE.gravity.high)
    .map((guess) => ({ text: threeDecimals(guess), why: 'decimalSlip' }));
}

function decimalSlips(kind: QuantityKind, meaning: Meaning): readonly Suggestion[] {
  const { unit, reading } = meaning;
  const range = unit.scale.by === 'sucroseScale' ? PLAUSIBLE_BRIX : PLAUSIBLE[kind];
  const offers: Suggestion[] = [];
  for (const shift of [-1, 1, -2, 2, -3, 3, -4]) {
    const power = 10n ** BigInt(Math.abs(shift));
    const shifted = multiply(reading.value, shift < 0 ? rational(1n, power) : rational(power));
    const inUnit = toNumber(shifted);
    const canonical = canonicalNumber(kind, meaning, inUnit);
    if (canonical === null || canonical < range.low || canonical > range.high) continue;
    const text =
      unit.symbol === 'SG'
        ? threeDecimals(inUnit)
        : unit.symbol === 'pH'
          ? String(inUnit)
          : `${inUnit} ${unit.symbol}`;
    offers.push({ text, why: 'decimalSlip' });
    break;
  }
  return offers;
}

function canonicalNumber(kind: QuantityKind, meaning: Meaning, inUnit: number): number | null {
  const { scale } = meaning.unit;
  if (scale.by === 'factor') return inUnit * toNumber(scale.factor);
  if (scale.by === 'sucroseScale') return inUnit;
  if (scale.by === 'gravityPoints') return 1 + inUnit / 1000;
  if (scale.by === 'fahrenheit') return ((inUnit - 32) * 5) / 9;
  return findUnit(kind, 'k') ? inUnit - 273.15 : null;
}

function threeDecimals(gravity: number): string {
  const text = String(Number(gravity.toFixed(6)));
  const decimals = text.split('.')[1]?.length ?? 0;
  return decimals < 3 ? gravity.toFixed(3) : text;
}
