import type { FermentKind } from '../ledger/stage.ts';
import { brinedVegetables } from './brined-vegetables/profile.ts';
import { cider } from './cider/profile.ts';
import { cultureKeeping } from './culture-keeping/profile.ts';
import type { FermentProfile } from './ferment.ts';
import { fruitVinegar } from './fruit-vinegar/profile.ts';
import { kombucha } from './kombucha/profile.ts';
import { mead } from './mead/profile.ts';
import { wine } from './wine/profile.ts';

/** Every kind of ferment the program knows; a new one is a folder and a line here. */
export const FERMENTS: Readonly<Record<FermentKind, FermentProfile>> = {
  fruitVinegar,
  cider,
  wine,
  mead,
  kombucha,
  brinedVegetables,
  cultureKeeping,
};
