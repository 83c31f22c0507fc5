/**
 * Abridged standard atomic weights, g/mol. Source: CIAAW/IUPAC 2021. Only the elements that the cellar meets.
 */
const ATOMIC_WEIGHT = {
  H: 1.008,
  C: 12.011,
  N: 14.007,
  O: 15.999,
  Na: 22.99,
  P: 30.974,
  S: 32.06,
  K: 39.098,
} as const;

type Element = keyof typeof ATOMIC_WEIGHT;
type Formula = Partial<Record<Element, number>>;

/** Molar masses in g/mol, from the formula and the atomic weights above. */
export const MOLAR_MASS = {
  glucose: molarMass({ C: 6, H: 12, O: 6 }),
  fructose: molarMass({ C: 6, H: 12, O: 6 }),
  sucrose: molarMass({ C: 12, H: 22, O: 11 }),
  ethanol: molarMass({ C: 2, H: 6, O: 1 }),
  carbonDioxide: molarMass({ C: 1, O: 2 }),
  acetic: molarMass({ C: 2, H: 4, O: 2 }),
  lactic: molarMass({ C: 3, H: 6, O: 3 }),
  malic: molarMass({ C: 4, H: 6, O: 5 }),
  tartaric: molarMass({ C: 4, H: 6, O: 6 }),
  citric: molarMass({ C: 6, H: 8, O: 7 }),
  sulfuric: molarMass({ H: 2, S: 1, O: 4 }),
  sulfurDioxide: molarMass({ S: 1, O: 2 }),
  potassiumMetabisulfite: molarMass({ K: 2, S: 2, O: 5 }),
  sodiumHydroxide: molarMass({ Na: 1, O: 1, H: 1 }),
  potassiumHydrogenPhthalate: molarMass({ K: 1, H: 5, C: 8, O: 4 }),
  diammoniumPhosphate: molarMass({ N: 2, H: 9, P: 1, O: 4 }),
  nitrogen: molarMass({ N: 1 }),
  oxygen: molarMass({ O: 2 }),
  water: molarMass({ H: 2, O: 1 }),
} as const;

/**
 * Grams made from one gram, by the balanced equation and nothing lost: hexose → 2 ethanol + 2 CO2 (Gay-Lussac);
 * sucrose + water → 2 hexose; ethanol + O2 → acetic acid + water.
 */
export const THEORETICAL_YIELD = {
  ethanolFromHexose: (2 * MOLAR_MASS.ethanol) / MOLAR_MASS.glucose,
  carbonDioxideFromHexose: (2 * MOLAR_MASS.carbonDioxide) / MOLAR_MASS.glucose,
  ethanolFromSucrose: (4 * MOLAR_MASS.ethanol) / MOLAR_MASS.sucrose,
  carbonDioxideFromSucrose: (4 * MOLAR_MASS.carbonDioxide) / MOLAR_MASS.sucrose,
  invertSugarFromSucrose: (2 * MOLAR_MASS.glucose) / MOLAR_MASS.sucrose,
  carbonDioxideFromEthanol: MOLAR_MASS.carbonDioxide / MOLAR_MASS.ethanol,
  aceticFromEthanol: MOLAR_MASS.acetic / MOLAR_MASS.ethanol,
  oxygenPerEthanol: MOLAR_MASS.oxygen / MOLAR_MASS.ethanol,
} as const;

function molarMass(formula: Formula): number {
  let sum = 0;
  for (const [element, count] of Object.entries(formula)) sum += ATOMIC_WEIGHT[element as Element] * count;
  // Abridged weights carry three decimals; the sum is held to them, so that no binary dust shows.
  return Math.round(sum * 1000) / 1000;
}
