import { err, ok, type Result } from '#core/base/result.ts';
import {
  KEPT_BYTES_MAX,
  KEPT_SIDE_PX_MAX,
  SOURCE_BYTES_MAX,
  THUMBNAIL_BYTES_MAX,
  THUMBNAIL_SIDE_PX_MAX,
} from '#core/pictures/limits.ts';
import type { PictureKind } from '#core/pictures/picture-kind.ts';
import type { PixelSize } from '#core/pictures/pixel-size.ts';
import { checkSource } from '#core/pictures/source-check.ts';
import type { PhotoRefusal } from '../words/photo-words.ts';
import { browserPaint, type Paint, type Painted } from './paint.ts';

/** A picture as it will be kept: painted anew, with its thumbnail and the checksum by which the book names it. */
export interface ReadyPhoto extends PixelSize {
  readonly checksum: string;
  readonly picture: File;
  readonly thumbnail: File;
}

const MEDIA_TYPES: Readonly<Record<PictureKind, string>> = {
  jpeg: 'image/jpeg',
  png: 'image/png',
  webp: 'image/webp',
  gif: 'image/gif',
  avif: 'image/avif',
};

/**
 * Makes a chosen file ready to be kept. It is told by its bytes what it is and how large; only then is it decoded,
 * by the browser, and painted anew, so that nothing of the file itself is kept but what can be seen.
 */
export async function preparePhoto(
  file: Blob,
  paint: Paint = browserPaint,
): Promise<Result<ReadyPhoto, PhotoRefusal>> {
  if (file.size > SOURCE_BYTES_MAX) {
    return err({ type: 'TooLarge', bytes: file.size, bytesMax: SOURCE_BYTES_MAX });
  }
  const bytes = new Uint8Array(await file.arrayBuffer());
  const source = checkSource(bytes);
  if (!source.ok) return source;
  const { kind } = source.value;
  const painted = await paint(new Blob([bytes], { type: MEDIA_TYPES[kind] }), [
    { sidePxMax: KEPT_SIDE_PX_MAX, bytesMax: KEPT_BYTES_MAX },
    { sidePxMax: THUMBNAIL_SIDE_PX_MAX, bytesMax: THUMBNAIL_BYTES_MAX },
  ]);
  const [whole, small] = painted ?? [];
  if (whole === undefined || small === undefined) return err({ type: 'Undecodable', kind });
  return ok(await named(whole, small));
}

async function named(whole: Painted, small: Painted): Promise<ReadyPhoto> {
  const digest = await crypto.subtle.digest('SHA-256', await whole.jpeg.arrayBuffer());
  const checksum = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  const { widthPx, heightPx } = whole;
  return { checksum, widthPx, heightPx, picture: asFile(whole), thumbnail: asFile(small) };
}

function asFile({ jpeg }: Painted): File {
  return new File([jpeg], 'photo.jpg', { type: 'image/jpeg' });
}
