import { acidityFactor } from '#core/acid/acid-equivalents.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { plainTyping, readNumber } from '#core/quantities/number-text.ts';
import { toNumber } from '#core/quantities/rational.ts';
import type { UnderstoodAs, QuantityKind } from '#core/quantities/understood.ts';
import type { ReckoningField } from '#core/reckonings/reckoning.ts';
import { readQuantityField } from '../acts/read-quantity.ts';
import { trimmed } from '../words/quantity-words.ts';

/** What a field of a reckoning holds: its value in the canonical unit, nothing, or a text that is not understood. */
export type FieldReading =
  | { readonly type: 'empty' }
  | { readonly type: 'value'; readonly value: number | string }
  | { readonly type: 'wrong'; readonly sentence: string };

/** Reads the text of a field. `keptText` is a text kept although it looks unlikely. */
export function readField(
  field: ReckoningField,
  text: string,
  keptText: string,
  house: HouseUnits,
): FieldReading {
  switch (field.kind) {
    case 'choice':
      return field.choices.includes(text) ? { type: 'value', value: text } : { type: 'empty' };
    case 'number':
      return readPlainNumber(field, text);
    case 'quantity': {
      const read = readQuantityField({ kind: field.quantity, text, keptText, house });
      if (read.type === 'empty') return read;
      if (read.type === 'wrong') return { type: 'wrong', sentence: read.said.sentence };
      return { type: 'value', value: canonical(read.understood) };
    }
  }
}

/** The value the reckonings take: an acidity said as another acid is counted as acetic. */
export function canonical(understood: UnderstoodAs<QuantityKind>): number {
  if (understood.kind !== 'acidity' || understood.acid === null) return understood.value;
  return understood.value * acidityFactor({ from: understood.acid, to: 'acetic' });
}

type NumberField = Extract<ReckoningField, { kind: 'number' }>;

/** A plain number with either decimal mark and, if the keeper likes, its unit behind it. */
function readPlainNumber(field: NumberField, text: string): FieldReading {
  const plain = plainTyping(text);
  if (plain === '') return { type: 'empty' };
  const read = readNumber(plain);
  const [first, second] = read?.readings ?? [];
  if (read === null || first === undefined) return wrongNumber(field, text);
  const value = toNumber(first.value);
  const rest = tidyUnit(read.rest);
  if (rest !== '' && rest !== tidyUnit(field.unit)) {
    return {
      type: 'wrong',
      sentence:
        field.unit === ''
          ? `“${read.rest.slice(0, 20)}” has no place here. Type the number alone.`
          : `This is counted in ${field.unit}, not in “${read.rest.slice(0, 20)}”. Type the number of ${field.unit}.`,
    };
  }
  if (second === undefined) return { type: 'value', value };
  // A comma that may part thousands is read as a decimal mark where only that fits.
  const inRange = [value, toNumber(second.value)].filter((one) => one >= field.low && one <= field.high);
  const [only, another] = [...new Set(inRange)];
  if (only !== undefined && another === undefined) return { type: 'value', value: only };
  return {
    type: 'wrong',
    sentence: `“${text.trim()}” may be ${trimmed(value, 6)} or ${trimmed(toNumber(second.value), 6)}. Write it with a point, or without the mark.`,
  };
}

function wrongNumber({ unit, low, high }: NumberField, text: string): FieldReading {
  const shown = text.trim().slice(0, 40);
  const span = `${trimmed(low, 6)} to ${trimmed(high, 6)}`;
  const of = unit === '' || unit === '×' ? '' : ` ${unit}`;
  return { type: 'wrong', sentence: `“${shown}” is not read as a number. Type one from ${span}${of}.` };
}

function tidyUnit(unit: string): string {
  return unit
    .toLowerCase()
    .replaceAll(/[\s.·]/gu, '')
    .replace('×', 'x')
    .replace(/^mol\/l$|^n$/u, 'mol/l');
}
