import type { ReckoningField, ReckoningValues } from './reckoning.ts';

/**
 * The fields that are asked while the choices stand as they do: those without `onlyWhen`, and those whose choice is itself asked
 * and holds one of the values named.
 */
export function askedFields(
  fields: readonly ReckoningField[],
  values: ReckoningValues,
): readonly ReckoningField[] {
  return fields.filter((field) => isAsked(field, fields, values));
}

/** What a field holds: what was typed where it is asked, otherwise its own value. Null when that is nothing. */
export function heldBy(
  field: ReckoningField,
  fields: readonly ReckoningField[],
  values: ReckoningValues,
): number | string | null {
  const typed =
    isAsked(field, fields, values) && Object.hasOwn(values, field.name) ? values[field.name] : null;
  return typed ?? field.otherwise;
}

export function isAsked(
  { onlyWhen }: ReckoningField,
  fields: readonly ReckoningField[],
  values: ReckoningValues,
): boolean {
  if (onlyWhen === undefined) return true;
  const by = fields.find(({ name }) => name === onlyWhen.field);
  if (by === undefined || !isAsked(by, fields, values)) return false;
  const held = heldBy(by, fields, values);
  return onlyWhen.is.some((choice) => choice === held);
}
