import type { FermentProfile } from '../ferment.ts';
import { FEED, WATCHED } from '../shared-rounds.ts';

/** The jar in which a mother, a yeast or a starter rests between uses and is fed. */
export const cultureKeeping: FermentProfile = {
  kind: 'cultureKeeping',
  path: ['culture'],
  rounds: { ...WATCHED, culture: [FEED] },
  headline: { culture: ['acidity', 'ph'] },
  headlineOtherwise: ['acidity', 'ph', 'gravity'],
  uses: ['keepAsCulture', 'giveAway', 'useVessel'],
  targetAcidityGramsPer100Ml: null,
  sugarSource: null,
  becomesVinegar: false,
};
