import { placeOf, PLACES } from '#renderer/shell/places.ts';
import type { BatchId } from '#core/ledger/ids.ts';
import { describe, expect, it } from 'vitest';

describe('the places of the rail', () => {
  it('are numbered as their keys are', () => {
    expect(PLACES.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7]);
  });

  it('count a leaf to the Cellar Book', () => {
    expect(placeOf({ place: 'leaf', batchId: 'x' as BatchId }).name).toBe('Cellar Book');
  });
});
