import type { Product } from './facts-of-uses.ts';
import type { SafetyFacts } from './facts.ts';
import type { Use } from './rule.ts';

/**
 * The rules that must have spoken, with nothing against the use, before a use of a product can meet the rules at all. Each
 * inner list is met by any one of its rules. A use or a product that is not here has no sourced rule: it is never cleared.
 */
type Cornerstones = readonly (readonly string[])[];

const LOOKED_AT: Cornerstones = [['MLD-01'], ['OFF-01'], ['FLY-01']];

const BY_PRODUCT: Readonly<Partial<Record<Use, Readonly<Partial<Record<Product, Cornerstones>>>>>> = {
  drink: {
    kombucha: [['KOM-01'], ['KOM-02'], ['KOM-05'], ...LOOKED_AT],
    waterKefir: [['KEF-01'], ...LOOKED_AT],
    wine: [['CID-01'], ['WIN-03'], ...LOOKED_AT],
    cider: [['CID-01'], ['WIN-03'], ...LOOKED_AT],
    mead: [['HON-01'], ['WIN-03'], ...LOOKED_AT],
    juice: [['CID-01'], ['CID-02'], ...LOOKED_AT],
    vinegar: [['VIN-08'], ['KOM-05'], ...LOOKED_AT],
  },
  eat: {
    brinedVegetables: [['VEG-01'], ['VEG-03'], ['VEG-06'], ['VEG-09'], ['MLD-01']],
    kimchi: [['VEG-08'], ['VEG-03'], ['VEG-06'], ['VEG-09'], ['MLD-01']],
    refrigeratorPickle: [['CAN-06'], ['MLD-01']],
    infusedOil: [['INF-02']],
  },
  dressSalad: {
    vinegar: [['CAN-05'], ['VIN-08'], ...LOOKED_AT],
    infusedVinegar: [['INF-01'], ...LOOKED_AT],
    infusedOil: [['INF-02']],
  },
  giveAway: {
    vinegar: [['VIN-01', 'VIN-05'], ['VIN-06'], ['VIN-10'], ['LAW-02'], ...LOOKED_AT],
    wine: [['WIN-01'], ['CID-01'], ['LAW-02'], ...LOOKED_AT],
    cider: [['WIN-01'], ['CID-01'], ['LAW-02'], ...LOOKED_AT],
    mead: [['WIN-01'], ['HON-01'], ['LAW-02'], ...LOOKED_AT],
    juice: [['CID-01'], ['CID-03'], ['LAW-02'], ...LOOKED_AT],
    kombucha: [['KOM-01'], ['KOM-02'], ['KOM-04'], ['KOM-05'], ['LAW-02'], ...LOOKED_AT],
    waterKefir: [['KEF-01'], ['KEF-02'], ['LAW-02'], ...LOOKED_AT],
    brinedVegetables: [['VEG-01'], ['VEG-03'], ['VEG-06'], ['VEG-09'], ['LAW-02'], ['MLD-01']],
    kimchi: [['VEG-08'], ['VEG-03'], ['VEG-06'], ['VEG-09'], ['LAW-02'], ['MLD-01']],
  },
  refrigeratePickle: { vinegar: [['CAN-05'], ...LOOKED_AT] },
  sealInBottle: {
    wine: [['PRS-01'], ['PRS-02', 'PRS-03']],
    cider: [['PRS-01'], ['PRS-02', 'PRS-03']],
    mead: [['PRS-01'], ['PRS-02', 'PRS-03']],
    kombucha: [['KOM-06'], ['PRS-02']],
    waterKefir: [['KOM-06'], ['PRS-02']],
  },
  keepAsCulture: {
    vinegar: [['VIN-10'], ...LOOKED_AT],
    kombucha: [['KOM-01'], ...LOOKED_AT],
    waterKefir: LOOKED_AT,
  },
  keep: {
    vinegar: [['VIN-09'], ...LOOKED_AT],
    brinedVegetables: [['VEG-02'], ['VEG-07'], ['VEG-06'], ['MLD-01']],
    kimchi: [['VEG-02'], ['VEG-07'], ['VEG-06'], ['MLD-01']],
    refrigeratorPickle: [['CAN-06'], ['MLD-01']],
    infusedVinegar: [['INF-01'], ['MLD-01']],
    infusedOil: [['INF-02']],
  },
};

const BY_USE: Readonly<Partial<Record<Use, Cornerstones>>> = {
  labelAsVinegar: [['VIN-01', 'VIN-05']],
  can: [['CAN-01', 'CAN-02']],
  weakJars: [['CAN-03']],
  startKombucha: [['KOM-03']],
  pressFruit: [['CID-01'], ['CID-02']],
  handleSulfite: [['WIN-02']],
  concentrateAlcohol: [['WIN-04']],
  makeAlcohol: [['LAW-01']],
  closeVessel: [['PRS-04']],
  moveWarmer: [['PRS-05']],
  heatBottles: [['PRS-06']],
  enterCellar: [['CO2-01', 'CO2-02'], ['CO2-03']],
  useVessel: [['MAT-02'], ['MAT-04'], ['CLN-04']],
  clean: [['CLN-01'], ['CLN-02'], ['CLN-04']],
  titrate: [['CLN-03']],
  pasteurise: [['PAS-01'], ['PAS-02']],
};

/** What must have spoken for this use of these facts; null where there is no sourced rule. */
export function cornerstonesOf(use: Use, facts: SafetyFacts): Cornerstones | null {
  const anyProduct = BY_USE[use];
  if (anyProduct) return anyProduct;
  const { product } = facts;
  return (product && BY_PRODUCT[use]?.[product]) ?? null;
}

/** True when the use is asked about a product, so that the product must be known first. */
export function asksForProduct(use: Use): boolean {
  return BY_PRODUCT[use] !== undefined;
}
