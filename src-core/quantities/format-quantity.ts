import { assertNever } from '../base/exhaustive.ts';
import { gravityToBrix } from './gravity.ts';
import type { HouseUnits } from './house-units.ts';
import { roundedText, type SafeSide } from './round.ts';
import type { QuantityKind } from './understood.ts';

/** A number and its unit, apart, so that a table can align the one and head its column with the other. */
export interface Shown {
  readonly number: string;
  readonly unit: string;
}

/**
 * A canonical value (see `Understood`) as the household reads it: SG with three decimals or °Bx with one, acid and
 * alcohol with one, pH with two, °C or °F with one, volumes and masses in the unit that keeps three or four digits.
 * The decimal mark is a point. `side` rounds away from the safe side of a limit. The name of the acid is not part of
 * the text; the caller says it beside the number.
 */
export function formatQuantity(given: {
  readonly kind: QuantityKind;
  readonly value: number;
  readonly house: HouseUnits;
  readonly side?: SafeSide;
}): Shown {
  const { kind, value, house } = given;
  const side = given.side ?? 'none';
  switch (kind) {
    case 'gravity':
      return formatGravity(value, house, side);
    case 'acidity':
      return { number: roundedText(value, 1, side), unit: '%' };
    case 'pH':
      return { number: roundedText(value, 2, side), unit: 'pH' };
    case 'volume':
      return formatVolume(value, house, side);
    case 'temperature':
      return house.temperature === 'C'
        ? { number: roundedText(value, 1, side), unit: '°C' }
        : { number: roundedText((value * 9) / 5 + 32, 1, side), unit: '°F' };
    case 'mass':
      return formatMass(value, house, side);
    case 'freeSulfite':
      return { number: roundedText(value, 0, side), unit: 'mg/L' };
    case 'alcohol':
      return { number: roundedText(value, 1, side), unit: '% vol' };
    case 'salt':
      return { number: roundedText(value, 1, side), unit: '%' };
    default:
      return assertNever(kind);
  }
}

/** The number and its unit in one string with a no-break space; `pH 3.41` puts the name first, SG has none. */
export function shownText(shown: Shown): string {
  if (shown.unit === 'pH') return `pH\u00A0${shown.number}`;
  if (shown.unit === 'SG') return shown.number;
  return `${shown.number}\u00A0${shown.unit}`;
}

/**
 * A value with its uncertainty, as in `4.1 ± 0.2 %`. The uncertainty is rounded up to one significant digit (two when
 * it begins with 1) and the value gets the same decimals, rounded away from the safe side.
 */
export function formatWithUncertainty(given: {
  readonly value: number;
  readonly uncertainty: number;
  readonly unit: string;
  readonly side?: SafeSide;
}): string {
  const { value, uncertainty, unit } = given;
  if (!(uncertainty > 0) || !Number.isFinite(uncertainty)) {
    return shownText({ number: roundedText(value, 3, given.side), unit });
  }
  const magnitude = Math.floor(Math.log10(uncertainty));
  const first = uncertainty / 10 ** magnitude;
  const decimals = Math.max(0, Math.min(6, first < 2 ? 1 - magnitude : -magnitude));
  const number = `${roundedText(value, decimals, given.side)} ± ${roundedText(uncertainty, decimals, 'upper')}`;
  return shownText({ number, unit });
}

function formatGravity(value: number, house: HouseUnits, side: SafeSide): Shown {
  const brix = house.gravity === 'Bx' ? gravityToBrix(value) : null;
  return brix?.ok
    ? { number: roundedText(brix.value, 1, side), unit: '°Bx' }
    : { number: roundedText(value, 3, side), unit: 'SG' };
}

const UL_PER_FL_OZ = 3_785_411.784 / 128;

function formatVolume(volumeUl: number, house: HouseUnits, side: SafeSide): Shown {
  const size = Math.abs(volumeUl);
  if (house.volume === 'us' && size >= UL_PER_FL_OZ) {
    if (size >= 3_785_411) return inUnit(volumeUl / 3_785_411.784, 'gal', side);
    if (size >= 946_352) return inUnit(volumeUl / 946_352.946, 'qt', side);
    return inUnit(volumeUl / UL_PER_FL_OZ, 'fl oz', side);
  }
  return size >= 1_000_000
    ? inUnit(volumeUl / 1_000_000, 'L', side)
    : inUnit(volumeUl / 1_000, 'ml', side, size < 10_000 ? 1 : 0);
}

function formatMass(massUg: number, house: HouseUnits, side: SafeSide): Shown {
  const size = Math.abs(massUg);
  if (house.volume === 'us') {
    if (size >= 453_592_370) return inUnit(massUg / 453_592_370, 'lb', side);
    if (size >= 28_349_523) return inUnit(massUg / 28_349_523.125, 'oz', side);
    return inUnit(massUg / 1_000_000, 'g', side);
  }
  if (size >= 1_000_000_000) return inUnit(massUg / 1_000_000_000, 'kg', side);
  return inUnit(massUg / 1_000_000, 'g', side, size < 10_000_000 ? 2 : size < 100_000_000 ? 1 : 0);
}

function inUnit(number: number, unit: string, side: SafeSide, decimals?: number): Shown {
  const size = Math.abs(number);
  const wanted = decimals ?? (size >= 100 ? 0 : size >= 10 ? 1 : 2);
  const text = roundedText(number, wanted, side);
  return { number: wanted > 0 ? text.replace(/\.?0+$/u, '') : text, unit };
}
