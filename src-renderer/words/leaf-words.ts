import type { Leaf } from '#core/contract/book.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ShelfRow } from '#core/contract/shelves.ts';
import { CLOSURE_WORDS } from './choice-words.ts';
import { sayVolume } from './quantity-words.ts';
import { sayAge, sayDate } from './time-words.ts';
import { sayVesselKind } from './vessel-words.ts';

/** Where one part of a batch stands: `in 2 L jar on A2, 1.7 L of 2 L · cloth, air gets in`. */
export function sayWhereItStands(row: ShelfRow, rules: HouseRules): string {
  const spot = row.spot === null ? 'not placed' : `on ${row.spot}`;
  const much = `${sayVolume(row.volumeUl, rules)} of ${sayVolume(row.capacityUl, rules)}`;
  return `in ${sayVesselKind(row, rules)} ${spot}, ${much} · ${CLOSURE_WORDS[row.closure]}`;
}

/** The line under a batch's name. */
export function sayStanding(leaf: Leaf, rules: HouseRules): string {
  const begun = `${leaf.code} · started ${sayDate(leaf.startedAtMs, rules)}`;
  const [only] = leaf.standing;
  if (only === undefined) return `${begun} · stands in no vessel now`;
  if (leaf.standing.length === 1) return `${begun} · ${sayWhereItStands(only, rules)}`;
  const volumeUl = leaf.standing.reduce((sum, row) => sum + row.volumeUl, 0);
  return `${begun} · ${sayVolume(volumeUl, rules)} in ${leaf.standing.length} vessels`;
}

/** How long a batch has stood, beside its name. */
export function sayBatchAge(leaf: Leaf, nowMs: number): string {
  const stands = leaf.standing.length > 0;
  return stands ? sayAge(leaf.startedAtMs, nowMs) : '';
}
