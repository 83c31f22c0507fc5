import { err, ok, type Result } from '../base/result.ts';
import type { HouseUnits } from './house-units.ts';
import { readNumber, plainTyping, type NumberReading } from './number-text.ts';
import { PLAUSIBLE, PLAUSIBLE_BRIX, isPlausible } from './plausible.ts';
import { suggestionsFor } from './suggest-quantity.ts';
import type {
  QuantityError,
  QuantityKind,
  Reading,
  Suggestion,
  Understood,
  UnderstoodAs,
} from './understood.ts';
import { understand, type Meaning } from './understand.ts';
import { findUnit, knownUnits } from './units.ts';
import { qualifiersOf, withoutLeadingName, type Qualifiers } from './qualifiers.ts';
import { meaningsOf } from './meanings.ts';

/** Nothing a person types as one quantity is longer. Anything longer is refused unread. */
const LONGEST = 80;

/**
 * Reads a quantity as people write it: `1,048`, `1048`, `48 pts`, `12 Bx`, `5,2%`, `52 g/L`, `1½ L`, `1 1/2 gal`,
 * `5 lb 4 oz`, `70F`, with either decimal mark, any kind of space and either minus.
 *
 * Gives the canonical number of the kind (see `Understood`), kept beside the text as typed. Decimals and fractions are
 * converted exactly and rounded once, at the canonical unit. A text that may mean two plausible amounts is
 * `Ambiguous`, never guessed; one outside the range of rule MEAS-09 is `Implausible`, carrying the value understood
 * so that the keeper may keep it anyway. Never throws, whatever the text.
 *
 * @example
 * parseQuantity('gravity', '1,048', METRIC_HOUSE); // value 1.048
 */
export function parseQuantity<K extends QuantityKind>(
  kind: K,
  text: string,
  house: HouseUnits,
): Result<UnderstoodAs<K>, QuantityError<K>> {
  // The one place where the kind of the answer is tied to the kind asked for.
  return parse(kind, text, house) as Result<UnderstoodAs<K>, QuantityError<K>>;
}

function parse(kind: QuantityKind, text: string, house: HouseUnits): Result<Understood, QuantityError> {
  if (text.length > LONGEST) return err({ type: 'TooLong', kind, length: text.length, longest: LONGEST });
  const plain = withoutLeadingName(kind, plainTyping(text));
  if (plain === '') return err({ type: 'Empty', kind });
  const number = readNumber(plain);
  if (number === null) return err({ type: 'NotANumber', kind, text });
  const qualifiers = qualifiersOf(kind, number.rest);
  const compound = compoundAmount(kind, text, number.readings, qualifiers.unitText, house);
  if (compound) return compound;
  const unit = qualifiers.unitText === '' ? null : findUnit(kind, qualifiers.unitText);
  if (unit === null && qualifiers.unitText !== '') {
    return err({ type: 'UnknownUnit', kind, unit: qualifiers.unitText, known: knownUnits(kind) });
  }
  const meanings = number.readings.flatMap((reading) => meaningsOf({ kind, reading, unit, house }));
  const [first] = meanings;
  if (first === undefined) {
    return err({ type: 'UnitMissing', kind, suggestions: unitSuggestions(kind, number.readings, house) });
  }
  return decide(kind, text, meanings, qualifiers);
}

function decide(
  kind: QuantityKind,
  asTyped: string,
  meanings: readonly Meaning[],
  qualifiers: Qualifiers,
): Result<Understood, QuantityError> {
  const all = meanings.map((meaning) => ({ meaning, understood: understand(meaning, asTyped, qualifiers) }));
  const plausible = new Map<number, { readonly meaning: Meaning; readonly understood: Understood }>();
  for (const { meaning, understood } of all) {
    if (understood === null || !isMeaningPlausible(kind, meaning, understood)) continue;
    if (!plausible.has(understood.value)) plausible.set(understood.value, { meaning, understood });
  }
  const [one, another] = [...plausible.values()];
  if (one && !another) return ok(one.understood);
  if (one) {
    const readings: Reading<QuantityKind>[] = [...plausible.values()].map(({ meaning, understood }) => ({
      text: meaningText(meaning),
      understood,
    }));
    return err({ type: 'Ambiguous', kind, readings });
  }
  const [offered] = all;
  if (offered === undefined) throw new Error('A number with a unit always has at least one meaning.');
  const sucroseScale = offered.meaning.unit.scale.by === 'sucroseScale';
  const range = sucroseScale ? PLAUSIBLE_BRIX : PLAUSIBLE[kind];
  return err({
    type: 'Implausible',
    kind,
    understood: offered.understood,
    understoodValue: offered.understood?.value ?? null,
    low: range.low,
    high: range.high,
    unit: range.unit,
    suggestions: suggestionsFor(kind, offered.meaning),
  });
}

function isMeaningPlausible(kind: QuantityKind, meaning: Meaning, understood: Understood): boolean {
  if (meaning.unit.scale.by !== 'sucroseScale') return isPlausible(kind, understood.value);
  const brix = Number(meaning.reading.plain);
  return brix >= PLAUSIBLE_BRIX.low && brix <= PLAUSIBLE_BRIX.high;
}

function meaningText(meaning: Meaning): string {
  return `${meaning.reading.plain} ${meaning.unit.symbol}`;
}

/** `5 lb 4 oz` or `1 gal 2 qt`: two amounts of one kind, the second smaller than one of the first unit. */
function compoundAmount(
  kind: QuantityKind,
  asTyped: string,
  readings: readonly NumberReading[],
  unitText: string,
  house: HouseUnits,
): Result<Understood, QuantityError> | null {
  if (kind !== 'mass' && kind !== 'volume') return null;
  const parts = /^([^0-9]{1,20}?),? ?([0-9].*)$/u.exec(unitText);
  const unit = parts ? findUnit(kind, parts[1] ?? '') : null;
  const [reading, other] = readings;
  if (!parts || !unit || !reading || other) return null;
  const second = parse(kind, parts[2] ?? '', house);
  const first = understand({ kind, reading, unit, assumed: false, notes: [] }, asTyped, NO_QUALIFIERS);
  if (!first || !second.ok) return null;
  const oneOfFirst = understand(
    { kind, reading: ONE, unit, assumed: false, notes: [] },
    asTyped,
    NO_QUALIFIERS,
  );
  if (oneOfFirst && second.value.value >= oneOfFirst.value) return null;
  const value = first.value + second.value.value;
  const notes = [...new Set([...first.notes, ...second.value.notes])];
  const shared = {
    asTyped,
    unitTyped: `${unit.symbol} ${second.value.unitTyped ?? ''}`,
    unitAssumed: false,
    notes,
  };
  const whole: Understood =
    kind === 'mass' ? { kind, value, massUg: value, ...shared } : { kind, value, volumeUl: value, ...shared };
  if (isPlausible(kind, value)) return ok(whole);
  return err({
    type: 'Implausible',
    kind,
    understood: whole,
    understoodValue: value,
    ...PLAUSIBLE[kind],
    suggestions: [],
  });
}

const NO_QUALIFIERS: Qualifiers = { unitText: '', acid: null, saltBasis: null };
const ONE: NumberReading = {
  value: { numerator: 1n, denominator: 1n },
  plain: '1',
  decimals: 0,
  commaWas: 'none',
};

function unitSuggestions(
  kind: QuantityKind,
  readings: readonly NumberReading[],
  house: HouseUnits,
): readonly Suggestion[] {
  const us = house.volume === 'us';
  const units =
    kind === 'mass' ? (us ? ['lb', 'oz', 'kg'] : ['kg', 'g']) : us ? ['gal', 'qt', 'L'] : ['L', 'ml'];
  return readings.flatMap((reading) =>
    units.map((unit): Suggestion => ({ text: `${reading.plain} ${unit}`, why: 'unit' })),
  );
}
