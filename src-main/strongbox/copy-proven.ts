import { closeSync, fstatSync, fsyncSync, openSync, readSync, writeSync } from 'node:fs';

const PIECE_BYTES = 1_048_576;

/** Copies a whole file to a new one, brings it to the disk, and reads it again: it must be the very bytes. */
export function copyProven(
  file: string,
  target: string,
  pieceDone: (done: number, total: number) => void = () => undefined,
): void {
  const from = openSync(file, 'r');
  try {
    const to = openSync(target, 'wx+', 0o600);
    try {
      const { size } = fstatSync(from);
      const pieces = Math.max(1, Math.ceil(size / PIECE_BYTES));
      const buffer = Buffer.allocUnsafe(PIECE_BYTES);
      const again = Buffer.allocUnsafe(PIECE_BYTES);
      for (let piece = 0; piece < pieces; piece += 1) {
        const read = readPiece(from, buffer, piece);
        for (let done = 0; done < read;)
          done += writeSync(to, buffer, done, read - done, piece * PIECE_BYTES + done);
        pieceDone(piece + 1, pieces * 2);
      }
      fsyncSync(to);
      for (let piece = 0; piece < pieces; piece += 1) {
        const read = readPiece(from, buffer, piece);
        const arrived = readPiece(to, again, piece);
        if (!buffer.subarray(0, read).equals(again.subarray(0, arrived)))
          throw new Error('a copy differs from what was copied');
        pieceDone(pieces + piece + 1, pieces * 2);
      }
    } finally {
      closeSync(to);
    }
  } finally {
    closeSync(from);
  }
}

function readPiece(handle: number, buffer: Buffer, piece: number): number {
  let done = 0;
  while (done < buffer.length) {
    const read = readSync(handle, buffer, done, buffer.length - done, piece * PIECE_BYTES + done);
    if (read === 0) break;
    done += read;
  }
  return done;
}
