import type { Result } from '../base/result.ts';
import { ok } from '../base/result.ts';
import { propagate, type Uncertain } from '../quantities/propagate.ts';
import { effectiveUncertainty, type Method } from '../quantities/uncertainty.ts';

/** A field's number with its expanded uncertainty, and whether the method had to supply it. */
export interface MeasuredValue extends Uncertain {
  readonly fromMethod: boolean;
}

/**
 * A number with the keeper's uncertainty, or with the method's default when none is given or one smaller than the method can
 * have (rule MEAS-02).
 */
export function measured(value: number, method: Method, given: number | null = null): MeasuredValue {
  const effective = effectiveUncertainty({ value, givenUncertainty: given, method });
  return {
    value,
    uncertainty: effective?.uncertainty ?? 0,
    fromMethod: effective?.from !== 'keeper',
  };
}

/** A number that is taken as it stands: a target, a rated size, a convention. */
export function exact(value: number): MeasuredValue {
  return { value, uncertainty: 0, fromMethod: false };
}

/** The caution of MEAS-02 when any of the numbers had its error from the method. */
export function errorCaution(...values: readonly MeasuredValue[]): readonly 'errorTakenFromMethod'[] {
  return values.some(({ fromMethod }) => fromMethod) ? ['errorTakenFromMethod'] : [];
}

/**
 * Several results of one formula with their uncertainties, first order (GUM 5.1.2). Each set of inputs is worked out once,
 * however many results are asked of it.
 */
export function propagateEach<Input extends string, Output extends string, E>(
  outputs: readonly Output[],
  formula: (inputs: Readonly<Record<Input, number>>) => Result<Readonly<Record<Output, number>>, E>,
  inputs: Readonly<Record<Input, Uncertain>>,
): Result<Readonly<Record<Output, Uncertain>>, E> {
  const worked = new Map<string, Result<Readonly<Record<Output, number>>, E>>();
  const names = Object.keys(inputs) as Input[];
  const once = (values: Readonly<Record<Input, number>>) => {
    const key = names.map((name) => values[name]).join(' ');
    const known = worked.get(key) ?? formula(values);
    worked.set(key, known);
    return known;
  };
  const found = {} as Record<Output, Uncertain>;
  for (const output of outputs) {
    const one = propagate((values: Readonly<Record<Input, number>>) => {
      const all = once(values);
      return all.ok ? ok(all.value[output]) : all;
    }, inputs);
    if (!one.ok) return one;
    found[output] = one.value;
  }
  return ok(found);
}
