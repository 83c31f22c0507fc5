import { localDayAround } from '#renderer/cellar/day.ts';
import { faultOf, faults } from '#renderer/cellar/faults.svelte.ts';
import { RequestIds } from '#renderer/cellar/request-ids.ts';
import { LostHostError } from '#renderer/backend/backend.ts';
import { afterEach, describe, expect, it, vi } from 'vitest';

describe('the id of a request', () => {
  it('stays the same while an act is sent again without an answer', () => {
    let next = 0;
    const ids = new RequestIds(() => `id-${(next += 1)}`);
    const act = { act: { kind: 'note' }, happenedAtMs: null };
    expect(ids.for(act)).toBe(ids.for({ ...act }));
  });

  it('is new for another act, and for the same act after an answer', () => {
    let next = 0;
    const ids = new RequestIds(() => `id-${(next += 1)}`);
    const first = ids.for({ act: 1 });
    expect(ids.for({ act: 2 })).not.toBe(first);
    const second = ids.for({ act: 2 });
    ids.settled({ act: 2 });
    expect(ids.for({ act: 2 })).not.toBe(second);
  });

  it('is kept when the answer was to another act', () => {
    let next = 0;
    const ids = new RequestIds(() => `id-${(next += 1)}`);
    const open = ids.for({ act: 1 });
    ids.settled({ act: 9 });
    expect(ids.for({ act: 1 })).toBe(open);
  });
});

describe("the keeper's day", () => {
  it('runs from midnight to midnight around any moment of it', () => {
    const noon = new Date(2026, 10, 25, 12).getTime();
    const day = localDayAround(noon);
    expect(day.startMs).toBe(new Date(2026, 10, 25).getTime());
    expect(day.endMs).toBe(new Date(2026, 10, 26).getTime());
    expect(localDayAround(day.startMs)).toEqual(day);
    expect(localDayAround(day.endMs - 1)).toEqual(day);
    expect(localDayAround(day.endMs).startMs).toBe(day.endMs);
  });

  it('crosses the end of a year', () => {
    const day = localDayAround(new Date(2026, 11, 31, 23, 59).getTime());
    expect(day.endMs).toBe(new Date(2027, 0, 1).getTime());
  });
});

describe('a fault', () => {
  afterEach(() => {
    faults.clear();
  });

  it('says that the program has gone, and that nothing is lost', () => {
    const fault = faultOf(new LostHostError('gone'));
    expect(fault.title).toBe('Undercroft does not answer.');
    expect(fault.message).toContain('what you have typed stays here');
    expect(fault.detail).toBeNull();
  });

  it('gives a detail to quote for anything else', () => {
    expect(faultOf(Object.assign(new Error('odd'), { code: 'INTERNAL_SERVER_ERROR' })).detail).toBe(
      'INTERNAL_SERVER_ERROR: odd',
    );
    expect(faultOf('bare').detail).toBe('bare');
  });

  it('stays in sight until a retry succeeds', async () => {
    vi.spyOn(console, 'warn').mockImplementation(() => undefined);
    let well = false;
    const stop = faults.onRetry(() =>
      well ? Promise.resolve() : Promise.reject(new LostHostError('still')),
    );
    faults.report(new LostHostError('gone'));
    await faults.retry();
    expect(faults.current).not.toBeNull();
    well = true;
    await faults.retry();
    expect(faults.current).toBeNull();
    stop();
  });

  it('is not made of a call that was stopped on purpose', () => {
    faults.report(new DOMException('stopped', 'AbortError'));
    expect(faults.current).toBeNull();
  });
});
