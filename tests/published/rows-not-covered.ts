const MISPRINTED =
  'The table prints more than 100 % vol, which no strength is; the same blend is tested against 51.83, 7.00 and 9.56.';

/** Rows of the reference table without a test, each with its reason. */
export const ROWS_NOT_COVERED: Readonly<Record<string, string>> = {
  'MIX-ABV-100-50-0-50': MISPRINTED,
  'MIX-ABV-14-1-0-1': MISPRINTED,
  'MIX-ABV-95-10-0-90': MISPRINTED,
};
