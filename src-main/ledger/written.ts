import type { NotWritten, Posted } from '#core/contract/ledger.ts';
import type { Result } from '#core/base/result.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import { CellarGone, CellarHeldStill } from '../cellar/cellar-gone.ts';
import { errorCode } from '../cellar/file-refused.ts';

export interface WriteErrors {
  readonly REFUSED: (options: { data: LedgerError }) => Error;
  readonly NOT_WRITTEN: (options: { data: NotWritten }) => Error;
}

/** Runs a write: a refusal and a disk that will not take it become typed errors, a bug stays a fault. */
export function written(errors: WriteErrors, write: () => Result<Posted, LedgerError>): Posted {
  let result: Result<Posted, LedgerError>;
  try {
    result = write();
  } catch (error) {
    const data = notWritten(error);
    throw data === null ? error : errors.NOT_WRITTEN({ data });
  }
  if (!result.ok) throw errors.REFUSED({ data: result.error });
  return result.value;
}

/** Why the disk did not take a write; null for what is no matter of the disk. */
export function notWritten(error: unknown): NotWritten | null {
  const detail = errorCode(error);
  if (error instanceof CellarGone) return { type: 'Gone', detail };
  if (error instanceof CellarHeldStill) return { type: 'Restoring', detail };
  if (detail === 'SQLITE_FULL') return { type: 'DiskFull', detail };
  if (detail.startsWith('SQLITE_READONLY')) return { type: 'ReadOnly', detail };
  return detail.startsWith('SQLITE_IOERR') ? { type: 'OtherFault', detail } : null;
}
