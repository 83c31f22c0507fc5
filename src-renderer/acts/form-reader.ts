import type { LocalTime } from '#core/quantities/civil-time.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { readNumber, plainTyping } from '#core/quantities/number-text.ts';
import { toNumber } from '#core/quantities/rational.ts';
import type { QuantityKind, UnderstoodAs } from '#core/quantities/understood.ts';
import { sayQuantityError, type Fix } from '../words/error-words.ts';
import { readQuantityField } from './read-quantity.ts';
import { readWhenField } from './read-when.ts';

/** One thing to mend, with the field it belongs to. */
export interface Problem {
  readonly field: string;
  readonly sentence: string;
  readonly fixes: readonly Fix[];
}

/** A form as it stands: every field as text. */
export interface FormText {
  readonly fields: Readonly<Record<string, string>>;
  /** Texts kept although they look unlikely, by field. */
  readonly kept: Readonly<Record<string, string>>;
  readonly house: HouseUnits;
  readonly nowMs: number;
  readonly localTime: LocalTime;
  /** When the line happened that the form tells anew; absent for a new act. */
  readonly correctsMs?: number;
}

const CONTROLS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/u;

/**
 * Reads a form into the values of an act and collects what has to be mended. Where a value is missing a stand-in of
 * the right type is given, so that an act can be put together in one go; it is thrown away when there is any problem.
 */
export class FormReader {
  readonly form: FormText;
  readonly problems: Problem[] = [];
  /** Text as typed of every field that was understood as something else than text. */
  readonly typed: Record<string, string> = {};
  happenedAtMs: number | null = null;

  constructor(form: FormText) {
    this.form = form;
  }

  /** The text of a field as it stands, trimmed. */
  raw(field: string): string {
    return (this.form.fields[field] ?? '').trim();
  }

  problem(field: string, sentence: string, fixes: readonly Fix[] = []): void {
    this.problems.push({ field, sentence, fixes });
  }

  /** A line of text up to `max` characters; empty is allowed. */
  line(field: string, max = 120): string {
    const text = this.raw(field);
    if (text.includes('\n')) this.problem(field, 'This goes on one line. Take out the line breaks.');
    return this.#plain(field, text, max);
  }

  /** A name: one line that may not be empty. */
  name(field: string, sentence = 'Give it a name.'): string {
    const text = this.line(field);
    if (text === '') this.problem(field, sentence);
    return text;
  }

  /** Text of any number of lines up to 4,000 characters. */
  note(field: string): string {
    return this.#plain(field, this.raw(field), 4000);
  }

  /** A quantity, or null when the field is empty; a problem when it is not understood. */
  quantity<K extends QuantityKind>(kind: K, field: string): UnderstoodAs<K> | null {
    const text = this.form.fields[field] ?? '';
    const state = readQuantityField({
      kind,
      text,
      keptText: this.form.kept[field] ?? '',
      house: this.form.house,
    });
    if (state.type === 'empty') return null;
    this.typed[field] = text.trim();
    if (state.type === 'understood') return state.understood;
    this.problem(field, state.said.sentence, state.said.fixes);
    return null;
  }

  /** A quantity if it is understood, else null, without calling anything wrong. */
  quantityIfSound<K extends QuantityKind>(kind: K, field: string): UnderstoodAs<K> | null {
    const text = this.form.fields[field] ?? '';
    const keptText = this.form.kept[field] ?? '';
    const state = readQuantityField({ kind, text, keptText, house: this.form.house });
    return state.type === 'understood' ? state.understood : null;
  }

  /** A volume in µL that must be there and be more than nothing. */
  volume(field: string): number {
    const understood = this.quantity('volume', field);
    if (understood === null) {
      if (this.raw(field) === '') this.#empty('volume', field);
      return 1;
    }
    if (understood.volumeUl > 0) return understood.volumeUl;
    this.problem(field, 'This has to be more than nothing.');
    return 1;
  }

  /** A volume in µL that may be left empty, which is none. */
  volumeOrNone(field: string): number {
    return this.quantity('volume', field)?.volumeUl ?? 0;
  }

  /** A whole number between two bounds, both included. */
  whole(
    field: string,
    bounds: { readonly low: number; readonly high: number; readonly what: string },
  ): number {
    const { low, high, what } = bounds;
    const text = this.raw(field);
    const range = `${low} to ${high.toLocaleString('en')}`;
    if (!/^[0-9]{1,7}$/u.test(text)) {
      this.problem(field, `Give the ${what} as a whole number, ${range}.`);
      return low;
    }
    this.typed[field] = text;
    const number = Number(text);
    if (number < low) this.problem(field, `The ${what} is at least ${low}.`, [use(String(low))]);
    if (number > high)
      this.problem(field, `The ${what} is at most ${high.toLocaleString('en')}.`, [use(String(high))]);
    return number;
  }

  /**
   * A plain number with one possible unit, such as `12.4 ml` or `0,1 N`; null when empty. A comma is a decimal mark, unless the
   * number may reach thousands: then one that can be read both ways is asked about.
   */
  number(
    field: string,
    given: { readonly units: RegExp; readonly sample: string; readonly mayReachThousands?: boolean },
  ): number | null {
    const text = this.raw(field);
    if (text === '') return null;
    this.typed[field] = text;
    const read = readNumber(plainTyping(text));
    const [first, second] = read?.readings ?? [];
    if (given.mayReachThousands === true && first !== undefined && second !== undefined) {
      const unit = read?.rest === '' ? '' : ` ${read?.rest ?? ''}`;
      const ways = [first, second].map(({ plain }) => `${plain}${unit}`);
      this.problem(
        field,
        `“${text.slice(0, 40)}” can be read in two ways. Choose one.`,
        ways.map((way) => use(way)),
      );
      return null;
    }
    const value = first?.value;
    if (read && value && (read.rest === '' || given.units.test(read.rest))) return toNumber(value);
    this.problem(
      field,
      `“${text.slice(0, 40)}” is not read here. Type a number, for instance ${given.sample}.`,
    );
    return null;
  }

  /** One of a set of choices. */
  choice<Value extends string>(
    field: string,
    words: Readonly<Record<Value, unknown>>,
    sentence: string,
  ): Value {
    const value = this.raw(field);
    if (Object.hasOwn(words, value)) return value as Value;
    this.problem(field, sentence);
    return Object.keys(words)[0] as Value;
  }

  /** One of a set of choices, or null when none is chosen. */
  choiceOrNone<Value extends string>(field: string, words: Readonly<Record<Value, unknown>>): Value | null {
    const value = this.raw(field);
    return Object.hasOwn(words, value) ? (value as Value) : null;
  }

  /** What was chosen in a chooser: its id as the cellar gave it. */
  id<Id extends string>(field: string, sentence: string): Id {
    const id = this.raw(field);
    if (id === '') this.problem(field, sentence);
    return id as Id;
  }

  idOrNone<Id extends string>(field: string): Id | null {
    const id = this.raw(field);
    return id === '' ? null : (id as Id);
  }

  /** Reads when it happened; kept for the post beside the act. */
  when(field = 'happenedAtMs'): void {
    const text = this.raw(field);
    const state = readWhenField(text, this.form.nowMs, this.form.localTime);
    if (state.type === 'wrong') {
      this.problem(field, state.said.sentence, state.said.fixes);
      return;
    }
    this.happenedAtMs = state.atMs;
    if (state.atMs !== null) this.typed[field] = text;
  }

  /** A moment that has come, epoch ms, or null when the field is empty. */
  moment(field: string): number | null {
    const text = this.raw(field);
    if (text === '') return null;
    const { nowMs, localTime } = this.form;
    const state = readWhenField(text, nowMs, localTime);
    if (state.type === 'wrong') {
      this.problem(field, state.said.sentence, state.said.fixes);
      return null;
    }
    this.typed[field] = text;
    if (state.atMs !== null && state.atMs > nowMs) {
      this.problem(field, 'This is still to come. Give a moment that has been.', [use('now')]);
      return null;
    }
    return state.atMs ?? nowMs;
  }

  #empty(kind: QuantityKind, field: string): void {
    const { sentence } = sayQuantityError({ type: 'Empty', kind }, this.form.house, '');
    this.problem(field, sentence);
  }

  #plain(field: string, text: string, max: number): string {
    if (CONTROLS.test(text)) {
      this.problem(field, 'There is an invisible control sign in this text. Type it again.');
      return '';
    }
    const { length } = text;
    if (length > max) {
      this.problem(
        field,
        `This is ${length.toLocaleString('en')} characters long; at most ${max.toLocaleString('en')} fit.`,
      );
      return text.slice(0, max);
    }
    return text;
  }
}

function use(text: string): Fix {
  return { label: `Use ${text}`, text, how: 'use' };
}
