/**
 * The outcome of something that may fail in a way the caller can act on. The failure is a plain object told apart
 * by its `type`; it carries facts, never a sentence. A bug is thrown instead.
 */
export type Result<T, E> = Ok<T> | Err<E>;

export interface Ok<T> {
  readonly ok: true;
  readonly value: T;
}

export interface Err<E> {
  readonly ok: false;
  readonly error: E;
}

export function ok<T>(value: T): Ok<T> {
  return { ok: true, value };
}

export function err<E>(error: E): Err<E> {
  return { ok: false, error };
}

/**
 * The value of a result that cannot fail here, because the caller has already checked what could. Throws when it
 * did fail: that is a bug in the caller, not an expected failure.
 */
export function mustSucceed<T, E>(result: Result<T, E>): T {
  if (result.ok) return result.value;
  throw new Error(`A result that had to succeed failed: ${JSON.stringify(result.error)}`);
}

/** Applies `change` to the value of a success and hands a failure on untouched. */
export function mapOk<T, U, E>(result: Result<T, E>, change: (value: T) => U): Result<U, E> {
  return result.ok ? ok(change(result.value)) : result;
}
