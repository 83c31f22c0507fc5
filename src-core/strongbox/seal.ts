import { err, ok, type Result } from '../base/result.ts';
import { BACKUP_FORMAT, BackupManifest } from './manifest.ts';

// A backup file is, in this order: the whole cellar file (SQLite reads no further than the size in its header), the
// opening line of the seal, the manifest as one line of JSON, and the closing line with the checksum of the two lines
// before it. The manifest holds a checksum for each part of the cellar file, so every byte is under one or the other.

export const SEAL_OPENING = `\nUNDERCROFT BACKUP ${BACKUP_FORMAT}\n`;
const CLOSING_MARK = 'UNDERCROFT SEAL ';
const PAYLOAD_DIGITS = 16;
const MANIFEST_DIGITS = 10;
/** Bytes of the closing line, its end of line included. */
export const CLOSING_BYTES = CLOSING_MARK.length + PAYLOAD_DIGITS + 1 + MANIFEST_DIGITS + 1 + 64 + 1;
/** A manifest of a cellar of 8 TB; what claims to be longer is no manifest. */
export const MANIFEST_BYTES_MAX = 600_000_000;

export interface SealClosing {
  readonly payloadBytes: number;
  /** Bytes of the manifest, its end of line included. */
  readonly manifestBytes: number;
  /** Of the opening line and the manifest together. */
  readonly sha256: string;
}

/** The last line of a backup file, always `CLOSING_BYTES` long, in ASCII. */
export function closingLine({ payloadBytes, manifestBytes, sha256 }: SealClosing): string {
  const payload = String(payloadBytes).padStart(PAYLOAD_DIGITS, '0');
  return `${CLOSING_MARK}${payload} ${String(manifestBytes).padStart(MANIFEST_DIGITS, '0')} ${sha256}\n`;
}

const CLOSING = new RegExp(
  `^${CLOSING_MARK}(\\d{${PAYLOAD_DIGITS}}) (\\d{${MANIFEST_DIGITS}}) ([0-9a-f]{64})\\n$`,
);

/**
 * Reads the last `CLOSING_BYTES` of a file, as Latin-1.
 *
 * @returns null when this is no closing line, or one that does not fit the length of the file
 */
export function readClosing(line: string, fileBytes: number): SealClosing | null {
  const [, payload, manifest, sha256] = CLOSING.exec(line) ?? [];
  if (payload === undefined || manifest === undefined || sha256 === undefined) return null;
  const closing = { payloadBytes: Number(payload), manifestBytes: Number(manifest), sha256 };
  const bytes = closing.payloadBytes + SEAL_OPENING.length + closing.manifestBytes + CLOSING_BYTES;
  return bytes === fileBytes && closing.manifestBytes <= MANIFEST_BYTES_MAX ? closing : null;
}

/** What the sealed words of a backup whose checksum was right can still be. */
export type ManifestError =
  { readonly type: 'NewerFormat'; readonly format: number } | { readonly type: 'NotAManifest' };

/** Reads the opening line and the manifest, once their checksum has been found right. */
export function readSealedWords(text: string, payloadBytes: number): Result<BackupManifest, ManifestError> {
  const format = Number(/^\nUNDERCROFT BACKUP (\d{1,6})\n/.exec(text)?.[1]);
  if (!Number.isInteger(format)) return err({ type: 'NotAManifest' });
  if (format > BACKUP_FORMAT) return err({ type: 'NewerFormat', format });
  let json: unknown;
  try {
    json = JSON.parse(text.slice(SEAL_OPENING.length));
  } catch {
    return err({ type: 'NotAManifest' });
  }
  const manifest = BackupManifest.safeParse(json);
  if (!manifest.success || manifest.data.payload.bytes !== payloadBytes) return err({ type: 'NotAManifest' });
  const { bytes, partBytes, partSha256 } = manifest.data.payload;
  if (partSha256.length !== Math.ceil(bytes / partBytes)) return err({ type: 'NotAManifest' });
  return ok(manifest.data);
}
