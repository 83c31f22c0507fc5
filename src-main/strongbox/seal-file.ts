import { createHash } from 'node:crypto';
import { closeSync, fstatSync, fsyncSync, openSync, readSync, statSync, writeSync } from 'node:fs';
import { open, type FileHandle } from 'node:fs/promises';
import { BACKUP_FORMAT, PART_BYTES, type BackupManifest } from '#core/strongbox/manifest.ts';
import {
  CLOSING_BYTES,
  SEAL_OPENING,
  closingLine,
  readClosing,
  readSealedWords,
} from '#core/strongbox/seal.ts';
import type { Saveable } from '#core/contract/strongbox-files.ts';
import { CELLAR_APPLICATION_ID } from '../cellar/cellar-header.ts';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';

/** Told after each part: parts done, of how many. */
export type PartDone = (done: number, total: number) => void;

/** What of a manifest is known before the file is sealed. */
export type Unsealed = Omit<BackupManifest, 'format' | 'payload'>;

/** Writes the seal after the last byte of a closed cellar file, and brings all of it to the disk. */
export function sealFile(
  file: string,
  unsealed: Unsealed,
  partDone: PartDone = () => undefined,
): BackupManifest {
  const handle = openSync(file, 'r+');
  try {
    const { size } = fstatSync(handle);
    const partSha256 = [...partChecksums(handle, size, PART_BYTES, partDone)];
    const manifest: BackupManifest = {
      format: BACKUP_FORMAT,
      ...unsealed,
      payload: { bytes: size, partBytes: PART_BYTES, partSha256 },
    };
    const words = Buffer.from(`${SEAL_OPENING}${JSON.stringify(manifest)}\n`);
    const closing = closingLine({
      payloadBytes: size,
      manifestBytes: words.length - SEAL_OPENING.length,
      sha256: createHash('sha256').update(words).digest('hex'),
    });
    writeWhole(handle, Buffer.concat([words, Buffer.from(closing, 'latin1')]), size);
    fsyncSync(handle);
    return manifest;
  } finally {
    closeSync(handle);
  }
}

/**
 * Reads what a backup says of itself, proven by its seal; the cellar before the seal is not read.
 *
 * @throws BackupRefused when there is no seal, or one that is not whole, with how much could be saved
 */
export function readSeal(file: string): BackupManifest {
  return withFile(file, (handle, bytes) => {
    const closing =
      bytes < CLOSING_BYTES
        ? null
        : readClosing(readAt(handle, bytes - CLOSING_BYTES, CLOSING_BYTES).toString('latin1'), bytes);
    if (closing === null) throw new BackupRefused(whyUnsealed(handle, bytes, file));
    const words = readAt(handle, closing.payloadBytes, SEAL_OPENING.length + closing.manifestBytes);
    const saveable: Saveable = { wholeBytes: closing.payloadBytes, bytes: closing.payloadBytes };
    if (createHash('sha256').update(words).digest('hex') !== closing.sha256) {
      throw new BackupRefused({ type: 'SealDamaged', file, saveable });
    }
    const manifest = readSealedWords(words.toString('utf8'), closing.payloadBytes);
    if (manifest.ok) return manifest.value;
    throw new BackupRefused(
      manifest.error.type === 'NewerFormat'
        ? { type: 'NewerFormat', file, format: manifest.error.format, programFormat: BACKUP_FORMAT }
        : { type: 'SealDamaged', file, saveable },
    );
  });
}

/**
 * Holds every part of the cellar in a backup against its checksum.
 *
 * @throws BackupRefused with how many parts are not what was written
 */
export function proveParts(
  file: string,
  manifest: BackupManifest,
  partDone: PartDone = () => undefined,
): void {
  const { payload } = manifest;
  withFile(file, (handle) => {
    const damage = openDamage(manifest);
    for (const sha256 of partChecksums(handle, payload.bytes, payload.partBytes, partDone))
      damage.look(sha256);
    damage.refuse(file);
  });
}

/** Megabytes handed to the disk while the next ones are still proven; what is left for the end is then little. */
const PARTS_A_FLUSH = 64;

/**
 * Copies the cellar out of a backup to a new file, proving each part on its way, and brings it to the disk. Writing goes on
 * beside the proving of the next part, which is what most of the time is spent on.
 */
export async function extractPayload(
  file: string,
  target: string,
  manifest: BackupManifest,
  partDone: PartDone = () => undefined,
): Promise<void> {
  const { bytes, partBytes } = manifest.payload;
  const handle = openBackup(file);
  try {
    const out = await open(target, 'wx', 0o600);
    let written: Promise<void> = Promise.resolve();
    const flushes: Promise<void>[] = [];
    try {
      const damage = openDamage(manifest);
      const parts = Math.ceil(bytes / partBytes);
      for (let part = 0; part < parts; part += 1) {
        const at = part * partBytes;
        const read = readAt(handle, at, Math.min(partBytes, bytes - at));
        await written;
        written = writeAll(out, read, at);
        damage.look(createHash('sha256').update(read).digest('hex'));
        if (part % PARTS_A_FLUSH === PARTS_A_FLUSH - 1) flushes.push(out.datasync());
        partDone(part + 1, parts);
      }
      await Promise.all([written, ...flushes]);
      damage.refuse(file);
      await out.sync();
    } finally {
      await Promise.allSettled([written, ...flushes]);
      await out.close();
    }
  } catch (error) {
    throw backupRefusedFrom(error, file);
  } finally {
    closeSync(handle);
  }
}

function openDamage({ payload }: BackupManifest) {
  let part = 0;
  let damagedParts = 0;
  let damagedBytes = 0;
  return {
    look(sha256: string): void {
      if (sha256 !== payload.partSha256[part]) {
        damagedParts += 1;
        damagedBytes += Math.min(payload.partBytes, payload.bytes - part * payload.partBytes);
      }
      part += 1;
    },
    refuse(file: string): void {
      if (damagedParts === 0) return;
      const saveable: Saveable = { wholeBytes: payload.bytes - damagedBytes, bytes: payload.bytes };
      const parts = payload.partSha256.length;
      throw new BackupRefused({ type: 'PartsDamaged', file, damagedParts, parts, saveable });
    },
  };
}

/** A file without a closing line that fits: something else, a cellar without a seal, a part of a backup, or a spoilt end. */
function whyUnsealed(handle: number, bytes: number, file: string): BackupRefused['refusal'] {
  const header = readAt(handle, 0, Math.min(100, bytes));
  const isSqlite = header.length === 100 && header.subarray(0, 16).toString('latin1') === 'SQLite format 3\0';
  if (!isSqlite || header.readUInt32BE(68) !== CELLAR_APPLICATION_ID) return { type: 'NotABackup', file };
  const pageBytes = header.readUInt16BE(16);
  // A page of 65,536 bytes is written as 1 (SQLite file format, section 1.3.2).
  const payloadBytes = (pageBytes === 1 ? 65_536 : pageBytes) * header.readUInt32BE(28);
  const saveable = { wholeBytes: Math.min(bytes, payloadBytes), bytes: payloadBytes };
  if (bytes < payloadBytes) return { type: 'Truncated', file, saveable };
  return bytes === payloadBytes ? { type: 'NoSeal', file } : { type: 'SealDamaged', file, saveable };
}

function* partChecksums(
  handle: number,
  bytes: number,
  partBytes: number,
  partDone: PartDone,
): Generator<string> {
  const parts = Math.ceil(bytes / partBytes);
  for (let part = 0; part < parts; part += 1) {
    const at = part * partBytes;
    const read = readAt(handle, at, Math.min(partBytes, bytes - at));
    yield createHash('sha256').update(read).digest('hex');
    partDone(part + 1, parts);
  }
}

/** Reads so many bytes, or fewer at the end of the file. */
function readAt(handle: number, position: number, bytes: number): Buffer {
  const buffer = Buffer.allocUnsafe(bytes);
  let done = 0;
  while (done < bytes) {
    const read = readSync(handle, buffer, done, bytes - done, position + done);
    if (read === 0) break;
    done += read;
  }
  return buffer.subarray(0, done);
}

function writeWhole(handle: number, bytes: Uint8Array, position: number): void {
  for (let done = 0; done < bytes.length;) {
    done += writeSync(handle, bytes, done, bytes.length - done, position + done);
  }
}

async function writeAll(out: FileHandle, bytes: Uint8Array, position: number): Promise<void> {
  for (let done = 0; done < bytes.length;) {
    done += (await out.write(bytes, done, bytes.length - done, position + done)).bytesWritten;
  }
}

function withFile<T>(file: string, read: (handle: number, bytes: number) => T): T {
  const handle = openBackup(file);
  try {
    return read(handle, fstatSync(handle).size);
  } catch (error) {
    throw backupRefusedFrom(error, file);
  } finally {
    closeSync(handle);
  }
}

/** @returns a descriptor to read from, which whoever asked closes */
function openBackup(file: string): number {
  try {
    const stat = statSync(file, { throwIfNoEntry: false });
    if (stat === undefined) throw new BackupRefused({ type: 'NoSuchFile', file });
    if (!stat.isFile()) throw new BackupRefused({ type: 'BadPath', file });
    return openSync(file, 'r');
  } catch (error) {
    throw backupRefusedFrom(error, file);
  }
}
