import { muldiv } from './allocate.ts';
import { tidyMasses, type MassDeltas, type Masses } from './masses.ts';

/**
 * What a living liquid does to its own components. Each reaction gives the change of the vessel and of the air, in
 * whole micrograms; together they sum to nothing, whatever is rounded. Ratios in millionths, from the molar masses in
 * `must/stoichiometry` (CIAAW 2021).
 */
export const PPM = {
  ethanolFromHexose: 511_435,
  aceticFromEthanol: 1_303_523,
  oxygenPerEthanol: 694_567,
  oxygenPerAcetic: 1_065_676,
  carbonDioxidePerAcetic: 1_465_696,
} as const;
const WHOLE = 1_000_000;

export interface Reaction {
  readonly vessel: MassDeltas;
  readonly air: MassDeltas;
}

/**
 * Yeast turns so much hexose into ethanol and carbon dioxide with a yield in millionths of the theory (Gay-Lussac);
 * what the yield leaves away becomes yeast, glycerol and the like.
 */
export function ferment(sugarUg: number, yieldPpm: number): Reaction {
  const used = muldiv(sugarUg, yieldPpm, WHOLE);
  const ethanol = muldiv(used, PPM.ethanolFromHexose, WHOLE);
  const carbonDioxide = used - ethanol;
  return {
    vessel: tidyMasses({ sugar: -sugarUg, ethanol, other: sugarUg - used }),
    air: tidyMasses({ carbonDioxide }),
  };
}

/**
 * Bacteria turn so much ethanol into acetic acid and water with oxygen from the air, a share of it in millionths;
 * the rest evaporates.
 */
export function acetify(ethanolUg: number, acidSharePpm: number): Reaction {
  const oxidised = muldiv(ethanolUg, acidSharePpm, WHOLE);
  const acetic = muldiv(oxidised, PPM.aceticFromEthanol, WHOLE);
  const oxygen = muldiv(oxidised, PPM.oxygenPerEthanol, WHOLE);
  return {
    vessel: tidyMasses({ ethanol: -ethanolUg, acetic, water: oxidised + oxygen - acetic }),
    air: tidyMasses({ oxygen: -oxygen, ethanol: ethanolUg - oxidised }),
  };
}

/** Lactic bacteria turn hexose into twice its moles of lactic acid: gram for gram, nothing left over. */
export function sour(sugarUg: number): Reaction {
  return { vessel: tidyMasses({ sugar: -sugarUg, lactic: sugarUg }), air: {} };
}

/** With its alcohol gone a vinegar burns its own acid to carbon dioxide and water: C2H4O2 + 2 O2 = 2 CO2 + 2 H2O. */
export function overOxidise(aceticUg: number): Reaction {
  const oxygen = muldiv(aceticUg, PPM.oxygenPerAcetic, WHOLE);
  const carbonDioxide = muldiv(aceticUg, PPM.carbonDioxidePerAcetic, WHOLE);
  return {
    vessel: tidyMasses({ acetic: -aceticUg, water: aceticUg + oxygen - carbonDioxide }),
    air: tidyMasses({ oxygen: -oxygen, carbonDioxide }),
  };
}

/** How much richer in ethanol the vapour over a still, dilute surface at 20 °C is than the liquid. From memory. */
const RELATIVE_VOLATILITY = 8;

/**
 * What leaves a vessel by evaporating so many micrograms: water and ethanol, the vapour richer in ethanol
 * (y = αx/(1 + (α − 1)x)), never more than is there; liquid never assayed goes as it is. Nothing dissolved leaves.
 */
export function evaporated(masses: Masses, vapourUg: number): Masses {
  const { water = 0, ethanol = 0, unassayed = 0 } = masses;
  const volatileUg = water + ethanol + unassayed;
  const goesUg = Math.min(vapourUg, volatileUg);
  if (goesUg === 0) return {};
  const fromUnassayed = muldiv(goesUg, unassayed, volatileUg);
  const known = goesUg - fromUnassayed;
  if (known === 0) return tidyMasses({ unassayed: fromUnassayed });
  const spirit = RELATIVE_VOLATILITY * ethanol;
  const wished = spirit === 0 ? 0 : muldiv(known, spirit, spirit + water);
  const fromEthanol = Math.max(Math.min(wished, ethanol), known - water);
  return tidyMasses({ water: known - fromEthanol, ethanol: fromEthanol, unassayed: fromUnassayed });
}

/** Dry sucrose takes up water as yeast splits it: so many millionths of its weight, 18.015/342.297. */
const INVERSION_WATER_PPM = 52_630;

/** Sucrose becomes hexose with water from the same vessel, as far as there is water. */
export function invert(sucroseUg: number, waterUgThere: number): MassDeltas {
  const water = Math.min(waterUgThere, muldiv(sucroseUg, INVERSION_WATER_PPM, WHOLE));
  return tidyMasses({ water: -water, sugar: water });
}
