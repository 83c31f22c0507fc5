import type { Leaf } from '#core/contract/book.ts';
import type { CultureRow } from '#core/contract/cultures.ts';
import type { Pedigree } from '#core/contract/pedigree.ts';
import type { ShelfGroup, ShelfRow, VesselDetail } from '#core/contract/shelves.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { isDefinedError, safe } from '@orpc/client';
import { client } from '../backend/call.ts';
import type { LocalDay } from '../cellar/day.ts';
import type { PaperDestination } from '../navigation/destination.ts';
import { detailsOf } from './details-of.ts';

export type Details = ReadonlyMap<VesselId, VesselDetail>;

/** What a paper is made from, as the cellar answered. */
export type PaperData =
  | { readonly paper: 'leaf'; readonly leaf: Leaf; readonly pedigree: Pedigree | null }
  | { readonly paper: 'shelves'; readonly groups: readonly GroupRows[]; readonly details: Details }
  | {
      readonly paper: 'due';
      readonly rows: readonly ShelfRow[];
      readonly cultures: readonly CultureRow[];
      readonly details: Details;
    }
  | { readonly paper: 'cultures'; readonly cultures: readonly CultureRow[]; readonly details: Details };

export interface GroupRows {
  readonly group: ShelfGroup;
  readonly rows: readonly ShelfRow[];
}

const ROWS_AT_ONCE = 2000;

/** Reads what a paper needs; null when the batch is not in the book any more. */
export async function readPaper(
  to: PaperDestination,
  today: LocalDay,
  stopped: () => boolean,
): Promise<PaperData | null> {
  switch (to.paper) {
    case 'leaf': {
      const { data: leaf, error } = await safe(client.book.leaf({ batchId: to.batchId }));
      if (leaf === undefined) {
        if (isDefinedError(error)) return null;
        throw error;
      }
      const of = { kind: 'batch', batchId: to.batchId } as const;
      const traced = await safe(client.pedigree.trace({ of, direction: 'back' }));
      if (traced.error !== null && !isDefinedError(traced.error)) throw traced.error;
      return { paper: 'leaf', leaf, pedigree: traced.data ?? null };
    }
    case 'shelves': {
      const groups = await groupsOf('place', today);
      return {
        ...{ paper: 'shelves', groups },
        details: await detailsOf(
          groups.flatMap(({ rows }) => rows),
          stopped,
        ),
      };
    }
    case 'due': {
      const groups = (await groupsOf('due', today)).filter(({ group }) => group.key !== 'nothing');
      const rows = groups.flatMap(({ rows }) => rows);
      const [cultures, details] = await Promise.all([client.cultures.list(), detailsOf(rows, stopped)]);
      return { paper: 'due', rows, cultures, details };
    }
    case 'cultures': {
      const cultures = await client.cultures.list();
      return {
        ...{ paper: 'cultures', cultures },
        details: await detailsOf(
          cultures.flatMap(({ keptIn }) => keptIn),
          stopped,
        ),
      };
    }
  }
}

/** Vessels group by group, all of them, a page at a time; what has nothing due is left out of the groups by due. */
export async function groupsOf(grouping: 'place' | 'due', today: LocalDay): Promise<readonly GroupRows[]> {
  const { groups } = await client.shelves.overview({ grouping, today });
  const read: GroupRows[] = [];
  for (const group of groups) {
    if (grouping === 'due' && group.key === 'nothing') continue;
    const rows: ShelfRow[] = [];
    while (rows.length < group.vesselCount) {
      const asked = { grouping, key: group.key, today, offset: rows.length, limit: ROWS_AT_ONCE };
      const page = await client.shelves.page(asked);
      if (page.rows.length === 0) break;
      rows.push(...page.rows);
    }
    read.push({ group, rows });
  }
  return read;
}
