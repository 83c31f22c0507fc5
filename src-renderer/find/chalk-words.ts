import { correctedGravity } from '#core/ferments/interpret-reading.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ReadingValues } from '#core/ledger/act.ts';
import { sayGravity, sayTemperature } from '../words/quantity-words.ts';
import { readingPhrases } from '../words/reading-words.ts';

/** The temperature gravities are compared at: the 20/20 °C scale of the book. */
const SCALE_CELSIUS = 20;

/**
 * A chalked reading in words, with the gravity at 20 °C beside the one that was read off a hydrometer: a correction is
 * shown, never silent.
 */
export function sayChalked(values: ReadingValues, rules: HouseRules): string {
  const said = readingPhrases(values, rules).join(', ');
  const correction = sayCorrection(values, rules);
  return correction === null ? said : `${said} (${correction})`;
}

function sayCorrection(values: ReadingValues, rules: HouseRules): string | null {
  if (values.gravityInstrument !== 'hydrometer' || values.temperatureCelsius === null) return null;
  const at20 = correctedGravity(values);
  if (at20 === null) return 'too warm or too cold to be corrected';
  return `${sayGravity(at20, rules)} at ${sayTemperature(SCALE_CELSIUS, rules)}`;
}
