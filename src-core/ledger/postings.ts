import { z } from 'zod';
import { COMPONENTS, MassDeltas } from './masses.ts';

/**
 * Where liquid comes from and goes to. A vessel's account is its id; the rest are accounts of the world outside
 * the vessels. An entry's postings sum to zero in volume and in each component, so nothing appears or vanishes
 * unnamed. `conversion` stands for living work: it takes sugar and gives alcohol, and its components sum to nothing.
 */
export const WORLD_ACCOUNTS = [
  ...(['store', 'lees', 'drain', 'drawn', 'bottles', 'air', 'unexplained', 'loss'] as const),
  ...(['conversion', 'contraction', 'samples', 'drunk', 'given', 'broken'] as const),
] as const;
export const Account = z.union([z.enum(WORLD_ACCOUNTS), z.uuid()]);
export type Account = z.infer<typeof Account>;

/**
 * A change of one account: whole microlitres at 20 °C as the keeper measured them, and whole micrograms of each
 * component. Lines written before masses were kept have none.
 */
export const Posting = z.strictObject({
  account: Account,
  deltaUl: z.int(),
  massesUg: MassDeltas.optional(),
});
export type Posting = z.infer<typeof Posting>;

/** True when the postings sum to exactly zero. Checked before an entry is written and again when it is read. */
export function balances(postings: readonly Posting[]): boolean {
  const sums = new Map<string, bigint>();
  const add = (what: string, amount: number): void => {
    sums.set(what, (sums.get(what) ?? 0n) + BigInt(amount));
  };
  for (const { account, deltaUl, massesUg = {} } of postings) {
    add('volume', deltaUl);
    for (const component of COMPONENTS) {
      const ug = massesUg[component] ?? 0;
      add(component, ug);
      if (account === 'conversion') add('conversion', ug);
    }
  }
  return [...sums.values()].every((sum) => sum === 0n);
}

/** Throws when the postings do not sum to zero: a broken invariant, never a keeper's mistake. */
export function assertBalanced(postings: readonly Posting[], where: string): void {
  if (!balances(postings)) throw new Error(`postings out of balance ${where}`);
}
