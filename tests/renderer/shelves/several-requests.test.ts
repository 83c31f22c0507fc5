import { expect, test } from 'vitest';
import { severalRequests } from '#renderer/shelves/several-requests.ts';
import { emptyRow, row, vesselId } from './rows-for-tests.ts';

const filled = (...numbers: number[]) => numbers.map((number) => row(number));
const empty = (...numbers: number[]) => numbers.map((number) => emptyRow(number));
const upTo = (count: number): number[] => Array.from({ length: count }, (_, i) => i + 1);

test('one filled vessel is split into the empty ones beside it', () => {
  expect(severalRequests([...empty(4), ...filled(1), ...empty(2)])).toEqual({
    split: { kind: 'split', fromVesselId: vesselId(1), toVesselIds: [vesselId(4), vesselId(2)] },
    blend: null,
  });
});

test('filled vessels are blended, into the one empty vessel chosen with them if there is just one', () => {
  const blend = { kind: 'blend', fromVesselIds: [vesselId(1), vesselId(2)] };
  expect(severalRequests([...filled(1, 2), ...empty(3)])).toEqual({
    split: null,
    blend: { ...blend, toVesselId: vesselId(3) },
  });
  expect(severalRequests([...filled(1, 2), ...empty(3, 4)])).toEqual({
    split: null,
    blend: { ...blend, toVesselId: undefined },
  });
});

test('empty vessels alone, and more than a form takes, are asked for nothing', () => {
  const nothing = { split: null, blend: null };
  expect(severalRequests(empty(1, 2))).toEqual(nothing);
  expect(severalRequests(filled(...upTo(25)))).toEqual(nothing);
  expect(severalRequests([row(99), ...empty(...upTo(25))])).toEqual(nothing);
});
