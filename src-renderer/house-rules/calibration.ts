import type { HouseRules } from '#core/contract/house-rules.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';

const LOWEST_CELSIUS = 0;
const HIGHEST_CELSIUS = 40;

export type CalibrationReading =
  | { readonly type: 'celsius'; readonly celsius: number }
  | { readonly type: 'wrong'; readonly sentence: string };

/** Reads the temperature a hydrometer is marked for; 0 to 40 °C, as the file takes it. */
export function readCalibration(text: string, rules: HouseRules): CalibrationReading {
  const read = parseQuantity('temperature', text, rules);
  const sample = rules.temperature === 'F' ? '68 F' : '20 C';
  if (!read.ok)
    return {
      type: 'wrong',
      sentence: `This is not read as a temperature. Type what the hydrometer says, for instance ${sample}.`,
    };
  const celsius = Math.round(read.value.value * 100) / 100;
  if (celsius < LOWEST_CELSIUS || celsius > HIGHEST_CELSIUS) {
    return {
      type: 'wrong',
      sentence:
        'A hydrometer is marked for 0 to 40 °C (32 to 104 °F), most of them for 20 °C (68 °F) or 60 °F.',
    };
  }
  return { type: 'celsius', celsius };
}
