import type { FermentProfile } from '../ferment.ts';
import { PH_DAILY, TASTE, WATCHED } from '../shared-rounds.ts';

/** Vegetables soured by lactic bacteria in salt or brine. */
export const brinedVegetables: FermentProfile = {
  kind: 'brinedVegetables',
  path: ['lactic', 'maturing', 'ready'],
  rounds: { ...WATCHED, lactic: [PH_DAILY], maturing: [TASTE] },
  headline: { lactic: ['ph'], maturing: ['ph'], ready: ['ph'], waiting: ['ph'] },
  headlineOtherwise: ['ph', 'acidity', 'gravity'],
  uses: ['eat', 'giveAway', 'keep', 'useVessel'],
  targetAcidityGramsPer100Ml: null,
  sugarSource: null,
  becomesVinegar: false,
};
