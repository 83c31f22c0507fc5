import { z } from 'zod';

/** The eleven stages a vessel can be in, in the order of the stage key. `empty` is the stage of a vessel that holds nothing. */
export const STAGES = [
  'empty',
  'waiting',
  'yeast',
  'settling',
  'vinegar',
  'lactic',
  'maturing',
  'ready',
  'held',
  'quarantine',
  'culture',
] as const;

export const Stage = z.enum(STAGES);
export type Stage = z.infer<typeof Stage>;

/** A stage that liquid can be in: every one but `empty`. */
export const FilledStage = Stage.exclude(['empty']);
export type FilledStage = z.infer<typeof FilledStage>;

export const SILHOUETTES = ['jar', 'crock', 'bucket', 'flask', 'demijohn', 'bottle', 'cask'] as const;
export const Silhouette = z.enum(SILHOUETTES);
export type Silhouette = z.infer<typeof Silhouette>;

export const CLOSURES = ['airlock', 'cloth', 'lid', 'cork', 'bung', 'open'] as const;
export const Closure = z.enum(CLOSURES);
export type Closure = z.infer<typeof Closure>;

export const MATERIALS = ['glass', 'stoneware', 'wood', 'foodPlastic', 'stainless', 'other'] as const;
export const Material = z.enum(MATERIALS);
export type Material = z.infer<typeof Material>;

export const MOUTHS = ['wide', 'narrow'] as const;
export const Mouth = z.enum(MOUTHS);
export type Mouth = z.infer<typeof Mouth>;

export const FERMENT_KINDS = [
  'fruitVinegar',
  'cider',
  'wine',
  'mead',
  'kombucha',
  'brinedVegetables',
  'cultureKeeping',
] as const;
export const FermentKind = z.enum(FERMENT_KINDS);
export type FermentKind = z.infer<typeof FermentKind>;

export const CULTURE_SORTS = ['mother', 'yeast', 'tea', 'grains', 'starter'] as const;
/** What sort of living culture: a vinegar mother, a yeast, a tea culture (kombucha), grains (kefir), a starter. */
export const CultureSort = z.enum(CULTURE_SORTS);
export type CultureSort = z.infer<typeof CultureSort>;
