import type { HouseUnits } from '#core/quantities/house-units.ts';
import { trimmed } from '../words/quantity-words.ts';

/** A specific gravity as a field reads it back, whatever scale the household reads in. */
export const sgText = (sg: number): string => `${trimmed(sg, 5)} SG`;

/** A temperature as a field reads it back, in the household's degrees. */
export const celsiusText = (celsius: number, { temperature }: HouseUnits): string =>
  temperature === 'C' ? `${trimmed(celsius, 1)} C` : `${trimmed(celsius * 1.8 + 32, 2)} F`;
