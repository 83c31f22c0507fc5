import type { Silhouette } from '#core/ledger/stage.ts';

/** A point of a profile: height from the base (0) to the rim (1), and half-width (0 to 1 of the half of the width). */
export type ProfilePoint = readonly [height: number, halfWidth: number];

export interface SilhouetteShape {
  /** Height divided by width. */
  readonly aspect: number;
  readonly profile: readonly ProfilePoint[];
  /** Blown or thrown shapes are rounded between the points, moulded ones run straight. */
  readonly round: boolean;
  /** How far up (0 to 1) the vessel is filled when it holds its capacity. */
  readonly brim: number;
  /** The liquid cannot be seen through the wall: a sight glass shows it. */
  readonly opaque: boolean;
  /** Where on the height the paper plate with the letter is glued. */
  readonly plateAt: number;
}

/** Our seven vessel shapes. */
export const SHAPES: Readonly<Record<Silhouette, SilhouetteShape>> = {
  jar: {
    aspect: 1.42,
    profile: [
      [0, 0.9],
      [0.03, 0.97],
      [0.1, 1],
      [0.74, 1],
      [0.82, 0.95],
      [0.86, 0.84],
      [0.88, 0.8],
      [1, 0.8],
    ],
    round: false,
    brim: 0.86,
    opaque: false,
    plateAt: 0.38,
  },
  crock: {
    aspect: 1.15,
    profile: [
      [0, 0.84],
      [0.04, 0.9],
      [0.35, 1],
      [0.66, 1],
      [0.84, 0.93],
      [0.895, 0.85],
      [0.92, 0.85],
      [0.93, 0.93],
      [1, 0.93],
    ],
    round: true,
    brim: 0.9,
    opaque: true,
    plateAt: 0.46,
  },
  bucket: {
    aspect: 1.12,
    profile: [
      [0, 0.8],
      [0.02, 0.82],
      [0.9, 0.96],
      [0.91, 1],
      [1, 1],
    ],
    round: false,
    brim: 0.9,
    opaque: false,
    plateAt: 0.3,
  },
  flask: {
    aspect: 1.35,
    profile: [
      [0, 0.92],
      [0.03, 1],
      [0.1, 0.97],
      [0.62, 0.36],
      [0.7, 0.3],
      [0.94, 0.3],
      [0.96, 0.38],
      [1, 0.38],
    ],
    round: true,
    brim: 0.66,
    opaque: false,
    plateAt: 0.24,
  },
  demijohn: {
    aspect: 1.5,
    profile: [
      [0, 0.84],
      [0.03, 0.95],
      [0.09, 1],
      [0.46, 1],
      [0.56, 0.97],
      [0.65, 0.86],
      [0.72, 0.66],
      [0.78, 0.42],
      [0.83, 0.28],
      [0.87, 0.24],
      [0.945, 0.24],
      [0.955, 0.31],
      [1, 0.31],
    ],
    round: true,
    brim: 0.78,
    opaque: false,
    plateAt: 0.38,
  },
  bottle: {
    aspect: 3.6,
    profile: [
      [0, 0.9],
      [0.02, 1],
      [0.58, 1],
      [0.66, 0.88],
      [0.72, 0.55],
      [0.78, 0.38],
      [0.95, 0.36],
      [0.955, 0.44],
      [1, 0.44],
    ],
    round: true,
    brim: 0.74,
    opaque: false,
    plateAt: 0.3,
  },
  cask: {
    aspect: 1.25,
    profile: [
      [0, 0.84],
      [0.25, 0.955],
      [0.5, 1],
      [0.75, 0.955],
      [1, 0.84],
    ],
    round: true,
    brim: 0.97,
    opaque: true,
    plateAt: 0.46,
  },
};
