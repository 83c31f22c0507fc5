import { convertAcidity } from '../acid/acid-equivalents.ts';
import type { Act, ActOf, ReadingValues } from '../ledger/act.ts';
import { tidyMasses, totalUg, unassayed, waterUg, type Masses } from '../ledger/masses.ts';
import type { FermentKind } from '../ledger/stage.ts';
import { densityFromPercentVol, ETHANOL_GRAMS_PER_LITRE_PER_PERCENT } from '../must/alcohol.ts';
import { JUICE_COMPOSITION } from '../must/juices.ts';
import { fermentableSugar } from '../must/must-sugar.ts';
import { sucroseGramsPerLitre } from '../must/sugar-solution.ts';
import { gravityToBrix } from '../quantities/gravity.ts';
import { waterDensity } from '../quantities/water-density.ts';
import { correctedGravity } from './interpret-reading.ts';
import { FERMENTS } from './registry.ts';

/**
 * The act with what comes in weighed by component, as far as it was measured. It is worked out once, when the act is
 * written, and kept in the line: a later program that knows better reads the same book.
 */
export function withMasses(act: Act): Act {
  switch (act.kind) {
    case 'startBatch': {
      const massesUg = startedMasses(act);
      return massesUg === null ? act : { ...act, massesUg };
    }
    case 'addTo': {
      const massesUg = addedMasses(act);
      return massesUg === null ? act : { ...act, massesUg };
    }
    default:
      return act;
  }
}

function startedMasses(act: ActOf<'startBatch'>): Masses | null {
  const { measured, volumeUl, ferment, stage } = act;
  if (measured === null) return null;
  const isMust = stage === 'waiting' || stage === 'yeast';
  return isMust ? assayMust({ measured, volumeUl, ferment }) : assayFinished({ measured, volumeUl });
}

/**
 * A must by its gravity: dissolved extract from °Brix (ICUMSA, as in `quantities/gravity`), of it the sugar that yeast
 * can use at the middle of its published range (`must/must-sugar`), fixed acid when it was titrated, the rest other.
 * Null when there is no gravity, or one outside the tables. The gravity is that at 20/20 °C.
 */
export function assayMust(given: {
  readonly measured: ReadingValues;
  readonly volumeUl: number;
  readonly ferment: FermentKind;
}): Masses | null {
  const { measured, volumeUl, ferment } = given;
  const gravity = correctedGravity(measured);
  if (gravity === null || gravity < 1) return null;
  const brix = gravityToBrix(gravity);
  const density = waterDensity(20);
  if (!brix.ok || !density.ok) return null;
  const extract = sucroseGramsPerLitre({ brix: brix.value, temperatureCelsius: 20 });
  const sugar = fermentableSugar({ brix: brix.value, of: FERMENTS[ferment].sugarSource ?? 'other' });
  if (!extract.ok || !sugar.ok) return null;
  const ug = (gramsPerLitre: number): number => Math.round(gramsPerLitre * volumeUl);
  const extractUg = ug(extract.value);
  const sugarUg = Math.min(extractUg, ug(sugar.value.midGramsPerLitre));
  const fixedAcid = Math.min(extractUg - sugarUg, ug(titratedGramsPerLitre(measured)));
  const wholeUg = ug(gravity * density.value);
  return tidyMasses({
    water: wholeUg - extractUg,
    sugar: sugarUg,
    fixedAcid,
    other: extractUg - sugarUg - fixedAcid,
  });
}

/** Something already fermented: alcohol, acid and salt as far as they were measured; of the rest nothing is known. */
function assayFinished(given: {
  readonly measured: ReadingValues;
  readonly volumeUl: number;
}): Masses | null {
  const { measured, volumeUl } = given;
  const ug = (gramsPerLitre: number): number => Math.round(gramsPerLitre * volumeUl);
  const ethanol = ug((measured.alcoholPercentVolume ?? 0) * ETHANOL_GRAMS_PER_LITRE_PER_PERCENT);
  const acid = ug(titratedGramsPerLitre(measured));
  const wholeUg = Math.round(weighs(measured) * volumeUl);
  const salt = Math.round(wholeUg * ((measured.detail?.saltPercent ?? 0) / 100));
  const known = {
    ...{ ethanol, salt },
    ...(measured.acidityAs === 'acetic' ? { acetic: acid } : {}),
    ...(measured.acidityAs === 'lactic' ? { lactic: acid } : {}),
  };
  const knownUg = totalUg(known);
  return knownUg === 0 ? null : tidyMasses({ ...known, unassayed: Math.max(0, wholeUg - knownUg) });
}

/**
 * Grams a litre: by its gravity where that was read, else as alcohol and water of its strength (OIML R 22), so that pure
 * alcohol is not counted at the weight of water.
 */
function weighs(measured: ReadingValues): number {
  const gravity = correctedGravity(measured);
  const water = waterDensity(20);
  if (gravity !== null && water.ok) return gravity * water.value;
  const strength = measured.alcoholPercentVolume ?? 0;
  const density = densityFromPercentVol({ alcoholPercentVol: strength, temperatureCelsius: 20 });
  return strength > 0 && density.ok ? density.value : waterUg(1_000_000) / 1_000_000;
}

/** Titrated acid in g/L; sulfuric as a basis is counted as tartaric, which it stands for. */
function titratedGramsPerLitre({ acidityGramsPer100Ml, acidityAs }: ReadingValues): number {
  if (acidityGramsPer100Ml === null || acidityAs === null) return 0;
  if (acidityAs !== 'sulfuric') return acidityGramsPer100Ml * 10;
  const tartaric = convertAcidity({ acidity: acidityGramsPer100Ml, from: 'sulfuric', to: 'tartaric' });
  return tartaric.ok ? tartaric.value * 10 : 0;
}

/** What an addition is made of, where its kind says so; null where nobody measured it (juice, fruit). */
function addedMasses({ what, ingredient, volumeUl, alcoholPercentVolume }: ActOf<'addTo'>): Masses | null {
  const { massUg } = ingredient;
  switch (what) {
    case 'spirit':
      return spiritMasses(volumeUl, alcoholPercentVolume ?? null);
    case 'water':
      return tidyMasses({ water: massUg ?? waterUg(volumeUl) });
    case 'sugar':
      return massUg === null ? null : tidyMasses({ sugar: massUg });
    case 'honey': {
      if (massUg === null) return null;
      const { sugars, water } = JUICE_COMPOSITION.honey;
      const [sugarUg, waterPartUg] = [
        Math.round((massUg * sugars) / 100),
        Math.round((massUg * water) / 100),
      ];
      return tidyMasses({ sugar: sugarUg, water: waterPartUg, other: massUg - sugarUg - waterPartUg });
    }
    case 'salt':
      return massUg === null ? null : tidyMasses({ salt: massUg });
    case 'acid':
      return massUg === null ? null : tidyMasses({ fixedAcid: massUg });
    case 'sulfite':
    case 'nutrient':
    case 'other': {
      const liquid = volumeUl === 0 ? {} : unassayed(volumeUl);
      return massUg === null ? liquid : tidyMasses({ other: massUg });
    }
    case 'juice':
    case 'fruit':
      return null;
  }
}

/** Spirit of a told strength: alcohol and water by OIML R 22. Null when its strength was not told. */
function spiritMasses(volumeUl: number, alcoholPercentVol: number | null): Masses | null {
  if (alcoholPercentVol === null || volumeUl === 0) return null;
  const density = densityFromPercentVol({ alcoholPercentVol, temperatureCelsius: 20 });
  if (!density.ok) return null;
  const wholeUg = Math.round(density.value * volumeUl);
  const gramsPerLitre = alcoholPercentVol * ETHANOL_GRAMS_PER_LITRE_PER_PERCENT;
  const ethanol = Math.min(wholeUg, Math.round(gramsPerLitre * volumeUl));
  return tidyMasses({ ethanol, water: wholeUg - ethanol });
}
