import type { FermentProfile } from '../ferment.ts';
import { ACIDITY, GRAVITY, PITCH, RACK_OFF_LEES, TASTE, WATCHED } from '../shared-rounds.ts';

/** Fruit to alcohol under a lock, then alcohol to vinegar with a mother under cloth. */
export const fruitVinegar: FermentProfile = {
  kind: 'fruitVinegar',
  path: ['waiting', 'yeast', 'settling', 'vinegar', 'maturing', 'ready'],
  rounds: {
    ...WATCHED,
    waiting: [PITCH],
    yeast: [GRAVITY],
    settling: [{ ...RACK_OFF_LEES, act: 'seed', firstAfterDays: 7, graceDays: 14 }],
    vinegar: [ACIDITY],
    maturing: [TASTE],
  },
  headline: {
    waiting: ['gravity'],
    yeast: ['gravity'],
    settling: ['gravity'],
    vinegar: ['acidity'],
    maturing: ['acidity'],
    ready: ['acidity'],
  },
  headlineOtherwise: ['acidity', 'gravity', 'ph'],
  uses: ['dressSalad', 'labelAsVinegar', 'giveAway', 'refrigeratePickle', 'can', 'sealInBottle', 'useVessel'],
  // The least strength that most published table and pickling advice asks of vinegar (US 4, EU 5 to 6, canning label 5).
  targetAcidityGramsPer100Ml: 5,
  sugarSource: 'other',
  becomesVinegar: true,
};
