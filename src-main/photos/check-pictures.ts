import type { Database } from 'better-sqlite3';
import { sha256 } from './read-pictures.ts';

/** Looks at the pictures of a file one at a time: each must still be what its checksum says, and none the book names may be missing. */
export interface PictureCheck {
  readonly done: number;
  readonly total: number;
  /** Looks at the next; false when there is none left. */
  checkNext(): boolean;
}

interface Kept {
  readonly checksum: string;
  readonly thumbnail_checksum: string;
  readonly thumbnail: Uint8Array;
  readonly content: Uint8Array;
}

export function openPictureCheck(
  sqlite: Database,
  add: (type: string, detail: string) => void,
): PictureCheck {
  const missing = sqlite
    .prepare(
      `SELECT DISTINCT json_extract(act, '$.checksum') AS named FROM entry
       WHERE kind = 'addPhoto' AND named NOT IN (SELECT checksum FROM picture)`,
    )
    .pluck();
  const next = sqlite.prepare(
    'SELECT checksum, thumbnail_checksum, thumbnail, content FROM picture WHERE checksum > ? ORDER BY checksum LIMIT 1',
  );
  const total = sqlite.prepare('SELECT COUNT(*) FROM picture').pluck().get() as number;
  for (const checksum of missing.all() as string[]) add('PictureMissing', checksum);
  let done = 0;
  let last = '';
  return {
    total,
    get done() {
      return done;
    },
    checkNext() {
      const kept = next.get(last) as Kept | undefined;
      if (kept === undefined) return false;
      if (sha256(kept.content) !== kept.checksum) add('PictureDamaged', kept.checksum);
      if (sha256(kept.thumbnail) !== kept.thumbnail_checksum)
        add('PictureDamaged', `small, ${kept.checksum}`);
      last = kept.checksum;
      done += 1;
      return true;
    },
  };
}
