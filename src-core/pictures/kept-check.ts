import { err, ok, type Result } from '../base/result.ts';
import { jpegParts } from './jpeg.ts';
import { pictureKind } from './picture-kind.ts';
import type { PixelSize } from './pixel-size.ts';

/** Why bytes are not kept in a cellar file as a picture or its thumbnail. */
export type KeptRefusal =
  | { readonly type: 'Empty' }
  | { readonly type: 'TooLarge'; readonly bytes: number; readonly bytesMax: number }
  /** Not a JPEG at all, whatever it calls itself. */
  | { readonly type: 'NotAJpeg' }
  /** Its parts do not hold together, or something stands after its end. */
  | { readonly type: 'Damaged' }
  /** Notes beside the picture, which may say where it was taken. */
  | { readonly type: 'CarriesNotes' }
  | ({ readonly type: 'TooManyPixels'; readonly sidePxMax: number } & PixelSize);

export interface KeptLimits {
  readonly bytesMax: number;
  readonly sidePxMax: number;
}

/**
 * Whether bytes may be kept. Only a whole JPEG and nothing else is: the page paints every picture anew, so whatever
 * else came with it (a place, a script, a second file behind the first) is gone, and the host holds it to that
 * without decoding anything itself.
 */
export function checkKept(bytes: Uint8Array, limits: KeptLimits): Result<PixelSize, KeptRefusal> {
  const { bytesMax, sidePxMax } = limits;
  if (bytes.length === 0) return err({ type: 'Empty' });
  if (bytes.length > bytesMax) return err({ type: 'TooLarge', bytes: bytes.length, bytesMax });
  if (pictureKind(bytes) !== 'jpeg') return err({ type: 'NotAJpeg' });
  const parts = jpegParts(bytes);
  if (parts === null || parts.endsAt !== bytes.length) return err({ type: 'Damaged' });
  const { widthPx, heightPx } = parts.size;
  if (widthPx === 0 || heightPx === 0) return err({ type: 'Damaged' });
  if (Math.max(widthPx, heightPx) > sidePxMax) {
    return err({ type: 'TooManyPixels', sidePxMax, widthPx, heightPx });
  }
  if (parts.carriesNotes) return err({ type: 'CarriesNotes' });
  return ok({ widthPx, heightPx });
}
