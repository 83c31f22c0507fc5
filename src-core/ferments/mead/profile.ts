import { DRINK } from '../drink-rounds.ts';
import type { FermentProfile } from '../ferment.ts';

/** Honey and water to mead; honey is short of nitrogen, so it works slowly. */
export const mead: FermentProfile = { ...DRINK, kind: 'mead', sugarSource: 'honey' };
