import type { FermentProfile } from '../ferment.ts';
import { PH_EVERY_OTHER_DAY, WATCHED } from '../shared-rounds.ts';

/** Sweet tea soured by a tea culture. The stage with the culture at work is drawn as an acetic ferment. */
export const kombucha: FermentProfile = {
  kind: 'kombucha',
  path: ['waiting', 'vinegar', 'ready'],
  rounds: {
    ...WATCHED,
    waiting: [{ act: 'seed', firstAfterDays: 0.5, everyDays: null, graceDays: 0.5, why: 'practice' }],
    vinegar: [PH_EVERY_OTHER_DAY],
  },
  headline: { waiting: ['ph', 'gravity'], vinegar: ['ph', 'acidity'], ready: ['ph', 'acidity'] },
  headlineOtherwise: ['ph', 'acidity', 'gravity'],
  uses: ['drink', 'giveAway', 'sealInBottle', 'keepAsCulture', 'useVessel'],
  targetAcidityGramsPer100Ml: null,
  sugarSource: null,
  becomesVinegar: false,
};
