import { alcoholFromGravities } from './alcohol-from-gravities.ts';
import { convertSugar } from './convert-sugar.ts';
import { correctHydrometer } from './correct-hydrometer.ts';
import { diluteToStrength } from './dilute-to-strength.ts';
import { potentialAlcohol } from './potential-alcohol.ts';
import type { Reckoning } from './reckoning.ts';
import { titration } from './titration.ts';

/** All reckonings, in the order in which the bench shows them. A new one is added here, and is tested by being here. */
export const BENCH: readonly Reckoning[] = [
  correctHydrometer,
  convertSugar,
  potentialAlcohol,
  alcoholFromGravities,
  diluteToStrength,
  titration,
];
