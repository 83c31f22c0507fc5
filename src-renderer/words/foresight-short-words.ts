import type { Foresight } from '#core/contract/shelves.ts';
import { roundedText } from '#core/quantities/round.ts';

const one = (value: number): string => roundedText(value, 1);

/**
 * What the must may become in two or three sentences, plan and theory named apart; the leaf tells it line by line.
 * A forecast: it never says that anything is safe.
 */
export function sayForesightShort(foresight: Foresight): readonly string[] {
  const { alcoholNowPercent: now, alcoholNowUncertainty: error } = foresight;
  const { acidityPlanLowGramsPer100Ml: low, acidityPlanHighGramsPer100Ml: high } = foresight;
  const about =
    now === null ? null : `${one(now)}${error === null ? '' : ` ± ${roundedText(error, 1, 'upper')}`}`;
  return [
    ...(about === null ? [] : [`Now about ${about} % vol, from the fall in gravity.`]),
    `May become about ${one(foresight.alcoholPlanPercent)} % vol by plan, ${one(foresight.alcoholTheoryPercent)} in theory.`,
    `As vinegar then ${one(low)} to ${one(high)} % as acetic by plan; at most ${one(foresight.acidityTheoryGramsPer100Ml)} in theory.`,
  ];
}
