import { alcoholDensity } from '../must/alcohol.ts';
import type { Act } from './act.ts';
import type { EntryId, VesselId } from './ids.ts';
import type { Liquid } from './liquid.ts';

/** So many microlitres less stand in a vessel than came together in it. Kept in the line that joined them. */
export interface Contraction {
  readonly vesselId: VesselId;
  readonly contractionUl: number;
}

/** A contraction at a line that a correction played again. */
export interface ContractionAnew extends Contraction {
  readonly entryId: EntryId;
}

/**
 * Contraction is written from this share of the joined volume on, in millionths: 0.2 %. That is about a fifth of what a
 * graduated household vessel shows (1 %, common practice, no source). The same formula also lets weak mixtures grow, by
 * 0.14 % at most (30 % vol into three times as much water, OIML R 22 at 20 °C), which stays below: no volume ever grows.
 */
export const CONTRACTION_LEAST_PPM = 2000;

export interface Joined {
  /** Whole microlitres that the joined liquid is less than its parts; 0 below the least, or where a part is not known. */
  readonly contractionUl: number;
  /** Some part was never measured, and with it as water the contraction would be worth writing. */
  readonly isAsAdded: boolean;
}

/**
 * How much less liquids fill together than apart, at 20 °C: their alcohol and water by OIML R 22 before and after, so that
 * 50 mL of pure alcohol and 50 mL of water give 96.5 mL. What is dissolved fills the same before and after, and so does
 * not enter. A part is known when nothing in it was left unmeasured, or its alcohol was measured; the unmeasured rest then
 * counts as water.
 */
export function contractionOf(parts: readonly Liquid[]): Joined {
  const liquids = parts.filter(({ volumeUl }) => volumeUl > 0);
  const sumUl = liquids.reduce((sum, { volumeUl }) => sum + volumeUl, 0);
  const measured = liquids.map(({ massesUg }) => {
    const { water = 0, ethanol = 0, unassayed = 0 } = massesUg;
    return { ethanol, water: water + unassayed };
  });
  const together = measured.reduce(
    (sum, each) => ({ ethanol: sum.ethanol + each.ethanol, water: sum.water + each.water }),
    { ethanol: 0, water: 0 },
  );
  const apartUl = measured.reduce((sum, each) => sum + spiritUl(each), 0);
  const contractionUl = Math.round(apartUl - spiritUl(together));
  if (liquids.length < 2 || contractionUl * 1_000_000 < sumUl * CONTRACTION_LEAST_PPM) {
    return { contractionUl: 0, isAsAdded: false };
  }
  return liquids.every(isKnown)
    ? { contractionUl: Math.min(contractionUl, sumUl - 1), isAsAdded: false }
    : { contractionUl: 0, isAsAdded: true };
}

function isKnown({ massesUg: { ethanol = 0, unassayed = 0 } }: Liquid): boolean {
  return unassayed === 0 || ethanol > 0;
}

/** Microlitres that so much alcohol and water fill at 20 °C. */
function spiritUl({ ethanol, water }: { readonly ethanol: number; readonly water: number }): number {
  const wholeUg = ethanol + water;
  if (wholeUg === 0) return 0;
  const density = alcoholDensity({ ethanolMassFraction: ethanol / wholeUg, temperatureCelsius: 20 });
  if (!density.ok) throw new Error('a share of a whole lies between 0 and 1');
  return wholeUg / density.value;
}

/** What a line says of its own contraction, by vessel; nothing in lines of an earlier day, and in acts that join nothing. */
export function contractionsIn(act: Act): ReadonlyMap<string, number> {
  const told = 'contractions' in act && act.kind !== 'restate' ? (act.contractions ?? []) : [];
  return new Map(told.map(({ vesselId, contractionUl }) => [vesselId, contractionUl]));
}

/** The act as the book is to keep it: with the contractions that were reckoned when it was decided. */
export function withContractions(
  act: Act,
  reckoned: {
    readonly contractions?: readonly Contraction[];
    readonly contractionsAnew?: readonly ContractionAnew[];
  },
): Act {
  const { contractions = [], contractionsAnew = [] } = reckoned;
  switch (act.kind) {
    case 'restate':
      return contractionsAnew.length === 0 ? act : { ...act, contractions: [...contractionsAnew] };
    case 'addTo':
    case 'seed':
    case 'transfer':
    case 'split':
    case 'blend':
    case 'drawAndRefill':
    case 'returnBottles':
      return contractions.length === 0 ? act : { ...act, contractions: [...contractions] };
    default:
      return act;
  }
}
