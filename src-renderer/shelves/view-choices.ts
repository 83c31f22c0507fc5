import { Grouping } from '#core/contract/shelves.ts';
import { DENSITIES, ZOOM_MAX, ZOOM_MIN, type Density } from './shelf-layout.ts';

/** How the keeper likes the shelves drawn. It belongs to this window, not to the cellar file. */
export interface ViewChoices {
  readonly grouping: Grouping;
  /** Null while the keeper has not chosen: then the number of vessels decides. */
  readonly density: Density | null;
  readonly zoom: number;
  readonly asTable: boolean;
}

const KEY = 'undercroft.shelves';
const AT_FIRST: ViewChoices = { grouping: 'place', density: null, zoom: 1, asTable: false };

/** What was kept, checked part by part; a page without storage, or with something else in it, begins afresh. */
export function readViewChoices(store: Pick<Storage, 'getItem'> | null = storage()): ViewChoices {
  let kept: unknown;
  try {
    kept = JSON.parse(store?.getItem(KEY) ?? 'null');
  } catch {
    // Not ours or not whole: the first view is used, and the next choice writes it anew.
    return AT_FIRST;
  }
  if (typeof kept !== 'object' || kept === null) return AT_FIRST;
  const get = (name: string): unknown => Reflect.get(kept, name);
  const grouping = Grouping.safeParse(get('grouping'));
  const density = DENSITIES.find((one) => one === get('density')) ?? null;
  const zoom = get('zoom');
  return {
    grouping: grouping.success ? grouping.data : AT_FIRST.grouping,
    density,
    zoom: typeof zoom === 'number' && zoom >= ZOOM_MIN && zoom <= ZOOM_MAX ? zoom : AT_FIRST.zoom,
    asTable: get('asTable') === true,
  };
}

/** Keeps the choices where the page can; where it cannot, they last as long as the window. */
export function writeViewChoices(
  choices: ViewChoices,
  store: Pick<Storage, 'setItem'> | null = storage(),
): void {
  try {
    store?.setItem(KEY, JSON.stringify(choices));
  } catch {
    // A full or forbidden store costs the memory of a view, nothing else.
    return;
  }
}

function storage(): Storage | null {
  try {
    return typeof localStorage === 'undefined' ? null : localStorage;
  } catch {
    // Reading the property itself is refused where storage is forbidden.
    return null;
  }
}
