/** An empty vessel that could take juice. */
export interface RoomForJuice {
  readonly vesselId: string;
  readonly capacityUl: number;
}

export interface VesselFit {
  readonly fills: readonly { readonly vesselId: string; readonly volumeUl: number }[];
  /** What no vessel has room for, µL. */
  readonly shortUl: number;
  /** Room left in the vessels used, above their foam headspace, µL. */
  readonly spareUl: number;
}

/** Share of a vessel filled while it foams. Rule PRS-04 asks for 10 % at least; practice leaves more. */
export const FOAM_FILL_SHARE = 0.85;

/**
 * Which empty vessels take so much juice, in whole microlitres that add up exactly: the largest first, and for the last of it
 * the smallest vessel that holds it. What does not fit is named as short. Volumes are not negative; a fill share in (0, 1].
 */
export function fitIntoVessels(given: {
  readonly volumeUl: number;
  readonly vessels: readonly RoomForJuice[];
  readonly fillShare?: number;
}): VesselFit {
  const share = given.fillShare ?? FOAM_FILL_SHARE;
  const free = given.vessels
    .map(({ vesselId, capacityUl }) => ({ vesselId, roomUl: Math.floor(capacityUl * share) }))
    .filter(({ roomUl }) => roomUl > 0)
    .toSorted((a, b) => b.roomUl - a.roomUl || (a.vesselId < b.vesselId ? -1 : 1));
  const fills: { readonly vesselId: string; readonly volumeUl: number }[] = [];
  let leftUl = Math.max(0, Math.floor(given.volumeUl));
  let spareUl = 0;
  while (leftUl > 0 && free.length > 0) {
    const wanted = leftUl;
    const holdsAll = free.findLastIndex(({ roomUl }) => roomUl >= wanted);
    const [chosen] = free.splice(Math.max(0, holdsAll), 1);
    if (!chosen) break;
    const volumeUl = Math.min(leftUl, chosen.roomUl);
    fills.push({ vesselId: chosen.vesselId, volumeUl });
    leftUl -= volumeUl;
    spareUl += chosen.roomUl - volumeUl;
  }
  return { fills, shortUl: leftUl, spareUl };
}
