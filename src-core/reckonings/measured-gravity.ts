import { brixToGravity, gravityToBrix } from '../quantities/gravity.ts';
import { defaultUncertainty } from '../quantities/uncertainty.ts';
import type { GRAVITY_METHODS } from './fields.ts';
import { exact, measured, type MeasuredValue } from './measured.ts';

export type GravityMethod = (typeof GRAVITY_METHODS)[number];

/**
 * A gravity with its uncertainty in SG: the keeper's own, or that of the instrument. A refractometer's ±0.3 °Bx is turned into
 * SG at the gravity itself. `exact` is for a number out of a book.
 */
export function measuredGravity(
  gravity: number,
  method: GravityMethod,
  given: number | null = null,
): MeasuredValue {
  switch (method) {
    case 'exact':
      return given === null ? exact(gravity) : { value: gravity, uncertainty: given, fromMethod: false };
    case 'hydrometer':
    case 'hydrometerNarrow':
      return measured(gravity, method, given);
    case 'refractometer': {
      if (given !== null && given > 0) return { value: gravity, uncertainty: given, fromMethod: false };
      const brix = gravityToBrix(gravity);
      const uncertaintyBrix = defaultUncertainty('refractometer', 0);
      const above = brixToGravity((brix.ok ? brix.value : 0) + uncertaintyBrix);
      const here = brixToGravity(brix.ok ? brix.value : 0);
      const uncertainty = above.ok && here.ok ? above.value - here.value : uncertaintyBrix * SG_PER_BRIX;
      return { value: gravity, uncertainty, fromMethod: true };
    }
  }
}

/** SG for a °Brix, about: 0.0041 over the range of musts, for the one gravity at the top of the scale. */
const SG_PER_BRIX = 0.0041;
