import type { HouseUnits } from './house-units.ts';
import type { NumberReading } from './number-text.ts';
import { toNumber } from './rational.ts';
import type { Meaning } from './understand.ts';
import type { QuantityKind } from './understood.ts';
import { findUnit, type Unit } from './units.ts';

/** The numbers that a hydrometer scale can carry, as SG and as thousandths. */
const SG_LOW = 0.9;
const SG_HIGH = 1.3;

/**
 * Everything one reading of a number may mean in a field of this kind, the likeliest first. Empty when a unit must be
 * written: a bare number says nothing as a volume or a mass.
 */
export function meaningsOf(given: {
  readonly kind: QuantityKind;
  readonly reading: NumberReading;
  readonly unit: Unit | null;
  readonly house: HouseUnits;
}): readonly Meaning[] {
  const { kind, reading, unit, house } = given;
  if (unit !== null) return [withUnit(kind, reading, unit)];
  switch (kind) {
    case 'gravity':
      return bareGravity(reading, house);
    case 'acidity':
      return [bare(kind, reading, '%')];
    case 'pH':
      return [bare(kind, reading, 'ph')];
    case 'temperature':
      return [bare(kind, reading, house.temperature)];
    case 'freeSulfite':
      return [bare(kind, reading, 'mg/l')];
    case 'alcohol':
      return [bare(kind, reading, '% vol')];
    case 'salt':
      return [bare(kind, reading, '%')];
    case 'volume':
    case 'mass':
      return [];
  }
}

function withUnit(kind: QuantityKind, reading: NumberReading, unit: Unit): Meaning {
  const value = toNumber(reading.value);
  if (kind === 'gravity' && unit.symbol === 'SG' && isThousandths(value)) {
    return { kind, reading: inThousandths(reading), unit, assumed: false, notes: ['readAsThousandths'] };
  }
  return { kind, reading, unit, assumed: false, notes: [] };
}

function bareGravity(reading: NumberReading, house: HouseUnits): readonly Meaning[] {
  const value = toNumber(reading.value);
  const asGravity = bare('gravity', reading, 'sg');
  const asBrix = bare('gravity', reading, 'bx');
  if (isThousandths(value)) {
    return [{ ...asGravity, reading: inThousandths(reading), notes: ['readAsThousandths'] }];
  }
  if (value >= SG_LOW && value < SG_HIGH) {
    if (house.gravity === 'SG' || reading.decimals >= 3) return [asGravity];
    return reading.decimals === 2 ? [asGravity, asBrix] : [asBrix];
  }
  if (house.gravity === 'Bx') return [asBrix];
  const looksLikeSlip = value < 0.1 || (value >= SG_HIGH && value < 2) || value > 50;
  return looksLikeSlip ? [asGravity] : [asBrix, bare('gravity', reading, 'pts')];
}

function isThousandths(value: number): boolean {
  return value >= SG_LOW * 1000 && value < SG_HIGH * 1000;
}

function inThousandths(reading: NumberReading): NumberReading {
  const { numerator, denominator } = reading.value;
  const value = { numerator, denominator: denominator * 1000n };
  return { ...reading, value, plain: String(toNumber(value)), commaWas: 'none' };
}

function bare(kind: QuantityKind, reading: NumberReading, unitName: string): Meaning {
  const unit = findUnit(kind, unitName);
  if (unit === null) throw new Error(`No unit ${unitName} of ${kind}.`);
  return { kind, reading, unit, assumed: true, notes: [] };
}
