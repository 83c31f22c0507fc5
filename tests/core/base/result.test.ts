import { expect, it } from 'vitest';
import { assertNever } from '#core/base/exhaustive.ts';
import { err, mapOk, mustSucceed, ok } from '#core/base/result.ts';

it('hands a success on changed and a failure untouched', () => {
  expect(mapOk(ok(2), (n) => n + 1)).toEqual(ok(3));
  const failed = err({ type: 'Refused' as const });
  expect(mapOk(failed, () => 1)).toBe(failed);
});

it('throws where an expected failure had been ruled out', () => {
  expect(mustSucceed(ok('value'))).toBe('value');
  expect(() => mustSucceed(err({ type: 'Refused' }))).toThrow('Refused');
});

it('throws on a case that the types rule out', () => {
  expect(() => assertNever('a case from elsewhere' as never)).toThrow('a case from elsewhere');
});
