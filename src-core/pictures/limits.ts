/**
 * How large a picture may be. Our own choices, no source: a source file as cameras and telephones write it, and what is kept of
 * it small enough that a year of pictures stays a file one can carry.
 */
export const SOURCE_BYTES_MAX = 40 * 1024 * 1024;
export const SOURCE_SIDE_PX_MAX = 16_000;
export const SOURCE_PIXELS_MAX = 60_000_000;
/** Kept, px on the longer side and bytes. */
export const KEPT_SIDE_PX_MAX = 2048;
export const KEPT_BYTES_MAX = 3 * 1024 * 1024;
export const THUMBNAIL_SIDE_PX_MAX = 320;
export const THUMBNAIL_BYTES_MAX = 120 * 1024;
