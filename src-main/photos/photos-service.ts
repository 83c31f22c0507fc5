import type { PhotoRow } from '#core/contract/photos.ts';
import type { Posted } from '#core/contract/ledger.ts';
import { err, type Result } from '#core/base/result.ts';
import type { LedgerError } from '#core/ledger/ledger-error.ts';
import type { CellarSession } from '../cellar/session.ts';
import type { LedgerService, PostRequest } from '../ledger/ledger-service.ts';
import type { PicturesToKeep } from './read-pictures.ts';

type About =
  | { readonly kind: 'vessel'; readonly vesselId: string }
  | { readonly kind: 'batch'; readonly batchId: string };
type AddRequest = PostRequest & {
  readonly act: { readonly checksum: string; readonly widthPx: number; readonly heightPx: number };
};

/** Photos: their pictures in the file, and the book's word on what they show. */
export interface Photos {
  /** Keeps the pictures and writes the act in one transaction. The same picture is kept once, however often it is used. */
  add(request: AddRequest, pictures: PicturesToKeep): Result<Posted, LedgerError>;
  of(about: About): PhotoRow[];
  thumbnails(checksums: readonly string[]): { checksum: string; thumbnail: File }[];
  picture(checksum: string): File | null;
}

export function openPhotos({ cellar, clock }: CellarSession, ledger: LedgerService): Photos {
  const { sqlite } = cellar;
  const keep = sqlite.prepare(
    `INSERT INTO picture (checksum, width_px, height_px, kept_at_ms, thumbnail_checksum, thumbnail, content)
     VALUES (?, ?, ?, ?, ?, ?, ?) ON CONFLICT (checksum) DO NOTHING`,
  );
  const thumbnail = sqlite.prepare('SELECT thumbnail FROM picture WHERE checksum = ?').pluck();
  const content = sqlite.prepare('SELECT content FROM picture WHERE checksum = ?').pluck();
  const columns = `id AS photoId, checksum, caption, at_ms AS atMs, width_px AS widthPx, height_px AS heightPx,
     batch_id AS batchId, vessel_id AS vesselId`;
  const ofBatch = sqlite.prepare(
    `SELECT ${columns} FROM photo WHERE batch_id = ? ORDER BY at_ms DESC, id DESC`,
  );
  const ofVessel = sqlite.prepare(
    `SELECT ${columns} FROM photo WHERE vessel_id = ? ORDER BY at_ms DESC, id DESC`,
  );
  return {
    add(request, pictures) {
      const { checksum, widthPx, heightPx } = request.act;
      const { thumbnailChecksum, thumbnail: small, content: whole } = pictures;
      try {
        return sqlite
          .transaction(() => {
            keep.run(checksum, widthPx, heightPx, clock(), thumbnailChecksum, small, whole);
            const posted = ledger.post(request);
            if (posted.ok) return posted;
            throw new RefusedWithAll(posted.error);
          })
          .immediate();
      } catch (error) {
        if (error instanceof RefusedWithAll) return err(error.refusal);
        throw error;
      }
    },
    of: (about) =>
      (about.kind === 'batch' ? ofBatch.all(about.batchId) : ofVessel.all(about.vesselId)) as PhotoRow[],
    thumbnails: (checksums) =>
      [...new Set(checksums)].flatMap((checksum) => {
        const bytes = thumbnail.get(checksum) as Uint8Array<ArrayBuffer> | undefined;
        return bytes === undefined ? [] : [{ checksum, thumbnail: jpegFile(bytes, checksum) }];
      }),
    picture(checksum) {
      const bytes = content.get(checksum) as Uint8Array<ArrayBuffer> | undefined;
      return bytes === undefined ? null : jpegFile(bytes, checksum);
    },
  };
}

/** Ends the transaction, so that a picture whose act is refused is not kept either. */
class RefusedWithAll extends Error {
  readonly refusal: LedgerError;
  constructor(refusal: LedgerError) {
    super(refusal.type);
    this.refusal = refusal;
  }
}

/** Its type is what was checked when it was kept, never what somebody called it. */
function jpegFile(bytes: Uint8Array<ArrayBuffer>, checksum: string): File {
  return new File([bytes], `${checksum.slice(0, 12)}.jpg`, { type: 'image/jpeg' });
}
