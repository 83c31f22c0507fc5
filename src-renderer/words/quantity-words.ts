import { assertNever } from '#core/base/exhaustive.ts';
import { gravityToBrix } from '#core/quantities/gravity.ts';
import { formatQuantity, shownText } from '#core/quantities/format-quantity.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';
import { roundedText } from '#core/quantities/round.ts';
import type {
  Acid,
  QuantityKind,
  QuantityNote,
  Understood,
  UnderstoodGravity,
} from '#core/quantities/understood.ts';

/** What a field or a sentence calls each kind of quantity. */
export const QUANTITY_NAMES: Readonly<Record<QuantityKind, string>> = {
  gravity: 'gravity',
  acidity: 'acidity',
  pH: 'pH',
  volume: 'volume',
  temperature: 'temperature',
  mass: 'mass',
  freeSulfite: 'free SO2',
  alcohol: 'alcohol',
  salt: 'salt',
};

const say = (kind: QuantityKind, value: number, house: HouseUnits): string =>
  shownText(formatQuantity({ kind, value, house }));

/** A specific gravity (20/20) as the household reads it: `1.048`, or `12.0 °Bx`. */
export const sayGravity = (sg: number, house: HouseUnits): string => say('gravity', sg, house);
/** An amount of liquid given in microlitres. */
export const sayVolume = (volumeUl: number, house: HouseUnits): string => say('volume', volumeUl, house);
/** A temperature given in °C. */
export const sayTemperature = (celsius: number, house: HouseUnits): string =>
  say('temperature', celsius, house);
/** A mass given in micrograms. */
export const sayMass = (massUg: number, house: HouseUnits): string => say('mass', massUg, house);
/** A pH with two decimals, and its error where one is given. */
export const sayPh = (ph: number, uncertainty: number | null = null): string =>
  `pH\u00A0${roundedText(ph, 2)}${sayError(uncertainty, 2)}`;
/** An error rounded up, so that it is never told smaller than it is: ` ± 0.3`. Nothing when there is none. */
const sayError = (uncertainty: number | null, decimals: number): string =>
  uncertainty === null
    ? ''
    : `\u00A0±\u00A0${roundedText(Math.ceil(uncertainty * 10 ** decimals - 1e-9) / 10 ** decimals, decimals)}`;
/** Alcohol in per cent by volume. */
export const sayAlcohol = (percentVolume: number): string => `${roundedText(percentVolume, 1)}\u00A0% vol`;
/** Acidity in g/100 mL, rounded down since more of it is the safe side, with its error where one is given, and the acid it is counted as; the name is never dropped. */
export function sayAcidity(
  gramsPer100Ml: number,
  as: Acid | null,
  uncertainty: number | null = null,
): string {
  const number = `${roundedText(gramsPer100Ml, 1, 'lower')}${sayError(uncertainty, 1)}\u00A0%`;
  return as === null ? `${number}, acid not named` : `${number} as ${as}`;
}

/**
 * A volume written so that reading it back gives the very same microlitres, in the household's measures where they
 * allow it and in millilitres where they do not. For putting "all of it" into a field without losing a drop.
 */
export function exactVolumeText(volumeUl: number, house: HouseUnits): string {
  const us = US_MEASURES.filter(({ perUnitUl }) => volumeUl >= perUnitUl - 1)
    .map(({ unit, perUnitUl }) => ({ unit, number: trimmed(volumeUl / perUnitUl, 3) }))
    .filter(({ number }) => number.replace('.', '').length <= 6)
    .map(({ unit, number }) => `${number} ${unit}`);
  for (const text of house.volume === 'us' ? us : []) {
    const read = parseQuantity('volume', text, house);
    if (read.ok && read.value.volumeUl === volumeUl) return text;
  }
  return volumeUl >= 1_000_000
    ? `${trimmed(volumeUl / 1_000_000, 6)} L`
    : `${trimmed(volumeUl / 1_000, 3)} ml`;
}

const US_MEASURES = [
  { unit: 'gal', perUnitUl: 3_785_411.784 },
  { unit: 'qt', perUnitUl: 946_352.946 },
  { unit: 'fl oz', perUnitUl: 29_573.5295625 },
];

/** A value in a field's own unit, with as many decimals as were meant and no noise; for putting back into a field. */
export function trimmed(value: number, decimalsMax: number): string {
  const text = roundedText(value, decimalsMax).replace('\u2212', '-');
  return text.includes('.') ? text.replace(/\.?0+$/u, '') : text;
}

/**
 * What was understood of a text, to be shown under its field while typing: the value in the household's units and
 * whatever was taken for granted. `acid` is the one chosen beside the field, used when the text names none.
 *
 * @example
 * sayUnderstood(mustSucceed(parseQuantity('gravity', '1,048', METRIC_HOUSE)), METRIC_HOUSE);
 * // 'gravity 1.048 SG; the comma is read as a decimal mark'
 */
export function sayUnderstood(understood: Understood, house: HouseUnits, acid: Acid | null = null): string {
  const notes = understood.notes.flatMap((note) => {
    if (note === 'acidNotSaid' && acid !== null) return [];
    const words = NOTE_WORDS[note];
    return words === '' ? [] : [words];
  });
  return [sayValue(understood, house, acid), ...notes].join('; ');
}

/** The value understood alone, in the household's units and with its name where the unit does not tell it. */
export function sayValue(understood: Understood, house: HouseUnits, acid: Acid | null = null): string {
  switch (understood.kind) {
    case 'gravity':
      return gravityText(understood, house);
    case 'acidity': {
      const as = understood.acid ?? acid;
      return `acidity ${atLeast(understood.value, 1, 3)}\u00A0%${as === null ? '' : ` as ${as}`}`;
    }
    case 'pH':
      return `pH\u00A0${atLeast(understood.value, 1, 3)}`;
    case 'volume':
      return volumeText(understood.volumeUl, house);
    case 'temperature':
      return house.temperature === 'C'
        ? `${trimmed(understood.value, 1)}\u00A0°C`
        : `${trimmed((understood.value * 9) / 5 + 32, 1)}\u00A0°F`;
    case 'mass':
      return sayMass(understood.massUg, house);
    case 'freeSulfite':
      return `free SO2 ${trimmed(understood.value, 1)}\u00A0mg/L`;
    case 'alcohol':
      return `alcohol ${atLeast(understood.value, 1, 2)}\u00A0% vol`;
    case 'salt':
      return `salt ${atLeast(understood.value, 1, 2)}\u00A0%${understood.basis === null ? '' : ` of the ${understood.basis}`}`;
    default:
      return assertNever(understood);
  }
}

function gravityText(understood: UnderstoodGravity, house: HouseUnits): string {
  const derived = understood.notes.includes('fromBrix') || understood.notes.includes('fromPlato');
  const sg = `${atLeast(understood.value, 3, derived ? 3 : 4)}\u00A0SG`;
  const brix = gravityToBrix(understood.value);
  return house.gravity === 'Bx' && brix.ok
    ? `gravity ${atLeast(brix.value, 1, 2)}\u00A0°Bx (${sg})`
    : `gravity ${sg}`;
}

/** Up to three decimals, so that what is echoed is what was typed and not a rounding of it. */
function volumeText(volumeUl: number, house: HouseUnits): string {
  if (house.volume === 'us') {
    const shown = formatQuantity({ kind: 'volume', value: volumeUl, house });
    return shownText(shown);
  }
  return volumeUl >= 1_000_000
    ? `${trimmed(volumeUl / 1_000_000, 3)}\u00A0L`
    : `${trimmed(volumeUl / 1_000, 3)}\u00A0ml`;
}

function atLeast(value: number, decimals: number, decimalsMax: number): string {
  const text = roundedText(value, decimalsMax);
  const [whole = text, fraction = ''] = text.split('.');
  return `${whole}.${fraction.replace(/0+$/u, '').padEnd(decimals, '0')}`;
}

const NOTE_WORDS: Readonly<Record<QuantityNote, string>> = {
  usMeasureAssumed: 'US measure',
  usGallonAssumed: 'US gallon of 3.785\u00A0L',
  commaReadAsDecimal: 'the comma is read as a decimal mark',
  thousandsMarkRead: 'the mark is read as parting thousands',
  readAsThousandths: 'read as thousandths',
  fromBrix: 'from °Bx',
  fromPlato: 'from °P',
  fromPoints: 'from points',
  acidNotSaid: 'which acid is not said',
  percentReadAsGramsPer100Ml: '% is grams in 100\u00A0mL',
  saltBasisNotSaid: 'of what is not said',
};
