import { expect, it } from 'vitest';
import { keptLately } from '#main/labels/kept-lately.ts';

it('what is asked for again and again is kept, the rest is let go, and never more than twice as many are held', () => {
  const kept = keptLately<number>(10);
  kept.set('often', 0);
  for (let n = 1; n <= 100; n += 1) {
    kept.set(String(n), n);
    expect(kept.get('often')).toBe(0);
  }
  const held = Array.from({ length: 100 }, (_, n) => kept.get(String(n + 1))).filter(
    (value) => value !== undefined,
  );
  expect(held.length).toBeLessThanOrEqual(20);
  expect(kept.get('100')).toBe(100);
  expect(kept.get('1')).toBeUndefined();
});
