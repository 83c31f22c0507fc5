/** How large a picture is, in whole pixels, both at least 1. */
export interface PixelSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The largest size with the same shape whose longer side is at most `sidePxMax`; the size itself when it is smaller. */
export function fitted(size: PixelSize, sidePxMax: number): PixelSize {
  const longer = Math.max(size.widthPx, size.heightPx);
  if (longer <= sidePxMax) return size;
  const scale = sidePxMax / longer;
  return {
    widthPx: Math.max(1, Math.round(size.widthPx * scale)),
    heightPx: Math.max(1, Math.round(size.heightPx * scale)),
  };
}
