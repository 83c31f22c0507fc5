import type { ReadingRow } from '#core/contract/shelves.ts';
import type { Verdict } from '#core/contract/verdict.ts';
import type { Sealing } from '#core/safety/facts-of-uses.ts';
import { GAS, NEAR_RATING, RATING } from '#core/safety/rules/pressure.ts';

/** The gas that could yet be made in a bottle against what the bottle holds, in volumes of CO2, as rule PRS-02 reckons it. */
export interface BottleGas {
  readonly volumes: number;
  readonly points: number;
  readonly primingGramsPerLitre: number;
  readonly rating: number;
  readonly fits: 'yes' | 'barely' | 'no';
}

/** What is still wanted before the gas can be reckoned. */
export type GasWanting = 'gravity' | 'bottle' | 'priming';

/**
 * The gas of the newest gravity on record. A ferment shown to stand still and dry counts one point, any other all that is left
 * above 0.996 with the reading's error. It is arithmetic for a choice of bottles, not a verdict.
 */
export function gasInBottle(given: {
  readonly readings: readonly Pick<ReadingRow, 'atMs' | 'gravityCorrectedSg' | 'gravityUncertainty'>[];
  readonly verdict: Pick<Verdict, 'findings'>;
  readonly bottle: Sealing['bottle'];
  readonly makerRatingVolumes: number | null;
  readonly primingGramsPerLitre: number | null;
}): BottleGas | GasWanting {
  const { readings, verdict, bottle, makerRatingVolumes, primingGramsPerLitre } = given;
  const newest = readings
    .filter(
      ({ gravityCorrectedSg, gravityUncertainty }) =>
        gravityCorrectedSg !== null && gravityUncertainty !== null,
    )
    .toSorted((a, b) => a.atMs - b.atMs)
    .at(-1);
  if (newest === undefined) return 'gravity';
  const rating = bottle === null ? null : bottle === 'makerRated' ? makerRatingVolumes : RATING[bottle];
  if (rating === null || !(rating > 0)) return 'bottle';
  if (primingGramsPerLitre === null || !(primingGramsPerLitre >= 0)) return 'priming';
  const settled = verdict.findings.some(({ ruleId, verdict: said }) => ruleId === 'PRS-01' && said === 'ok');
  const high = (newest.gravityCorrectedSg ?? Number.NaN) + (newest.gravityUncertainty ?? Number.NaN);
  const points = settled ? 1 : Math.max(1, 1000 * (high - GAS.floorGravity));
  const volumes = GAS.residual + GAS.perPoint * points + GAS.perPrimingGram * primingGramsPerLitre;
  const fits = volumes > rating ? 'no' : volumes > rating - NEAR_RATING ? 'barely' : 'yes';
  return { volumes, points, primingGramsPerLitre, rating, fits };
}
