import type { BatchId, CultureId, EntryId, VesselId } from '#core/ledger/ids.ts';
import { destinationOf, hashOf, type Destination } from '#renderer/navigation/destination.ts';
import { describe, expect, it } from 'vitest';

const ID = '018f3a5c-7b1e-7c22-9d3f-0a1b2c3d4e5f';

describe('a destination and its address', () => {
  const destinations: readonly Destination[] = [
    { place: 'shelves' },
    { place: 'shelves', vesselId: ID as VesselId },
    { place: 'book' },
    { place: 'book', cultureId: ID as CultureId },
    { place: 'leaf', batchId: ID as BatchId },
    { place: 'pedigree', of: { kind: 'batch', batchId: ID as BatchId }, direction: 'back' },
    { place: 'pedigree', of: { kind: 'lot', lotId: ID as EntryId }, direction: 'onward' },
    { place: 'pedigree', of: { kind: 'culture', cultureId: ID as CultureId }, direction: 'onward' },
    { place: 'pedigree', of: { kind: 'vessel', vesselId: ID as VesselId }, direction: 'back' },
    { place: 'cultures' },
    { place: 'cultures', cultureId: ID as CultureId },
    { place: 'strongbox' },
    { place: 'calendar' },
    { place: 'calendar', day: '2026-11-25' },
    { place: 'labels' },
    { place: 'paper', paper: 'leaf', batchId: ID as BatchId },
    { place: 'paper', paper: 'shelves' },
    { place: 'paper', paper: 'due' },
    { place: 'paper', paper: 'cultures' },
    { place: 'paper', paper: 'cultures', cultureId: ID as CultureId },
    { place: 'bench' },
    { place: 'bench', reckoning: 'diluteToStrength' },
    { place: 'bench', vesselId: ID as VesselId },
    { place: 'bench', reckoning: 'diluteToStrength', vesselId: ID as VesselId },
  ];

  it.each(destinations)('comes back as it went: %j', (destination) => {
    expect(destinationOf(hashOf(destination))).toEqual(destination);
  });

  it.each(['', '#', '#/', '#/attic', '#/shelves/../../etc', '#/leaf/<script>', '#/SHELVES', '#/leaf/x y'])(
    'is the shelves or the book for an address that is none of ours: %s',
    (hash) => {
      expect(['shelves', 'book']).toContain(destinationOf(hash).place);
    },
  );

  it('is the book for a leaf without its batch', () => {
    expect(destinationOf('#/leaf')).toEqual({ place: 'book' });
  });
});
