import type { FermentProfile } from '../ferment.ts';
import { GRAVITY, PITCH, RACK_OFF_LEES, TASTE, WATCHED } from '../shared-rounds.ts';

/** Honey and water to mead; honey is short of nitrogen, so it works slowly. */
export const mead: FermentProfile = {
  kind: 'mead',
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
  sugarSource: 'honey',
  becomesVinegar: false,
};
