import { acetificationOxygen } from './acetification-oxygen.ts';
import { alcoholFromGravities } from './alcohol-from-gravities.ts';
import { blendToTarget } from './blend-to-target.ts';
import { blendTwo } from './blend-two.ts';
import { brineStrength } from './brine-strength.ts';
import { bufferCheck } from './buffer-check.ts';
import { carbonDioxideEvolved } from './carbon-dioxide-evolved.ts';
import { cellarAir } from './cellar-air.ts';
import { convertAcid } from './convert-acid.ts';
import { convertSugar } from './convert-sugar.ts';
import { convertUnits } from './convert-units.ts';
import { correctHydrometer } from './correct-hydrometer.ts';
import { diluteAlcohol } from './dilute-alcohol.ts';
import { diluteToStrength } from './dilute-to-strength.ts';
import { equilibriumSalt } from './equilibrium-salt.ts';
import { expectedYield } from './expected-yield.ts';
import { foreseeVinegar } from './foresee-vinegar.ts';
import { gkCheck } from './gk-check.ts';
import { honeyToAdd } from './honey-to-add.ts';
import { molecularSulfite } from './molecular-sulfite.ts';
import { nutrientDose } from './nutrient-dose.ts';
import { phOfAcetic } from './ph-of-acetic.ts';
import { potentialAlcohol } from './potential-alcohol.ts';
import type { Reckoning } from './reckoning.ts';
import { refractometer } from './refractometer.ts';
import { sealedBottle } from './sealed-bottle.ts';
import { seedMother } from './seed-mother.ts';
import { sugarToAdd } from './sugar-to-add.ts';
import { sulfiteToAdd } from './sulfite-to-add.ts';
import { tabarie } from './tabarie.ts';
import { titration } from './titration.ts';
import { yeastDose } from './yeast-dose.ts';

/**
 * All reckonings, in the order in which the bench shows them: as the year goes, from fruit to shelf. A new one is added here,
 * and is tested by being here.
 */
export const BENCH: readonly Reckoning[] = [
  expectedYield,
  correctHydrometer,
  refractometer,
  convertSugar,
  potentialAlcohol,
  sugarToAdd,
  honeyToAdd,
  yeastDose,
  nutrientDose,
  alcoholFromGravities,
  tabarie,
  blendTwo,
  blendToTarget,
  diluteAlcohol,
  titration,
  convertAcid,
  seedMother,
  foreseeVinegar,
  gkCheck,
  acetificationOxygen,
  diluteToStrength,
  phOfAcetic,
  bufferCheck,
  molecularSulfite,
  sulfiteToAdd,
  carbonDioxideEvolved,
  sealedBottle,
  equilibriumSalt,
  brineStrength,
  cellarAir,
  convertUnits,
];
