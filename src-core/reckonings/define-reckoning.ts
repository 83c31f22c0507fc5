import { err, type Result } from '../base/result.ts';
import type { QuantityKind } from '../quantities/understood.ts';
import { within, type OutOfRange } from '../quantities/validity.ts';
import { heldBy, isAsked } from './asked-fields.ts';
import type { Caution, ImpossibleReason } from './cautions.ts';
import type {
  Reckoned,
  ReckonedAnswer,
  ReckonedStep,
  Reckoning,
  ReckoningError,
  ReckoningField,
  ReckoningValues,
} from './reckoning.ts';

/** What a field hands to its reckoning: a choice its text, a number that must be there a number, any other a number or null. */
type Asked<F extends ReckoningField> = F extends { readonly kind: 'choice' }
  ? F['choices'][number]
  : F extends { readonly onlyWhen: object }
    ? number | null
    : F extends { readonly required: true } | { readonly otherwise: number }
      ? number
      : number | null;

export type AskedValues<Fields extends readonly ReckoningField[]> = {
  readonly [F in Fields[number] as F['name']]: Asked<F>;
};

/** A result in the names that the reckoning has declared. */
export interface Answered<Answer extends string, Step extends string, Said extends Caution> {
  readonly answers: readonly (ReckonedAnswer & { readonly name: Answer })[];
  readonly steps: readonly (ReckonedStep & { readonly name: Step })[];
  readonly cautions: readonly Said[];
}

/** The range the bench takes of each kind, in its canonical unit. Our own bounds of a home cellar, wider than MEAS-09. */
const BENCH_RANGE: Readonly<Record<QuantityKind, readonly [low: number, high: number, unit: string]>> = {
  gravity: [0.95, 1.28, 'SG'],
  acidity: [0, 20, 'g/100 mL'],
  pH: [0, 14, 'pH'],
  volume: [0, 1e11, 'µL'],
  temperature: [-20, 100, '°C'],
  mass: [0, 1e14, 'µg'],
  freeSulfite: [0, 500, 'mg/L'],
  alcohol: [0, 100, '% vol'],
  salt: [0, 100, '%'],
};
/** The source of a range that no publication sets, but the size of a home cellar. */
export const BENCH_SOURCE = 'range of the bench';

/**
 * A reckoning with its checks around it: fields that are required and left empty are `Missing`, numbers that are not finite or
 * lie outside their field are `Outside`, and an `OutOfRange` of the formula is laid at the field named in `standsFor` (or of the
 * same name). A result that is not finite is never handed out.
 */
export function defineReckoning<
  const Fields extends readonly ReckoningField[],
  const Answer extends string,
  const Step extends string,
  const Said extends Caution,
>(given: {
  readonly id: string;
  readonly group: Reckoning['group'];
  readonly fields: Fields;
  readonly carriesOut?: Reckoning['carriesOut'];
  readonly amountAnswer?: NoInfer<Answer>;
  readonly says: {
    readonly answers: readonly Answer[];
    readonly steps: readonly Step[];
    readonly cautions: readonly Said[];
    readonly reasons: readonly ImpossibleReason[];
  };
  /** Which field a quantity of the formulas stands for, where the names differ. */
  readonly standsFor?: Readonly<Record<string, Fields[number]['name']>>;
  reckon(
    values: AskedValues<Fields>,
  ): Result<Answered<NoInfer<Answer>, NoInfer<Step>, NoInfer<Said>>, ReckoningError | OutOfRange>;
}): Reckoning {
  const standsFor: Readonly<Record<string, string>> = given.standsFor ?? {};
  return {
    id: given.id,
    group: given.group,
    fields: given.fields,
    carriesOut: given.carriesOut ?? null,
    amountAnswer: given.amountAnswer ?? null,
    says: given.says,
    reckon(values) {
      const asked = askedValues(given.fields, values);
      if (!asked.ok) return asked;
      const result = given.reckon(asked.value as AskedValues<Fields>);
      if (result.ok) return isFinite(result.value) ? result : impossible('beyondReckoning');
      if (result.error.type !== 'OutOfRange') return err(result.error);
      const { quantity } = result.error;
      return err({ type: 'Outside', field: standsFor[quantity] ?? quantity, range: result.error });
    },
  };
}

/** A refusal that names why, with the numbers a sentence needs. */
export function impossible(
  reason: ImpossibleReason,
  numbers: Readonly<Record<string, number>> = {},
): Result<never, ReckoningError> {
  return err({ type: 'Impossible', reason, numbers });
}

/** A value that was asked for by a choice, and so was checked to be there. */
export function asked(value: number | null): number {
  if (value === null) throw new Error('A field that its choice asks for is checked before.');
  return value;
}

function askedValues(
  fields: readonly ReckoningField[],
  values: ReckoningValues,
): Result<Readonly<Record<string, number | string | null>>, ReckoningError> {
  const found: Record<string, number | string | null> = {};
  const missing: string[] = [];
  let outside: ReckoningError | null = null;
  for (const field of fields) {
    const value = heldBy(field, fields, values);
    const counts = isAsked(field, fields, values);
    if (field.kind === 'choice') {
      if (typeof value === 'string' && field.choices.includes(value)) found[field.name] = value;
      else missing.push(field.name);
    } else if (!counts || value === null) {
      found[field.name] = null;
      if (counts && field.required) missing.push(field.name);
    } else if (typeof value === 'string') missing.push(field.name);
    else {
      const checked = withinField(field, value);
      found[field.name] = value;
      if (!checked.ok) outside ??= { type: 'Outside', field: field.name, range: checked.error };
    }
  }
  if (missing.length > 0) return err({ type: 'Missing', fields: missing });
  return outside === null ? { ok: true, value: found } : err(outside);
}

function withinField(
  field: Exclude<ReckoningField, { kind: 'choice' }>,
  value: number,
): Result<number, OutOfRange> {
  if (field.kind === 'number') {
    const { low, high, unit } = field;
    return within(value, { quantity: field.name, low, high, unit, source: BENCH_SOURCE });
  }
  const [low, high, unit] = BENCH_RANGE[field.quantity];
  return within(value, {
    quantity: field.name,
    low: field.low ?? low,
    high: field.high ?? high,
    unit,
    source: BENCH_SOURCE,
  });
}

function isFinite({ answers, steps }: Reckoned): boolean {
  return [
    ...answers.flatMap(({ value, uncertainty, range }) => [
      value,
      uncertainty ?? 0,
      range?.low ?? 0,
      range?.high ?? 0,
    ]),
    ...steps.map(({ value }) => value),
  ].every((number) => Number.isFinite(number));
}
