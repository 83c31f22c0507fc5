import type { ReadingValues } from '#core/ledger/act.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';
import { formatQuantity, shownText } from '#core/quantities/format-quantity.ts';

const say = (kind: QuantityKind, value: number, house: HouseUnits): string =>
  shownText(formatQuantity({ kind, value, house }));

/** An amount of liquid as the household reads it. */
export const saysVolume = (volumeUl: number, house: HouseUnits): string => say('volume', volumeUl, house);
/** A mass as the household reads it. */
export const saysMass = (massUg: number, house: HouseUnits): string => say('mass', massUg, house);

/** The parts of a reading as a list of phrases in the order a keeper looks for them; the taste comes last. */
export function readingPhrases(values: ReadingValues, house: HouseUnits): string[] {
  const phrases: string[] = [];
  const { temperatureCelsius } = values;
  const warmth = temperatureCelsius === null ? null : say('temperature', temperatureCelsius, house);
  if (values.gravitySg !== null) {
    const gravity = `gravity ${say('gravity', values.gravitySg, house)}`;
    phrases.push(warmth === null ? gravity : `${gravity} at ${warmth}`);
  }
  if (values.acidityGramsPer100Ml !== null) {
    const acidity = `acidity ${say('acidity', values.acidityGramsPer100Ml, house)}`;
    phrases.push(
      values.acidityAs === null ? `${acidity}, acid not named` : `${acidity} as ${values.acidityAs}`,
    );
  }
  if (values.ph !== null) phrases.push(say('pH', values.ph, house));
  if (warmth !== null && values.gravitySg === null) phrases.push(`temperature ${warmth}`);
  if (values.alcoholPercentVolume !== null) {
    phrases.push(`alcohol ${say('alcohol', values.alcoholPercentVolume, house)}`);
  }
  if (values.freeSulfiteMgPerL !== null) {
    phrases.push(`free SO2 ${say('freeSulfite', values.freeSulfiteMgPerL, house)}`);
  }
  if (values.volumeUl !== null) phrases.push(`level ${say('volume', values.volumeUl, house)}`);
  if (values.taste !== '') phrases.push(`tasted: ${values.taste}`);
  return phrases;
}

/** The one value that names a reading in a short line: gravity, acidity, pH, or whatever else it holds. */
export function readingInShort(values: ReadingValues, house: HouseUnits): string {
  if (values.gravitySg !== null) return say('gravity', values.gravitySg, house);
  if (values.acidityGramsPer100Ml !== null) return say('acidity', values.acidityGramsPer100Ml, house);
  if (values.ph !== null) return say('pH', values.ph, house);
  if (values.temperatureCelsius !== null) return say('temperature', values.temperatureCelsius, house);
  if (values.alcoholPercentVolume !== null) return say('alcohol', values.alcoholPercentVolume, house);
  if (values.freeSulfiteMgPerL !== null) return say('freeSulfite', values.freeSulfiteMgPerL, house);
  if (values.volumeUl !== null) return say('volume', values.volumeUl, house);
  return 'of taste';
}
