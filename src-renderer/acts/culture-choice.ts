import type { CultureRow } from '#core/contract/cultures.ts';
import type { CultureSort } from '#core/ledger/stage.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { CULTURE_SORT_WORDS } from '../words/choice-words.ts';
import { sayVolume } from '../words/quantity-words.ts';

/** A culture on one line of a chooser: `Old Bess, vinegar mother, 2.2 L in A1`. */
export function cultureLine(row: CultureRow, house: HouseUnits): string {
  const kept = row.keptIn.map(
    (jar) => `${sayVolume(jar.volumeUl, house)} in ${jar.spot ?? `vessel ${jar.number}`}`,
  );
  return [row.name, CULTURE_SORT_WORDS[row.sort], ...kept].join(', ').replaceAll('\u00A0', ' ');
}

/** Cultures with the fitting sorts first, each part in the order of names. */
export function sortedFor(
  rows: readonly CultureRow[],
  fitting: readonly CultureSort[],
): readonly CultureRow[] {
  const fits = (row: CultureRow): number => (fitting.includes(row.sort) ? 0 : 1);
  return rows.toSorted((a, b) => fits(a) - fits(b) || a.name.localeCompare(b.name));
}

/** What stays in a jar after a pull, in words of caution, or null when it keeps plenty. A tenth is our own mark. */
export function sayKeptBack(given: {
  readonly heldUl: number;
  readonly takenUl: number;
  readonly house: HouseUnits;
}): string | null {
  const { heldUl, takenUl, house } = given;
  const leftUl = heldUl - takenUl;
  if (takenUl <= 0 || leftUl < 0) return null;
  if (leftUl === 0) {
    return 'This empties the jar of the culture. Keep some back: a mother that is lost cannot be measured into being again (common practice).';
  }
  if (leftUl * 10 > heldUl) return null;
  return `Only ${sayVolume(leftUl, house)} stays in the jar of the culture. Keep back enough to go on from, and feed it (common practice).`;
}
