import { SURFACE_YIELD } from '#core/acid/acetification.ts';
import { TYPICAL_PH } from '#core/acid/ph.ts';
import { SEEDING_ADVICE } from '#core/acid/seeding.ts';
import { ACETIC_BACTERIA_STOP } from '#core/acid/sulfite.ts';
import { PEAR_SORBITOL_GRAMS_PER_LITRE } from '#core/must/juices.ts';
import { SUGAR_PER_PERCENT_OLD } from '#core/must/potential-alcohol.ts';
import { YEAST_ADVICE } from '#core/must/yeast.ts';

interface Range {
  readonly low: number;
  readonly high: number;
}

/** Our own range for each advisory row. A hint to a keeper, never a refusal. */
export const ADVICE: Readonly<Record<string, Range>> = {
  'STO-OLD-FACTOR': SUGAR_PER_PERCENT_OLD,
  'JUI-SORBITOL-PEAR': PEAR_SORBITOL_GRAMS_PER_LITRE,
  'PH-RANGE-vinegar': TYPICAL_PH.vinegar,
  'PH-RANGE-apple juice': TYPICAL_PH.appleJuice,
  'PH-RANGE-kombucha, finished': TYPICAL_PH.finishedKombucha,
  'PH-RANGE-cider vinegar': TYPICAL_PH.ciderVinegar,
  'SO2-ACETO': { low: ACETIC_BACTERIA_STOP.lowMolecular, high: ACETIC_BACTERIA_STOP.highMolecular },
  'YST-DOSE': YEAST_ADVICE.dryYeastDose,
  'YST-REHYD': YEAST_ADVICE.rehydrationCelsius,
  'YST-CELLS': YEAST_ADVICE.cellsAt25GramsPerHl,
  'YST-TEMP': YEAST_ADVICE.fermentationCelsius,
  'YST-APICULATE': YEAST_ADVICE.wildYeastFadesPercentVol,
  'YST-SACC': YEAST_ADVICE.wineYeastTolerancePercentVol,
  'YST-LAG': YEAST_ADVICE.lagHours,
  'ACF-START-ACID': SEEDING_ADVICE.startAcidity,
  'ACF-SEED-SHARE': SEEDING_ADVICE.seedShare,
  'ACF-ALC-OK': SEEDING_ADVICE.startAlcohol,
  'ACF-ALC-INHIB': SEEDING_ADVICE.slowingAlcohol,
  'ACF-TEMP-OPT': SEEDING_ADVICE.temperature,
  'ACF-TEMP-LIM': SEEDING_ADVICE.temperatureLimit,
  'ACF-RATE-STATIC': SEEDING_ADVICE.surfaceRate,
  'ACF-OVEROX': SEEDING_ADVICE.reserveAlcohol,
};

/** Advisory rows that nothing in the core rests on, each with its reason. */
export const ADVICE_NOT_USED: Readonly<Record<string, string>> = {
  'ACF-YIELD': `Submerged plants; a home plans with ${SURFACE_YIELD.low}–${SURFACE_YIELD.high} on a still surface.`,
  'ACF-RATE-SUBM': 'Submerged plants; the row itself says not to use it at home.',
  'REF-SLO-SD': 'The spread of wines; its lower end is the U of the refractometer estimate, tested there.',
  'LEGAL-EU': 'The span of two limits; each is a limit of rules VIN-03 and VIN-05 and tested there.',
  'BRINE-KRAUT': 'Salt on cabbage alone; rule VEG-03 has salt by weight of the whole, 2–3 %.',
  'CO2-BOTTLE': 'Pressure seen in champagne bottles; a bottle’s rating comes from its maker.',
  'CO2-BEERBOTTLE': 'A practice figure; rule PRS-02 has ratings by kind of bottle.',
};
