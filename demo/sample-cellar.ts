import { applesAndPears } from './sample-year/apples-and-pears.ts';
import { settleAll } from './sample-year/doings.ts';
import { cultures } from './sample-year/cultures.ts';
import { meadWineAndOak } from './sample-year/mead-wine-and-oak.ts';
import { placesAndVessels } from './sample-year/places-and-vessels.ts';
import { plumsAndBerries } from './sample-year/plums-and-berries.ts';
import { teaAndCrocks } from './sample-year/tea-and-crocks.ts';
import { tastings } from './sample-year/tastings.ts';
import { tellVisits, type Teller } from './sample-year/telling.ts';

export type { Teller };

export const SAMPLE_NAME = 'Mill House cellar';
/** The sample's clock stands here when it is opened: 25 November 2026, 10:00 UTC. */
export const SAMPLE_NOW_MS = Date.UTC(2026, 10, 25, 10, 0);

/**
 * Tells one household's year, from December 2025 to the morning the sample opens on, in the order in which it
 * happened. Always the same: no clock and no chance.
 */
export function tellSampleYear(teller: Teller): void {
  tellVisits(
    [
      ...placesAndVessels,
      ...cultures,
      ...applesAndPears,
      ...plumsAndBerries,
      ...meadWineAndOak,
      ...teaAndCrocks,
      ...tastings,
      ['2026-11-23 19:30', settleAll],
    ],
    teller,
  );
}
