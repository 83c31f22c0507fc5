import type { Clock, NewId } from '#core/base/ports.ts';
import { randomBytes } from 'node:crypto';

const counterBits = 42n;
const counterMax = (1n << counterBits) - 1n;
const largestTimestampMs = 2 ** 48 - 1;

/**
 * Makes UUIDs of version 7 (RFC 9562, section 5.7): 48 bits of milliseconds, then 74 bits that keep order and guard
 * against guessing. Within one process each id sorts after the one before, also inside one millisecond and when the
 * clock steps back: the first 42 of the 74 bits are a counter, started anew at random for each millisecond (section 6.2,
 * method 2), the last 32 are random each time.
 *
 * @param clock milliseconds since 1970; a time outside 48 bits is a bug and throws
 * @returns a function giving a fresh id in the usual lower-case form with hyphens
 */
export function newIdMaker(clock: Clock, random: (bytes: number) => Uint8Array = randomBytes): NewId {
  let lastMs = -1;
  let counter = 0n;
  return () => {
    const now = Math.floor(clock());
    if (!(now >= 0 && now <= largestTimestampMs)) throw new Error(`No id can hold the time ${now}.`);
    if (now > lastMs) {
      lastMs = now;
      counter = freshCounter(random);
    } else if (counter < counterMax) {
      counter += 1n;
    } else {
      lastMs += 1;
      counter = freshCounter(random);
    }
    return format(lastMs, counter, bigOf(random(4)));
  };
}

/** Half the counter's room stays free, so that one millisecond holds two million million ids before it overflows. */
function freshCounter(random: (bytes: number) => Uint8Array): bigint {
  return bigOf(random(6)) & (counterMax >> 1n);
}

function format(timestampMs: number, counter: bigint, tail: bigint): string {
  const version = 7n;
  const variant = 0b10n;
  const high = counter >> 30n;
  const low = counter & ((1n << 30n) - 1n);
  const value =
    (BigInt(timestampMs) << 80n) | (version << 76n) | (high << 64n) | (variant << 62n) | (low << 32n) | tail;
  const hex = value.toString(16).padStart(32, '0');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}

function bigOf(bytes: Uint8Array): bigint {
  return bytes.reduce((value, byte) => (value << 8n) | BigInt(byte), 0n);
}
