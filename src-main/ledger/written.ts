import type { Posted } from '#core/contract/ledger.ts';
import type { Result } from '#core/base/result.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import { errorCode } from '../cellar/file-refused.ts';

export interface WriteErrors {
  readonly REFUSED: (options: { data: LedgerError }) => Error;
  readonly NOT_WRITTEN: (options: {
    data: { type: 'DiskFull' | 'ReadOnly' | 'OtherFault'; detail: string };
  }) => Error;
}

/** Runs a write: a refusal and a disk that will not take it become typed errors, a bug stays a fault. */
export function written(errors: WriteErrors, write: () => Result<Posted, LedgerError>): Posted {
  let result: Result<Posted, LedgerError>;
  try {
    result = write();
  } catch (error) {
    const detail = errorCode(error);
    if (detail === 'SQLITE_FULL') throw errors.NOT_WRITTEN({ data: { type: 'DiskFull', detail } });
    if (detail.startsWith('SQLITE_READONLY'))
      throw errors.NOT_WRITTEN({ data: { type: 'ReadOnly', detail } });
    if (detail.startsWith('SQLITE_IOERR')) throw errors.NOT_WRITTEN({ data: { type: 'OtherFault', detail } });
    throw error;
  }
  if (!result.ok) throw errors.REFUSED({ data: result.error });
  return result.value;
}
