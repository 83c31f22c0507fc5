import { err, ok, type Result } from '../base/result.ts';

/** A number with its expanded uncertainty (about 95 %). */
export interface Uncertain {
  readonly value: number;
  readonly uncertainty: number;
}

export interface Propagated<Name extends string> extends Uncertain {
  /** What each input adds to the squared uncertainty, as shares that sum to 1 (all 0 when nothing is uncertain). */
  readonly shares: Readonly<Record<Name, number>>;
}

/**
 * The value of a function of several independent uncertain inputs, with U = √Σ (∂f/∂x · U)². The slopes are taken by
 * central differences over a hundredth of each U; where one side is outside the function's validity the other side alone
 * serves. Fails as the function fails at the values themselves, or when an input cannot move either way. First order
 * (GUM 5.1.2): good while the function is nearly straight over ±U.
 */
export function propagate<Name extends string, E>(
  f: (values: Readonly<Record<Name, number>>) => Result<number, E>,
  inputs: Readonly<Record<Name, Uncertain>>,
): Result<Propagated<Name>, E> {
  const names = Object.keys(inputs) as Name[];
  const values = Object.fromEntries(names.map((name) => [name, inputs[name].value])) as Record<Name, number>;
  const centre = f(values);
  if (!centre.ok) return centre;
  const parts = {} as Record<Name, number>;
  let sum = 0;
  for (const name of names) {
    const slope = slopeAt(f, values, name, inputs[name].uncertainty, centre.value);
    if (!slope.ok) return slope;
    parts[name] = (slope.value * inputs[name].uncertainty) ** 2;
    sum += parts[name];
  }
  const shares = Object.fromEntries(names.map((name) => [name, sum === 0 ? 0 : parts[name] / sum])) as Record<
    Name,
    number
  >;
  return ok({ value: centre.value, uncertainty: Math.sqrt(sum), shares });
}

function slopeAt<Name extends string, E>(
  f: (values: Readonly<Record<Name, number>>) => Result<number, E>,
  values: Readonly<Record<Name, number>>,
  name: Name,
  uncertainty: number,
  centre: number,
): Result<number, E> {
  // Below this a step could not be told from nothing, and what it adds is nothing too.
  if (!(uncertainty > 1e-200)) return ok(0);
  const step = Math.max(uncertainty / 100, Math.abs(values[name]) * 1e-9);
  const above = f({ ...values, [name]: values[name] + step });
  const below = f({ ...values, [name]: values[name] - step });
  if (above.ok && below.ok) return ok((above.value - below.value) / (2 * step));
  if (above.ok) return ok((above.value - centre) / step);
  if (below.ok) return ok((centre - below.value) / step);
  return err(above.error);
}

/** Relative uncertainties of a product or quotient in quadrature: u_rel = √Σ u_i². Source: GUM; EURACHEM A3. */
export function combineRelative(relative: readonly number[]): number {
  return Math.hypot(...relative);
}
