import { saySaved } from '#renderer/shell/saved-words.ts';
import { placeOf, PLACES } from '#renderer/shell/places.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import { describe, expect, it } from 'vitest';

const day = { startMs: new Date(2026, 10, 25).getTime(), endMs: new Date(2026, 10, 26).getTime() };
const calm = { day, readOnly: false, faulty: false };

describe('the words at the foot of the rail', () => {
  it('tell the hour of today, and the date of another day', () => {
    expect(saySaved({ ...calm, savedAtMs: new Date(2026, 10, 25, 14, 2).getTime() })).toBe('Saved 14:02');
    expect(saySaved({ ...calm, savedAtMs: new Date(2026, 10, 24, 9, 5).getTime() })).toBe(
      'Saved 2026-11-24 09:05',
    );
  });

  it('never say saved when it is not', () => {
    const savedAtMs = new Date(2026, 10, 25, 14, 2).getTime();
    expect(saySaved({ ...calm, savedAtMs: null })).not.toContain('Saved');
    expect(saySaved({ ...calm, savedAtMs, readOnly: true })).not.toContain('Saved');
    expect(saySaved({ ...calm, savedAtMs, faulty: true })).not.toContain('Saved ');
  });
});

describe('the places of the rail', () => {
  it('are numbered as their keys are', () => {
    expect(PLACES.map(({ number }) => number)).toEqual([1, 2, 3, 4, 6, 7]);
  });

  it('count a leaf to the Cellar Book', () => {
    expect(placeOf({ place: 'leaf', batchId: 'x' as BatchId }).name).toBe('Cellar Book');
  });
});
