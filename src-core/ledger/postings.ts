import { z } from 'zod';

/**
 * Where liquid comes from and goes to. A vessel's account is its id; the rest are accounts of the world outside
 * the vessels. An entry's postings sum to zero, so nothing appears or vanishes unnamed.
 */
export const WORLD_ACCOUNTS = [
  'store',
  'lees',
  'drain',
  'drawn',
  'bottles',
  'air',
  'unexplained',
  'loss',
] as const;
export const Account = z.union([z.enum(WORLD_ACCOUNTS), z.uuid()]);
export type Account = z.infer<typeof Account>;

/** A change of one account in whole microlitres at 20 °C as the keeper measured it. */
export const Posting = z.strictObject({ account: Account, deltaUl: z.int() });
export type Posting = z.infer<typeof Posting>;

/** True when the postings sum to exactly zero. Checked before an entry is written and again when it is read. */
export function balances(postings: readonly Posting[]): boolean {
  return postings.reduce((sum, p) => sum + BigInt(p.deltaUl), 0n) === 0n;
}

/** Throws when the postings do not sum to zero: a broken invariant, never a keeper's mistake. */
export function assertBalanced(postings: readonly Posting[], where: string): void {
  if (!balances(postings)) throw new Error(`postings out of balance ${where}`);
}
