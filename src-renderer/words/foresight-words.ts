import type { HouseRules } from '#core/contract/house-rules.ts';
import type { Foresight } from '#core/contract/shelves.ts';
import { roundedText } from '#core/quantities/round.ts';
import { sayAlcohol, sayGravity } from './quantity-words.ts';
import { sayDate } from './time-words.ts';

/** One line of what the measured must may become: what it is, the figure, and where the figure comes from. */
export interface ForesightLine {
  readonly label: string;
  readonly value: string;
  readonly note: string;
}

/** The lines of the foresight card. Theory and plan are named apart; none of them is ever used for a verdict. */
export function sayForesight(foresight: Foresight, rules: HouseRules): readonly ForesightLine[] {
  const f = foresight;
  const acid = (grams: number): string => `${roundedText(grams, 1)}\u00A0%`;
  const other =
    rules.gravity === 'SG'
      ? `${roundedText(f.brix, 1)}\u00A0°Bx`
      : `${roundedText(f.originalGravitySg, 3)}\u00A0SG`;
  return [
    {
      label: 'Gravity at the start',
      value: sayGravity(f.originalGravitySg, rules),
      note: `Measured ${sayDate(f.measuredAtMs, rules)}, at 20\u00A0°C; ${other}.`,
    },
    {
      label: 'Alcohol, theory',
      value: sayAlcohol(f.alcoholTheoryPercent),
      note: 'If every gram of sugar became alcohol. It cannot be more.',
    },
    {
      label: 'Alcohol, plan',
      value: `${roundedText(f.alcoholPlanPercent, 1)} ± ${roundedText(f.alcoholPlanUncertainty, 1, 'upper')}\u00A0% vol`,
      note: 'At 16.83 g of sugar in a litre for each per cent, the convention of the EU and the OIV.',
    },
    {
      label: 'Alcohol now',
      value:
        f.alcoholNowPercent === null
          ? 'Not known'
          : `${roundedText(f.alcoholNowPercent, 1)}${f.alcoholNowUncertainty === null ? '' : ` ± ${roundedText(f.alcoholNowUncertainty, 1, 'upper')}`}\u00A0% vol`,
      note:
        f.alcoholNowPercent === null
          ? 'It takes a later gravity, and a mother at work hides it.'
          : 'From the fall in gravity so far; worked out, not measured.',
    },
    {
      label: 'Acidity, theory',
      value: `${acid(f.acidityTheoryGramsPer100Ml)} as acetic`,
      note: 'If all of the alcohol became acetic acid, in g in 100 mL.',
    },
    {
      label: 'Acidity, plan',
      value: `${acid(f.acidityPlanLowGramsPer100Ml)} to ${acid(f.acidityPlanHighGramsPer100Ml)} as acetic`,
      note: 'With 75 to 90 % of theory, usual for a still surface at home: from memory, still to be confirmed.',
    },
  ];
}
