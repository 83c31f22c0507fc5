import type { HouseUnits } from '#core/quantities/house-units.ts';
import { formatQuantity, shownText } from '#core/quantities/format-quantity.ts';
import type { ReckoningField } from '#core/reckonings/reckoning.ts';
import { trimmed } from '../words/quantity-words.ts';

/** What is taken while a field is empty: `Left empty, 5.0 % is taken.`; '' where nothing is. */
export function sayOtherwise(field: ReckoningField, house: HouseUnits): string {
  const value = otherwiseText(field, house);
  return value === null ? '' : `Left empty, ${value} is taken.`;
}

/** The value an empty field stands for, as the household reads it; null where it stands for none. */
export function otherwiseText(field: ReckoningField, house: HouseUnits): string | null {
  if (field.kind === 'choice' || field.otherwise === null) return null;
  if (field.kind === 'quantity') {
    return shownText(formatQuantity({ kind: field.quantity, value: field.otherwise, house }));
  }
  const unit = field.unit === '1' ? '' : field.unit;
  return shownText({ number: trimmed(field.otherwise, 6), unit }).trim();
}
