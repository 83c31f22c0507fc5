import { newIdMaker } from '#main/platform/new-id.ts';
import { randomBytes } from 'node:crypto';
import { describe, expect, test } from 'vitest';

/** Gives the bytes of one hexadecimal text, so that an id can be foretold. */
function foretold(hex: string): (bytes: number) => Uint8Array {
  return (bytes) => Buffer.from(hex.padStart(bytes * 2, '0').slice(-bytes * 2), 'hex');
}

describe('a new id', () => {
  test('is a version 7 UUID', () => {
    const newId = newIdMaker(() => 1_790_000_000_000);
    expect(newId()).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });

  test('has the layout of RFC 9562 (appendix A.6 gives the time and the id below)', () => {
    // RFC 9562, appendix A.6: 0x017F22E279B0, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F. Ours puts rand_a and the upper
    // 30 bits of rand_b from a counter that begins with its top bit clear, so the sample is met but for that bit.
    const counter = (0xcc3n << 30n) | (0x18c4dc0c0c07398fn >> 32n);
    const random = (bytes: number) =>
      foretold(bytes === 6 ? counter.toString(16) : 0x0c07398fn.toString(16))(bytes);
    expect(newIdMaker(() => 0x017f22e279b0, random)()).toBe('017f22e2-79b0-74c3-98c4-dc0c0c07398f');
  });

  test('sorts after the one before, in one millisecond and over many', () => {
    let now = 1_790_000_000_000;
    const newId = newIdMaker(() => now);
    const ids = Array.from({ length: 20_000 }, (_, index) => {
      if (index % 100 === 0) now += index % 3;
      return newId();
    });
    expect(ids.toSorted()).toEqual(ids);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test('sorts after the one before when the clock steps back', () => {
    let now = 1_790_000_000_000;
    const newId = newIdMaker(() => now);
    const first = newId();
    now -= 3_600_000;
    expect(newId() > first).toBe(true);
  });

  test('goes on in the next millisecond when one is full', () => {
    let calls = 0;
    const random = (bytes: number) => {
      calls += 1;
      return bytes === 6 && calls === 1 ? Buffer.from('01ffffffffff', 'hex') : randomBytes(bytes);
    };
    const newId = newIdMaker(() => 1000, random);
    const ids = [newId(), newId(), newId()];
    expect(ids.toSorted()).toEqual(ids);
  });

  test.each([-1, 2 ** 48, Number.NaN, Number.POSITIVE_INFINITY])('cannot hold the time %s', (now) => {
    expect(() => newIdMaker(() => now)()).toThrow('No id can hold the time');
  });
});
