import type { Caution } from '#core/reckonings/cautions.ts';

/** Cautions that say: do not, or get out. They stand first and in the colour of a stop. */
export const STOPPING: ReadonlySet<Caution> = new Set<Caution>([
  'airDangerToLife',
  'moreGasThanBottleHolds',
  'gravityStillFalling',
  'sulfiteStopsVinegar',
]);
