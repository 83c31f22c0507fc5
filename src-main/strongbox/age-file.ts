import { Decrypter, Encrypter } from 'age-encryption';
import { createReadStream, createWriteStream, statSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import { BackupRefused, backupRefusedFrom } from './backup-refused.ts';

// Encrypted backups are age files (age-encryption.org/v1) with a passphrase, which the library keeps in 64 kB pieces each
// under its own authentication: any age program opens them, and no byte can be changed unnoticed.

const AGE_MARK = 'age-encryption.org/v1\n';
/** Bytes read at once: the library's own pieces are of 64 kB. */
const READ_BYTES = 262_144;

export type BytesDone = (done: number, total: number) => void;

/** Whether a file says in its first line that it is an age file. False for what is no file or cannot be read. */
export async function isAgeFile(file: string): Promise<boolean> {
  const stat = statSync(file, { throwIfNoEntry: false });
  if (stat?.isFile() !== true) return false;
  const handle = await open(file, 'r');
  try {
    const { buffer, bytesRead } = await handle.read(Buffer.alloc(AGE_MARK.length), 0, AGE_MARK.length, 0);
    return buffer.subarray(0, bytesRead).toString('latin1') === AGE_MARK;
  } finally {
    await handle.close();
  }
}

/** Encrypts a whole file into a new one, and brings it to the disk. */
export async function encryptFile(
  file: string,
  target: string,
  passphrase: string,
  bytesDone: BytesDone = () => undefined,
): Promise<void> {
  const encrypter = new Encrypter();
  encrypter.setPassphrase(passphrase);
  const sealed = await encrypter.encrypt(readingOf(file, bytesDone));
  await writeNew(sealed, target);
}

/**
 * Decrypts a whole file into a new one, and brings it to the disk.
 *
 * @throws BackupRefused when the passphrase does not open it, or a piece of it is not what was written
 */
export async function decryptFile(
  file: string,
  target: string,
  passphrase: string,
  bytesDone: BytesDone = () => undefined,
): Promise<void> {
  let read = 0;
  const { size } = statSync(file);
  const damaged = (): BackupRefused =>
    new BackupRefused({
      type: 'CipherDamaged',
      file,
      saveable: { wholeBytes: Math.max(0, read - READ_BYTES), bytes: size },
    });
  const decrypter = new Decrypter();
  // Asked before the passphrase is tried: then the head of the file could be read, and only the passphrase is in doubt.
  const head = { read: false };
  decrypter.addIdentity({
    unwrapFileKey: () => {
      head.read = true;
      return null;
    },
  });
  decrypter.addPassphrase(passphrase);
  let opened: ReadableStream<Uint8Array>;
  try {
    opened = await decrypter.decrypt(
      readingOf(file, (done, total) => {
        read = done;
        bytesDone(done, total);
      }),
    );
  } catch (error) {
    if (isSystem(error)) throw backupRefusedFrom(error, file);
    throw head.read ? new BackupRefused({ type: 'PassphraseWrong', file }) : damaged();
  }
  try {
    await writeNew(opened, target);
  } catch (error) {
    throw isSystem(error) ? backupRefusedFrom(error, target) : damaged();
  }
}

function readingOf(file: string, bytesDone: BytesDone): ReadableStream<Uint8Array> {
  const { size } = statSync(file);
  let done = 0;
  const counted = createReadStream(file, { highWaterMark: READ_BYTES });
  counted.on('data', (chunk) => {
    done += chunk.length;
    bytesDone(done, size);
  });
  counted.pause();
  return Readable.toWeb(counted) as ReadableStream<Uint8Array>;
}

async function writeNew(from: ReadableStream<Uint8Array>, target: string): Promise<void> {
  const out = createWriteStream(target, { flags: 'wx', mode: 0o600, flush: true });
  await pipeline(Readable.fromWeb(from as Parameters<typeof Readable.fromWeb>[0]), out);
}

/** What the system refuses has a code; what the library refuses has none. */
function isSystem(error: unknown): boolean {
  return (
    error instanceof Error &&
    'code' in error &&
    typeof error.code === 'string' &&
    /^E[A-Z]+$/.test(error.code)
  );
}
