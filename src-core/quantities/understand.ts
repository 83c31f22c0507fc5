import { assertNever } from '../base/exhaustive.ts';
import { brixToGravity } from './gravity.ts';
import type { NumberReading } from './number-text.ts';
import type { Qualifiers } from './qualifiers.ts';
import { add, multiply, rational, roundToWhole, toNumber, type Rational } from './rational.ts';
import type { QuantityKind, QuantityNote, Understood } from './understood.ts';
import type { Unit } from './units.ts';

/** A number together with the unit it is taken to have. */
export interface Meaning {
  readonly kind: QuantityKind;
  readonly reading: NumberReading;
  readonly unit: Unit;
  /** True when nobody wrote the unit. */
  readonly assumed: boolean;
  readonly notes: readonly QuantityNote[];
}

/** Whole numbers beyond this are not exact in a double and are refused. */
const LARGEST_WHOLE = 9_000_000_000_000_000n;

/**
 * The canonical value of a meaning, or null when it cannot stand at all: a volume or mass below nothing or beyond
 * 9e15, a sucrose scale outside 0–60 %.
 */
export function understand(meaning: Meaning, asTyped: string, qualifiers: Qualifiers): Understood | null {
  const { kind, unit } = meaning;
  const exact = canonical(meaning.reading.value, unit);
  const shared = {
    asTyped,
    unitTyped: meaning.assumed ? null : unit.symbol,
    unitAssumed: meaning.assumed,
    notes: notesOf(meaning, qualifiers),
  };
  switch (kind) {
    case 'volume': {
      const volumeUl = exact && wholeNumber(exact);
      return volumeUl === null ? null : { kind, value: volumeUl, volumeUl, ...shared };
    }
    case 'mass': {
      const massUg = exact && wholeNumber(exact);
      return massUg === null ? null : { kind, value: massUg, massUg, ...shared };
    }
    case 'gravity': {
      const value = exact ? toNumber(exact) : sucroseScaleGravity(meaning.reading.value);
      return value === null ? null : { kind, value, ...shared };
    }
    case 'acidity':
      return exact && { kind, value: toNumber(exact), acid: qualifiers.acid, ...shared };
    case 'salt':
      return exact && { kind, value: toNumber(exact), basis: qualifiers.saltBasis, ...shared };
    case 'pH':
    case 'temperature':
    case 'freeSulfite':
    case 'alcohol':
      return exact && { kind, value: toNumber(exact), ...shared };
    default:
      return assertNever(kind);
  }
}

/** Null for the one scale that is not a rational function of the number. */
function canonical(value: Rational, unit: Unit): Rational | null {
  switch (unit.scale.by) {
    case 'factor':
      return multiply(value, unit.scale.factor);
    case 'fahrenheit':
      return multiply(add(value, rational(-32n)), rational(5n, 9n));
    case 'kelvin':
      return add(value, rational(-27315n, 100n));
    case 'gravityPoints':
      return add(rational(1n), multiply(value, rational(1n, 1000n)));
    case 'sucroseScale':
      return null;
  }
}

function sucroseScaleGravity(value: Rational): number | null {
  const gravity = brixToGravity(toNumber(value));
  return gravity.ok ? gravity.value : null;
}

function wholeNumber(exact: Rational): number | null {
  if (exact.numerator < 0n) return null;
  const whole = roundToWhole(exact);
  return whole > LARGEST_WHOLE ? null : Number(whole);
}

function notesOf(meaning: Meaning, qualifiers: Qualifiers): readonly QuantityNote[] {
  const notes = new Set<QuantityNote>(meaning.notes);
  const { kind, unit, reading } = meaning;
  if (reading.commaWas === 'decimal') notes.add('commaReadAsDecimal');
  if (reading.commaWas === 'thousands') notes.add('thousandsMarkRead');
  if (unit.usCustomary) notes.add(unit.symbol === 'gal' ? 'usGallonAssumed' : 'usMeasureAssumed');
  if (unit.symbol === '°Bx') notes.add('fromBrix');
  if (unit.symbol === '°P') notes.add('fromPlato');
  if (unit.symbol === 'pts') notes.add('fromPoints');
  if (kind === 'acidity' && unit.symbol === '%') notes.add('percentReadAsGramsPer100Ml');
  if (kind === 'acidity' && qualifiers.acid === null) notes.add('acidNotSaid');
  if (kind === 'salt' && qualifiers.saltBasis === null) notes.add('saltBasisNotSaid');
  return [...notes];
}
