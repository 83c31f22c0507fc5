import { CANNING_WORDS } from './canning.ts';
import { CLEANING_WORDS } from './cleaning.ts';
import { DRINK_WORDS } from './drinks.ts';
import { FRUIT_WORDS } from './fruit.ts';
import { GAS_WORDS } from './gas.ts';
import { GROWTH_WORDS } from './growths.ts';
import { INFUSION_WORDS } from './infusions.ts';
import { KOMBUCHA_WORDS } from './kombucha.ts';
import { LAW_WORDS } from './law.ts';
import { MATERIAL_WORDS } from './materials.ts';
import { MEASUREMENT_WORDS } from './measurement.ts';
import { PRESSURE_WORDS } from './pressure.ts';
import type { FamilyWords } from './sentence.ts';
import { STABILISING_WORDS } from './stabilising.ts';
import { VEGETABLE_WORDS } from './vegetables.ts';
import { VINEGAR_WORDS } from './vinegar.ts';

/** The words of every rule, by its id. A new rule is a line in its family. */
export const RULE_WORDS: FamilyWords = {
  ...VINEGAR_WORDS,
  ...CANNING_WORDS,
  ...INFUSION_WORDS,
  ...VEGETABLE_WORDS,
  ...KOMBUCHA_WORDS,
  ...FRUIT_WORDS,
  ...DRINK_WORDS,
  ...LAW_WORDS,
  ...PRESSURE_WORDS,
  ...GAS_WORDS,
  ...MATERIAL_WORDS,
  ...CLEANING_WORDS,
  ...GROWTH_WORDS,
  ...STABILISING_WORDS,
  ...MEASUREMENT_WORDS,
};
