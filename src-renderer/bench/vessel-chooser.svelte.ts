import type { ShelfRow } from '#core/contract/shelves.ts';
import type { Problem } from '../acts/form-reader.ts';
import type { TypedForm } from '../acts/typed-form.ts';

/** The small form in which a vessel is chosen for the bench: one field, and what was chosen in it. */
export class VesselChooser implements TypedForm {
  readonly id = `choose-${crypto.randomUUID().slice(0, 8)}`;
  fields = $state<Record<string, string>>({});
  kept: Record<string, string> = {};
  rows = $state.raw<Readonly<Record<string, ShelfRow>>>({});
  readonly labels = $state<Record<string, string>>({});
  lastField: string | null = null;
  readonly padShown = false;
  /** True once the keeper has pressed on without choosing. */
  tried = $state(false);

  problemOf(field: string): Problem | null {
    if (!this.tried || (this.fields[field] ?? '') !== '') return null;
    return { field, sentence: 'Choose a vessel with something in it.', fixes: [] };
  }

  fieldId(field: string): string {
    return `${this.id}-${field}`;
  }

  apply(): void {
    throw new Error('Nothing is offered to mend a choice.');
  }

  choose(field: string, row: ShelfRow | null): void {
    this.rows = row === null ? {} : { [field]: row };
    this.fields[field] = row?.vesselId ?? '';
  }
}
