import type { FermentProfile } from '../ferment.ts';
import { GRAVITY, PITCH, RACK_OFF_LEES, TASTE, WATCHED } from '../shared-rounds.ts';

/** Apple or pear juice to cider or perry, kept as such. */
export const cider: FermentProfile = {
  kind: 'cider',
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
  sugarSource: 'apple',
  becomesVinegar: false,
};
