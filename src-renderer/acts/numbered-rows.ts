import type { ShelfRow } from '#core/contract/shelves.ts';

/** A form of several like rows: row 1 of a split has the fields `parts.1.toVesselId`, `parts.1.volumeUl` and so on. */
export interface RowsForm {
  fields: Record<string, string>;
  kept: Record<string, string>;
  readonly rows: Readonly<Record<string, ShelfRow>>;
  choose(field: string, row: ShelfRow | null): void;
}

/** The name the book itself has for a field of a row, so that a refusal finds its way to it. */
export function partField(row: number, field: string): string {
  return `parts.${row}.${field}`;
}

/** How many rows a form has: what its field `parts` says, within bounds. */
export function partCount(
  fields: Readonly<Record<string, string>>,
  bounds: { readonly low: number; readonly high: number },
): number {
  const said = Number.parseInt(fields['parts'] ?? '', 10);
  return Number.isNaN(said) ? bounds.low : Math.min(bounds.high, Math.max(bounds.low, said));
}

/** Takes a row away: those after it move up, the vessels chosen in them as well. */
export function dropPart(
  form: RowsForm,
  given: {
    readonly row: number;
    readonly count: number;
    readonly vesselField: string;
    readonly texts: readonly string[];
  },
): void {
  const { row, count, vesselField, texts } = given;
  for (let at = row; at < count; at++) {
    const isLast = at === count - 1;
    for (const text of texts) {
      const [here, next] = [partField(at, text), partField(at + 1, text)];
      form.fields[here] = isLast ? '' : (form.fields[next] ?? '');
      form.kept[here] = isLast ? '' : (form.kept[next] ?? '');
    }
    const chosen = isLast ? null : (form.rows[partField(at + 1, vesselField)] ?? null);
    const id = isLast ? '' : (form.fields[partField(at + 1, vesselField)] ?? '');
    form.choose(partField(at, vesselField), chosen);
    // A vessel that is still being looked up is known by its id alone.
    if (chosen === null) form.fields[partField(at, vesselField)] = id;
  }
  form.fields['parts'] = String(count - 1);
}
