import { createHash } from 'node:crypto';
import type { PictureRefusal } from '#core/contract/photos.ts';
import { err, ok, type Result } from '#core/base/result.ts';
import type { AddPhoto } from '#core/ledger/act.ts';
import { checkKept, type KeptLimits } from '#core/pictures/kept-check.ts';
import {
  KEPT_BYTES_MAX,
  KEPT_SIDE_PX_MAX,
  THUMBNAIL_BYTES_MAX,
  THUMBNAIL_SIDE_PX_MAX,
} from '#core/pictures/limits.ts';
import type { z } from 'zod';

/** A picture that may be kept: its bytes and those of its thumbnail, each with its checksum. */
export interface PicturesToKeep {
  readonly content: Uint8Array;
  readonly thumbnail: Uint8Array;
  readonly thumbnailChecksum: string;
}

interface Sent {
  readonly act: z.infer<typeof AddPhoto>;
  readonly picture: Blob;
  readonly thumbnail: Blob;
}

const PICTURE: KeptLimits = { bytesMax: KEPT_BYTES_MAX, sidePxMax: KEPT_SIDE_PX_MAX };
const THUMBNAIL: KeptLimits = { bytesMax: THUMBNAIL_BYTES_MAX, sidePxMax: THUMBNAIL_SIDE_PX_MAX };

/**
 * Reads what was sent as a picture and holds it to what may be kept. Nothing is decoded: what the bytes are is told
 * by the bytes, never by a name or a type that came with them.
 */
export async function readPictures({
  act,
  picture,
  thumbnail,
}: Sent): Promise<Result<PicturesToKeep, PictureRefusal>> {
  const content = await bytesOf(picture, PICTURE);
  if (!content.ok) return content;
  const small = await bytesOf(thumbnail, THUMBNAIL);
  if (!small.ok) return small;
  const size = checkKept(content.value, PICTURE);
  if (!size.ok) return size;
  const smallSize = checkKept(small.value, THUMBNAIL);
  if (!smallSize.ok) return smallSize;
  const { widthPx, heightPx } = size.value;
  if (widthPx !== act.widthPx || heightPx !== act.heightPx) {
    return err({ type: 'WrongSize', widthPx, heightPx });
  }
  if (sha256(content.value) !== act.checksum) return err({ type: 'WrongChecksum' });
  return ok({ content: content.value, thumbnail: small.value, thumbnailChecksum: sha256(small.value) });
}

/** The size is asked before the bytes are, so that nothing too large is ever copied. */
async function bytesOf(file: Blob, { bytesMax }: KeptLimits): Promise<Result<Uint8Array, PictureRefusal>> {
  if (file.size > bytesMax) return err({ type: 'TooLarge', bytes: file.size, bytesMax });
  return ok(new Uint8Array(await file.arrayBuffer()));
}

export function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
