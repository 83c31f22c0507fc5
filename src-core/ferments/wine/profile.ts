import type { FermentProfile } from '../ferment.ts';
import { GRAVITY, PITCH, RACK_OFF_LEES, TASTE, WATCHED } from '../shared-rounds.ts';

/** Fruit wine: sugar to alcohol, racked and aged. */
export const wine: FermentProfile = {
  kind: 'wine',
  path: ['waiting', 'yeast', 'settling', 'maturing', 'ready'],
  rounds: { ...WATCHED, waiting: [PITCH], yeast: [GRAVITY], settling: [RACK_OFF_LEES], maturing: [TASTE] },
  headline: {
    waiting: ['gravity'],
    yeast: ['gravity'],
    settling: ['gravity'],
    maturing: ['gravity'],
    ready: ['gravity'],
    vinegar: ['acidity'],
  },
  headlineOtherwise: ['gravity', 'acidity', 'ph'],
  uses: ['drink', 'giveAway', 'sealInBottle'],
  targetAcidityGramsPer100Ml: null,
  sugarSource: 'other',
  becomesVinegar: false,
};
