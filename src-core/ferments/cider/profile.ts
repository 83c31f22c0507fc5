import { DRINK } from '../drink-rounds.ts';
import type { FermentProfile } from '../ferment.ts';

/** Apple or pear juice to cider or perry, kept as such. */
export const cider: FermentProfile = { ...DRINK, kind: 'cider', sugarSource: 'apple' };
