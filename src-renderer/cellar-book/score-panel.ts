import type { TastingRow } from '#core/contract/tastings.ts';
import { SCORE_MAX } from '#core/ledger/taste-words.ts';
import { isFaultWord } from '#core/ledger/taste-words.ts';
import type { ReadingPanel } from './reading-panels.ts';
import { MS_PER_DAY } from './time-axis.ts';

/** The scores of a batch as a panel like those of the readings. A tasting that names a fault is drawn hollow. */
export function scorePanel(tastings: readonly TastingRow[]): ReadingPanel {
  return {
    ...{ measure: 'score', title: 'Score', unit: `of ${SCORE_MAX}`, decimals: 0, gapDays: Infinity },
    scale: { fromNothing: true, leastSpan: SCORE_MAX, stepsMost: SCORE_MAX, decimalsLeast: 0 },
    points: tastings.flatMap(({ score, atMs, entryId, words }) =>
      score === null
        ? []
        : [{ x: atMs / MS_PER_DAY, y: score, atMs, entryId, doubtful: words.some(isFaultWord) }],
    ),
  };
}
