import { correctedGravity } from '#core/ferments/interpret-reading.ts';
import type { ReadingValues } from '#core/ledger/act.ts';
import type { HouseUnits } from '#core/quantities/house-units.ts';
import type { Understood } from '#core/quantities/understood.ts';
import { sayGravity, sayTemperature } from '../words/quantity-words.ts';

/** The gravity at 20 °C beside the value as read: a correction is shown, never silent. Null where none is called for. */
export function sayCorrected(
  understood: Understood,
  given: {
    readonly values: ReadingValues | null;
    readonly instrument: string | undefined;
    readonly house: HouseUnits;
  },
): string | null {
  const { values, instrument, house } = given;
  if (understood.kind !== 'gravity' || instrument !== 'hydrometer') return null;
  const temperatureCelsius = values?.temperatureCelsius ?? null;
  if (values === null || temperatureCelsius === null)
    return 'Without a sample temperature it is not corrected';
  const warmth = sayTemperature(temperatureCelsius, house);
  const at20 = correctedGravity(values);
  if (at20 === null) return `At ${warmth} it cannot be corrected`;
  return `Read at ${warmth}, it is ${sayGravity(at20, house)} at ${sayTemperature(20, house)}`;
}
