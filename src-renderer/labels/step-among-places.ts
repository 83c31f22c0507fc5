import type { LabelPreview } from '#core/contract/labels.ts';

type SheetPlace = LabelPreview['places'][number];

/**
 * The place an arrow, Home or End leads to, by where the places lie on the paper and not by how they are counted.
 *
 * @returns null for a key that leads nowhere
 */
export function stepAmongPlaces(key: string, from: number, places: readonly SheetPlace[]): number | null {
  const here = places.find(({ place }) => place === from);
  if (here === undefined) return null;
  switch (key) {
    case 'Home':
      return places[0]?.place ?? null;
    case 'End':
      return places.at(-1)?.place ?? null;
    case 'ArrowRight':
      return nearest(places, ({ xMm, yMm }) => (yMm === here.yMm ? xMm - here.xMm : 0));
    case 'ArrowLeft':
      return nearest(places, ({ xMm, yMm }) => (yMm === here.yMm ? here.xMm - xMm : 0));
    case 'ArrowDown':
      return nearest(places, ({ xMm, yMm }) => (xMm === here.xMm ? yMm - here.yMm : 0));
    case 'ArrowUp':
      return nearest(places, ({ xMm, yMm }) => (xMm === here.xMm ? here.yMm - yMm : 0));
    default:
      return null;
  }
}

/** The place with the least distance that is more than none. */
function nearest(places: readonly SheetPlace[], distance: (place: SheetPlace) => number): number | null {
  let found: { readonly place: number; readonly by: number } | null = null;
  for (const one of places) {
    const by = distance(one);
    if (by > 0 && (found === null || by < found.by)) found = { place: one.place, by };
  }
  return found?.place ?? null;
}
