import { oc } from '@orpc/contract';
import { z } from 'zod';
import { AddPhoto, Checksum } from '../ledger/act.ts';
import { BatchId, EntryId, VesselId } from '../ledger/ids.ts';
import { Instant, Posted, RequestId, Typed, writeErrors } from './ledger.ts';

/** A photo as the book has it. Its picture is asked for by the checksum. */
export const PhotoRow = z.object({
  photoId: EntryId,
  checksum: Checksum,
  caption: z.string(),
  atMs: z.number(),
  widthPx: z.int(),
  heightPx: z.int(),
  batchId: BatchId.nullable(),
  vesselId: VesselId.nullable(),
});
export type PhotoRow = z.infer<typeof PhotoRow>;

const sizes = { widthPx: z.int(), heightPx: z.int() };
/** Why bytes are not kept as a picture. */
export const PictureRefusal = z.discriminatedUnion('type', [
  z.object({ type: z.literal('Empty') }),
  z.object({ type: z.literal('TooLarge'), bytes: z.int(), bytesMax: z.int() }),
  z.object({ type: z.literal('NotAJpeg') }),
  z.object({ type: z.literal('Damaged') }),
  z.object({ type: z.literal('CarriesNotes') }),
  z.object({ type: z.literal('TooManyPixels'), sidePxMax: z.int(), ...sizes }),
  z.object({ type: z.literal('WrongChecksum') }),
  z.object({ type: z.literal('WrongSize'), ...sizes }),
]);
export type PictureRefusal = z.infer<typeof PictureRefusal>;

const AboutPhotos = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('vessel'), vesselId: VesselId }),
  z.strictObject({ kind: z.literal('batch'), batchId: BatchId }),
]);

export const photosContract = {
  /**
   * Keeps a picture, its thumbnail and the act that ties it to what it shows, all or nothing. Both are JPEG, painted
   * anew by the page; the act names the picture by its SHA-256. Sent again with the same `requestId`, it writes nothing.
   */
  add: oc
    .input(
      z.strictObject({
        requestId: RequestId,
        act: AddPhoto,
        happenedAtMs: Instant.nullable(),
        typed: Typed,
        picture: z.file(),
        thumbnail: z.file(),
      }),
    )
    .output(Posted)
    .errors({ ...writeErrors, PICTURE_REFUSED: { status: 422, data: PictureRefusal } }),
  /** The photos of a batch or a vessel that stand in the book, newest first. */
  of: oc.input(z.strictObject({ about: AboutPhotos })).output(z.array(PhotoRow)),
  /** Thumbnails by checksum; one the file does not keep is left away. */
  thumbnails: oc
    .input(z.strictObject({ checksums: z.array(Checksum).min(1).max(40) }))
    .output(z.array(z.object({ checksum: Checksum, thumbnail: z.file() }))),
  picture: oc
    .input(z.strictObject({ checksum: Checksum }))
    .output(z.object({ picture: z.file() }))
    .errors({ NOT_FOUND: { status: 404, data: z.object({ what: z.string(), id: z.string() }) } }),
};
