import type { ShelfRow } from '#core/contract/shelves.ts';
import type { Fix } from '../words/error-words.ts';
import type { Problem } from './form-reader.ts';

/** What a field asks of the form it stands in: its text as typed, what is amiss with it, and a name to be found by. */
export interface TypedForm {
  fields: Record<string, string>;
  /** Texts kept although they look unlikely, by field. */
  kept: Record<string, string>;
  /** Vessels chosen, by field, as the shelf knows them. */
  readonly rows: Readonly<Record<string, ShelfRow>>;
  readonly labels: Record<string, string>;
  /** The field that was typed in last, for the numeric pad. */
  lastField: string | null;
  /** True while a numeric pad is shown, which then stands in for the keyboard of a touch screen. */
  readonly padShown: boolean;
  /** Set while a line of the book is told anew: what stands where today then says nothing of that day. */
  readonly correcting?: { readonly names: Readonly<Record<string, string>> } | null;
  problemOf(field: string): Problem | null;
  fieldId(field: string): string;
  apply(field: string, fix: Fix): void;
  choose(field: string, row: ShelfRow | null): void;
}
