import type { CleanedHow } from '#core/ledger/records.ts';
import type { Closure, CultureSort, FermentKind, Material, Mouth, Silhouette } from '#core/ledger/stage.ts';

/** What a form calls each thing that is chosen and not typed. */
export const CLOSURE_WORDS: Readonly<Record<Closure, string>> = {
  airlock: 'water lock',
  cloth: 'cloth, air gets in',
  lid: 'lid',
  cork: 'cork',
  bung: 'bung',
  open: 'open',
};

export const MATERIAL_WORDS: Readonly<Record<Material, string>> = {
  glass: 'glass',
  stoneware: 'stoneware',
  wood: 'wood',
  foodPlastic: 'food-grade plastic',
  stainless: 'stainless steel',
  other: 'something else',
};

export const CLEANING_WAYS: Readonly<Record<CleanedHow, string>> = {
  rinsed: 'rinsed',
  washed: 'washed',
  sanitised: 'sanitised',
  heated: 'heated',
};

export const SILHOUETTE_WORDS: Readonly<Record<Silhouette, string>> = {
  jar: 'jar',
  crock: 'crock',
  bucket: 'bucket',
  flask: 'flask',
  demijohn: 'demijohn',
  bottle: 'bottle',
  cask: 'cask',
};

export const MOUTH_WORDS: Readonly<Record<Mouth, string>> = { wide: 'wide', narrow: 'narrow' };

export const FERMENT_KIND_WORDS: Readonly<Record<FermentKind, string>> = {
  fruitVinegar: 'fruit vinegar',
  cider: 'cider',
  wine: 'wine',
  mead: 'mead',
  kombucha: 'kombucha',
  brinedVegetables: 'brined vegetables',
  cultureKeeping: 'kept culture',
};

export const CULTURE_SORT_WORDS: Readonly<Record<CultureSort, string>> = {
  mother: 'vinegar mother',
  yeast: 'yeast',
  tea: 'tea culture',
  grains: 'grains',
  starter: 'starter',
};

/** A record of words as the options of a choice, in the order written, with a capital. */
export function optionsOf<Value extends string>(
  words: Readonly<Record<Value, string>>,
): readonly { readonly value: Value; readonly label: string }[] {
  return (Object.keys(words) as Value[]).map((value) => ({ value, label: capital(words[value]) }));
}

/** A capital at the front, but pH keeps its own spelling. */
export function capital(text: string): string {
  return text.startsWith('pH') ? text : text.slice(0, 1).toUpperCase() + text.slice(1);
}
