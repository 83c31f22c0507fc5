import { err, ok, type Result } from '../base/result.ts';
import { SOURCE_BYTES_MAX, SOURCE_PIXELS_MAX, SOURCE_SIDE_PX_MAX } from './limits.ts';
import { pictureKind, type PictureKind } from './picture-kind.ts';
import { pictureSize } from './picture-size.ts';
import type { PixelSize } from './pixel-size.ts';

/** Why a file is not taken as a picture, before anything decodes it. */
export type SourceRefusal =
  | { readonly type: 'Empty' }
  | { readonly type: 'TooLarge'; readonly bytes: number; readonly bytesMax: number }
  | { readonly type: 'NotAPicture' }
  | { readonly type: 'Unreadable'; readonly kind: PictureKind }
  | ({ readonly type: 'TooManyPixels'; readonly pixelsMax: number } & PixelSize);

/** What can be told of a file by its bytes alone. */
export function checkSource(
  bytes: Uint8Array,
): Result<{ readonly kind: PictureKind; readonly size: PixelSize }, SourceRefusal> {
  if (bytes.length === 0) return err({ type: 'Empty' });
  if (bytes.length > SOURCE_BYTES_MAX) {
    return err({ type: 'TooLarge', bytes: bytes.length, bytesMax: SOURCE_BYTES_MAX });
  }
  const kind = pictureKind(bytes);
  if (kind === null) return err({ type: 'NotAPicture' });
  const size = pictureSize(bytes);
  if (size === null) return err({ type: 'Unreadable', kind });
  const { widthPx, heightPx } = size;
  const tooLong = Math.max(widthPx, heightPx) > SOURCE_SIDE_PX_MAX;
  if (tooLong || widthPx * heightPx > SOURCE_PIXELS_MAX) {
    return err({ type: 'TooManyPixels', pixelsMax: SOURCE_PIXELS_MAX, widthPx, heightPx });
  }
  return ok({ kind, size });
}
