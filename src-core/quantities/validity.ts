import { err, ok, type Result } from '../base/result.ts';

/**
 * A number lies outside the range for which a formula or table is published. Nothing is extrapolated: the caller
 * gets this instead of a number, with the range and where it comes from.
 */
export interface OutOfRange {
  readonly type: 'OutOfRange';
  /** The name of the argument, such as `temperatureCelsius`. */
  readonly quantity: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  /** The published source that sets the range. */
  readonly source: string;
}

export interface Limits {
  readonly quantity: string;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly source: string;
}

/** The number itself when it is finite and `low ≤ value ≤ high`, otherwise `OutOfRange`. */
export function within(value: number, limits: Limits): Result<number, OutOfRange> {
  if (Number.isFinite(value) && value >= limits.low && value <= limits.high) return ok(value);
  return err({ type: 'OutOfRange', value, ...limits });
}

/** The first of several checks that failed, or null when all passed. */
export function firstOutOfRange(
  ...checks: readonly (readonly [value: number, limits: Limits])[]
): OutOfRange | null {
  for (const [value, limits] of checks) {
    const checked = within(value, limits);
    if (!checked.ok) return checked.error;
  }
  return null;
}
