import type { ShelfRow } from '#core/contract/shelves.ts';
import { askedFields, isAsked } from '#core/reckonings/asked-fields.ts';
import type {
  Reckoned,
  Reckoning,
  ReckoningError,
  ReckoningField,
  ReckoningValues,
} from '#core/reckonings/reckoning.ts';
import type { Result } from '#core/base/result.ts';
import type { Problem } from '../acts/form-reader.ts';
import type { TypedForm } from '../acts/typed-form.ts';
import { cellar } from '../cellar/cellar-state.svelte.ts';
import { draftFor, type Draft } from '../shell/drafts.ts';
import type { Fix } from '../words/error-words.ts';
import { sayReckoningError } from '../words/reckoning-words.ts';
import { readField } from './read-field.ts';

/** What comes out of the fields as they stand. */
export type Outcome =
  | { readonly type: 'reckoned'; readonly reckoned: Reckoned; readonly values: ReckoningValues }
  /** Fields that still have to be filled in. */
  | { readonly type: 'missing'; readonly fields: readonly string[] }
  /** Fields whose text is not understood, or lies where nothing can be worked out. */
  | { readonly type: 'mend'; readonly fields: readonly string[] }
  /** Everything is understood, and yet no number can be given. */
  | { readonly type: 'impossible'; readonly sentence: string };

/**
 * One reckoning as it lies on the bench: every field as text, kept as a draft, and worked out anew with every change.
 * Nothing is written anywhere by it.
 */
export class BenchForm implements TypedForm {
  /** The same in every sitting, so that going back finds the field one stood in. */
  readonly id: string;
  readonly reckoning: Reckoning;
  fields = $state<Record<string, string>>({});
  kept = $state<Record<string, string>>({});
  readonly rows: Readonly<Record<string, ShelfRow>> = {};
  readonly labels = $state<Record<string, string>>({});
  lastField = $state<string | null>(null);
  readonly padShown = false;
  /** The unit in which each answer is read, where the keeper has chosen one. */
  units = $state<Record<string, string>>({});
  /** The fields as they were when the keeper last paused: what is half typed is not called wrong. */
  settled = $state('');

  readonly #draft: Draft<Record<string, string>>;
  readonly #atFirst: Readonly<Record<string, string>>;
  /** What a vessel has laid into the fields. */
  #laid = $state.raw<Readonly<Record<string, string>>>({});

  outcome = $derived.by((): Outcome => this.#work());

  /** Begins with what is usual, or with what was typed in an earlier sitting. */
  constructor(reckoning: Reckoning, draftKey: string) {
    this.reckoning = reckoning;
    this.id = `bench-${reckoning.id}`;
    this.#atFirst = Object.fromEntries(
      reckoning.fields.map((field) => [field.name, field.kind === 'choice' ? field.otherwise : '']),
    );
    this.#draft = draftFor(draftKey);
    this.fields = { ...this.#atFirst, ...definedTexts(this.#draft.read(), reckoning) };
  }

  /** Whether a field is asked for with the choices as they stand. */
  asks(field: ReckoningField): boolean {
    return isAsked(field, this.reckoning.fields, this.fields);
  }

  problemOf(name: string): Problem | null {
    const error = this.#outside;
    if (error === null || error.field !== name || this.settled !== JSON.stringify(this.fields)) return null;
    return { field: name, sentence: sayReckoningError(this.reckoning, error), fixes: [] };
  }

  fieldId(name: string): string {
    return `${this.id}-${name.replaceAll(/[^A-Za-z0-9]/gu, '-')}`;
  }

  apply(name: string, fix: Fix): void {
    if (fix.how === 'keep') this.kept[name] = fix.text;
    else this.fields[name] = fix.text;
  }

  /** No field of a reckoning is a vessel. */
  choose(): void {
    throw new Error('A reckoning has no vessel among its fields.');
  }

  /** Lays a whole sheet into the fields; what is not on it is as at first. */
  lay(texts: Readonly<Record<string, string>>): void {
    this.kept = {};
    this.fields = { ...this.#atFirst, ...definedTexts(texts, this.reckoning) };
  }

  /** Lays in what a vessel tells; a field the keeper has changed stays as changed. */
  fill(texts: Readonly<Record<string, string>>): void {
    const before = this.#beginning();
    this.#laid = texts;
    const now = this.#beginning();
    for (const { name } of this.reckoning.fields) {
      if (this.fields[name] !== before[name]) continue;
      this.fields[name] = now[name] ?? '';
    }
    // What the book has taken once is not asked about again.
    for (const [name, text] of Object.entries(texts)) this.kept[name] ??= text;
  }

  /** Puts one field back to what the vessel tells. */
  putBack(name: string): void {
    this.fields[name] = this.#beginning()[name] ?? '';
  }

  startAfresh(): void {
    this.kept = { ...this.#laid };
    this.fields = { ...this.#beginning() };
    this.units = {};
  }

  /** True while nothing was typed: everything is as usual, or as the vessel tells. */
  isUntouched(): boolean {
    const beginning = this.#beginning();
    return Object.entries(this.fields).every(([name, text]) => text === (beginning[name] ?? ''));
  }

  /** Keeps what is typed; called with every change, so that a reload loses nothing. */
  keepDraft(): void {
    const beginning = this.#beginning();
    const typed = Object.entries($state.snapshot(this.fields)).filter(
      ([name, text]) => text !== (beginning[name] ?? ''),
    );
    if (typed.length === 0) this.#draft.forget();
    else this.#draft.keep(Object.fromEntries(typed));
  }

  #beginning(): Readonly<Record<string, string>> {
    return { ...this.#atFirst, ...this.#laid };
  }

  readonly #result = $derived.by((): Result<Reckoned, ReckoningError> | null =>
    this.#unread.length > 0 ? null : this.reckoning.reckon(this.#values),
  );

  readonly #read = $derived.by(() =>
    askedFields(this.reckoning.fields, this.fields).map((field) => ({
      name: field.name,
      held: readField(field, this.fields[field.name] ?? '', this.kept[field.name] ?? '', cellar.rules),
    })),
  );

  readonly #unread = $derived(this.#read.filter(({ held }) => held.type === 'wrong').map(({ name }) => name));

  readonly #values = $derived.by((): ReckoningValues =>
    Object.fromEntries(
      this.#read.flatMap(({ name, held }) => (held.type === 'value' ? [[name, held.value]] : [])),
    ),
  );

  readonly #outside = $derived.by(() => {
    const result = this.#result;
    return result !== null && !result.ok && result.error.type === 'Outside' ? result.error : null;
  });

  #work(): Outcome {
    const result = this.#result;
    if (result === null) return { type: 'mend', fields: this.#unread };
    if (result.ok) return { type: 'reckoned', reckoned: result.value, values: this.#values };
    const { error } = result;
    switch (error.type) {
      case 'Missing':
        return { type: 'missing', fields: error.fields };
      case 'Outside':
        return { type: 'mend', fields: [error.field] };
      case 'Impossible':
        return { type: 'impossible', sentence: sayReckoningError(this.reckoning, error) };
    }
  }
}

/** The texts of a draft for fields that the reckoning still has, and choices it still offers. */
function definedTexts(
  draft: Partial<Record<string, string>> | null,
  reckoning: Reckoning,
): Record<string, string> {
  const texts: Record<string, string> = {};
  for (const field of reckoning.fields) {
    const text = draft !== null && Object.hasOwn(draft, field.name) ? draft[field.name] : undefined;
    if (text === undefined || (field.kind === 'choice' && !field.choices.includes(text))) continue;
    texts[field.name] = text;
  }
  return texts;
}
