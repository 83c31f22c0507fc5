import type { Verdict } from '#core/contract/verdict.ts';
import { roundedText } from '#core/quantities/round.ts';
import type { ChartView } from './panel-chart.ts';

/** The acidity a labelling rule asks of this batch, as the rule drawn across the chart; null when none speaks of it. */
export function acidityTarget(verdicts: readonly Verdict[]): ChartView['target'] {
  for (const { use, findings } of verdicts) {
    if (use !== 'labelAsVinegar') continue;
    for (const { ruleId, numbers } of findings) {
      const value = numbers['limit'];
      if (!ruleId.startsWith('VIN-') || typeof value !== 'number') continue;
      const shortLabel = `Target ${roundedText(value, 1)} %`;
      return { measure: 'acidity', value, label: `${shortLabel}, rule ${ruleId}`, shortLabel };
    }
  }
  return null;
}
