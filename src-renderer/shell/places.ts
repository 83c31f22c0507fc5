import type { Destination } from '../navigation/destination.ts';
import type { IconName } from '../ui/icons.ts';

export interface PlaceEntry {
  readonly place: Extract<
    Destination,
    { readonly place: 'shelves' | 'book' | 'cultures' | 'bench' | 'calendar' | 'labels' | 'strongbox' }
  >['place'];
  readonly name: string;
  readonly icon: IconName;
  readonly number: 1 | 2 | 3 | 4 | 5 | 6 | 7;
}

/** The places one can go to, in the order of the rail. */
export const PLACES: readonly PlaceEntry[] = [
  { place: 'shelves', name: 'Shelves', icon: 'shelves', number: 1 },
  { place: 'book', name: 'Cellar Book', icon: 'book', number: 2 },
  { place: 'cultures', name: 'Cultures', icon: 'cultures', number: 3 },
  { place: 'bench', name: 'Bench', icon: 'bench', number: 4 },
  { place: 'calendar', name: 'Calendar', icon: 'calendar', number: 5 },
  { place: 'labels', name: 'Label Desk', icon: 'label', number: 6 },
  { place: 'strongbox', name: 'Strongbox', icon: 'strongbox', number: 7 },
];

/**
 * The place a destination belongs to; a leaf, leaves side by side and a pedigree are part of the Cellar Book, papers to be
 * printed of the Label Desk.
 */
export function placeOf(destination: Destination): PlaceEntry {
  const { place: asked } = destination;
  const inBook = asked === 'leaf' || asked === 'compare' || asked === 'pedigree';
  const wanted = inBook ? 'book' : asked === 'paper' ? 'labels' : asked;
  const found = PLACES.find(({ place }) => place === wanted);
  if (found === undefined) throw new Error(`No place ${wanted}.`);
  return found;
}
