import { GRAVITY, PITCH, RACK_OFF_LEES, TASTE, WATCHED } from './shared-rounds.ts';

/** What cider, wine and mead share: sugar to alcohol under a lock, racked, aged and drunk. Each adds its own. */
export const DRINK = {
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
  uses: ['drink', 'giveAway', 'sealInBottle', 'useVessel'],
  targetAcidityGramsPer100Ml: null,
  becomesVinegar: false,
} as const;
