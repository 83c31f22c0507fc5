/**
 * The default of a `switch` that has named every case. The compiler refuses the call while a case is missing; if a
 * value from outside slips through at run time it throws rather than choosing for the caller.
 */
export function assertNever(value: never): never {
  throw new Error(`A case that cannot be met was met: ${JSON.stringify(value)}`);
}
