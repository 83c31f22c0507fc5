import type { ReadingValues } from '#core/ledger/act.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import { formatQuantity, shownText } from '#core/quantities/format-quantity.ts';
import { sayAcidity, sayAlcohol, sayGravity, sayPh, sayTemperature, sayVolume } from './quantity-words.ts';

/** The values a reading may have, whether asked for, as written, or as sent with what was worked out from them. */
export type ReadingSaid = Pick<
  ReadingValues,
  | 'gravitySg'
  | 'acidityGramsPer100Ml'
  | 'acidityAs'
  | 'ph'
  | 'temperatureCelsius'
  | 'alcoholPercentVolume'
  | 'freeSulfiteMgPerL'
  | 'volumeUl'
  | 'taste'
> & { readonly detail?: ReadingValues['detail'] };

const saySulfite = (value: number, house: HouseUnits): string =>
  shownText(formatQuantity({ kind: 'freeSulfite', value, house }));

const saySalt = (value: number, house: HouseUnits): string =>
  shownText(formatQuantity({ kind: 'salt', value, house }));

/** The parts of a reading as a list of phrases in the order a keeper looks for them; the taste comes last. */
export function readingPhrases(values: ReadingSaid, house: HouseUnits): string[] {
  const phrases: string[] = [];
  const warmth = values.temperatureCelsius === null ? null : sayTemperature(values.temperatureCelsius, house);
  if (values.gravitySg !== null) {
    const gravity = `gravity ${sayGravity(values.gravitySg, house)}`;
    phrases.push(warmth === null ? gravity : `${gravity} at ${warmth}`);
  }
  if (values.acidityGramsPer100Ml !== null) {
    phrases.push(`acidity ${sayAcidity(values.acidityGramsPer100Ml, values.acidityAs)}`);
  }
  if (values.ph !== null) phrases.push(sayPh(values.ph));
  if (warmth !== null && values.gravitySg === null) phrases.push(`temperature ${warmth}`);
  if (values.alcoholPercentVolume !== null)
    phrases.push(`alcohol ${sayAlcohol(values.alcoholPercentVolume)}`);
  if (values.freeSulfiteMgPerL !== null) {
    phrases.push(`free SO2 ${saySulfite(values.freeSulfiteMgPerL, house)}`);
  }
  const { totalSulfiteMgPerL = null, saltPercent = null } = values.detail ?? {};
  if (totalSulfiteMgPerL !== null) phrases.push(`total SO2 ${saySulfite(totalSulfiteMgPerL, house)}`);
  if (saltPercent !== null) phrases.push(`salt ${saySalt(saltPercent, house)}`);
  if (values.volumeUl !== null) phrases.push(`level ${sayVolume(values.volumeUl, house)}`);
  if (values.taste !== '') phrases.push(`tasted: ${values.taste}`);
  return phrases;
}

/** The one value that names a reading in a short line: gravity, acidity, pH, or whatever else it holds. */
export function readingInShort(values: ReadingSaid, house: HouseUnits): string {
  if (values.gravitySg !== null) return sayGravity(values.gravitySg, house);
  if (values.acidityGramsPer100Ml !== null) {
    return shownText(formatQuantity({ kind: 'acidity', value: values.acidityGramsPer100Ml, house }));
  }
  if (values.ph !== null) return sayPh(values.ph);
  if (values.temperatureCelsius !== null) return sayTemperature(values.temperatureCelsius, house);
  if (values.alcoholPercentVolume !== null) return sayAlcohol(values.alcoholPercentVolume);
  if (values.freeSulfiteMgPerL !== null) return saySulfite(values.freeSulfiteMgPerL, house);
  const { totalSulfiteMgPerL = null, saltPercent = null } = values.detail ?? {};
  if (totalSulfiteMgPerL !== null) return saySulfite(totalSulfiteMgPerL, house);
  if (saltPercent !== null) return saySalt(saltPercent, house);
  if (values.volumeUl !== null) return sayVolume(values.volumeUl, house);
  return 'of taste';
}
