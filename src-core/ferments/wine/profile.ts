import { DRINK } from '../drink-rounds.ts';
import type { FermentProfile } from '../ferment.ts';

/** Fruit wine: sugar to alcohol, racked and aged. */
export const wine: FermentProfile = { ...DRINK, kind: 'wine', sugarSource: 'other' };
