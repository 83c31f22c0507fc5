import { largestRemainder } from './allocate.ts';
import { addMasses, partMasses, type Masses } from './masses.ts';

export type Origins = Readonly<Record<string, number>>;

/**
 * An amount of liquid: its volume as observed, what it weighs by component, and where it came from (one token of its
 * origin batch a microlitre at filling).
 */
export interface Liquid {
  readonly volumeUl: number;
  readonly massesUg: Masses;
  readonly origins: Origins;
}

/**
 * Parts a liquid by volume: one part for each amount given, in order, and last what stays. The parts of every
 * component and every origin sum to what it was, to the microgram and the token (largest remainder; all parts at
 * once, so that the result does not depend on an order). The amounts together are not above the volume.
 */
export function partLiquid(liquid: Liquid, takenUl: readonly number[]): readonly Liquid[] {
  const restUl = liquid.volumeUl - takenUl.reduce((a, b) => a + b, 0);
  const volumes = [...takenUl, restUl];
  const masses = partMasses(liquid.massesUg, volumes);
  const origins: Record<string, number>[] = volumes.map(() => ({}));
  for (const [origin, tokens] of Object.entries(liquid.origins)) {
    largestRemainder(tokens, volumes).forEach((share, index) => {
      const part = origins[index];
      if (part !== undefined && share > 0) part[origin] = share;
    });
  }
  return volumes.map((volumeUl, index) => ({
    volumeUl,
    massesUg: masses[index] ?? {},
    origins: origins[index] ?? {},
  }));
}

export const NOTHING: Liquid = { volumeUl: 0, massesUg: {}, origins: {} };

export function joinLiquids(a: Liquid, b: Liquid): Liquid {
  const origins: Record<string, number> = { ...a.origins };
  for (const [origin, tokens] of Object.entries(b.origins)) origins[origin] = (origins[origin] ?? 0) + tokens;
  return {
    volumeUl: a.volumeUl + b.volumeUl,
    massesUg: addMasses(a.massesUg, b.massesUg),
    origins,
  };
}
