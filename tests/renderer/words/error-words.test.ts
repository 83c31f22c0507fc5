import { describe, expect, test } from 'vitest';
import { mustSucceed } from '#core/base/result.ts';
import { EntryId } from '#core/ledger/ids.ts';
import { LedgerError } from '#core/ledger/ledger-error.ts';
import { fixedOffset, utcOfCivil } from '#core/quantities/civil-time.ts';
import { METRIC_HOUSE } from '#core/quantities/house-units.ts';
import { parseChalk } from '#core/quantities/parse-chalk.ts';
import { parseQuantity } from '#core/quantities/parse-quantity.ts';
import { parseWhen, type WhenError } from '#core/quantities/parse-when.ts';
import type { QuantityError, QuantityKind } from '#core/quantities/understood.ts';
import {
  sayChalkError,
  sayLedgerError,
  sayQuantityError,
  sayWhenError,
  type Said,
} from '#renderer/words/error-words.ts';

const localTime = fixedOffset(0);
const context = { house: METRIC_HOUSE, localTime };
const at = (hour: number, minute: number): number =>
  utcOfCivil({ year: 2026, month: 11, day: 25, hour, minute });
const plain = (said: Said): string => said.sentence.replaceAll('\u00A0', ' ');

/** One refusal of each type, and what the keeper reads. */
const REFUSALS: {
  [T in LedgerError['type']]: [Omit<Extract<LedgerError, { type: T }>, 'type'>, RegExp, string?];
} = {
  NotFound: [{ field: 'vesselId', what: 'vessel', id: 'x' }, /^This vessel is not in the cellar any more/],
  VesselEmpty: [{ field: 'vesselId', vesselNumber: 7 }, /^Vessel 7 is empty/],
  VesselNotEmpty: [
    { field: 'vesselId', vesselNumber: 7, holdsUl: 1_200_000 },
    /holds 1\.2 L\. Choose an empty one/,
  ],
  WouldEmpty: [{ field: 'drawnUl', vesselNumber: 7 }, /^That is all that vessel 7 holds/],
  SameHolder: [{ field: 'holder', holder: 'the neighbour' }, /^the neighbour has it already/],
  TooFewBottles: [{ field: 'bottles', left: 3, wanted: 5 }, /^3 of this lot are left/, '3'],
  LotShort: [{ field: 'lossUl', leftUl: 750_000, wantedUl: 900_000 }, /^These bottles hold 750 ml together/],
  MassShort: [
    { field: 'steps', component: 'sugar', heldUg: 5_000_000, wantedUg: 9_000_000 },
    /^The book counts 5 g of sugar in it, and 9 g is asked to change/,
  ],
  TooHeavy: [{ field: '', mostUg: 1e15 }, /^That would weigh more than .* in one vessel/],
  RestateImpossible: [
    {
      field: 'entryId',
      refusals: [
        {
          entryId: EntryId.parse('019a0000-0000-7000-8000-000000000099'),
          error: { type: 'NothingToUndo', field: '' },
        },
      ],
    },
    /^Told so, a later line could not have been/,
  ],
  VesselRetired: [{ field: 'vesselId', vesselNumber: 7 }, /^Vessel 7 is retired/],
  VesselOverdrawn: [
    { field: 'volumeUl', vesselNumber: 7, heldUl: 1_234_567, wantedUl: 2_000_000 },
    /holds 1\.23 L, and 2 L is asked of it/,
    '1.234567 L',
  ],
  VesselOverfilled: [
    { field: 'volumeUl', vesselNumber: 7, roomUl: 300_000, wantedUl: 2_000_000 },
    /has room for 300 ml; 2 L does not fit/,
    '300 ml',
  ],
  CapacityBelowContents: [
    { field: 'capacityUl', heldUl: 1_200_000, capacityUl: 1_000_000 },
    /holds 1\.2 L now, more than a capacity of 1 L/,
    '1.2 L',
  ],
  SameVessel: [{ field: 'toVesselId' }, /same vessel stands on both sides/],
  PositionTaken: [{ field: 'position', position: 3, byVesselNumber: 7 }, /Position 3 is taken by vessel 7/],
  PositionOffShelf: [
    { field: 'position', position: 12, positions: 8 },
    /positions 1 to 8; 12 is not one/,
    '8',
  ],
  ShelfTooShort: [{ field: 'positions', positions: 4, highestInUse: 6 }, /stands at position 6/, '6'],
  AlreadyTaken: [
    { field: 'code', what: 'batch code', value: 'AV-26-003' },
    /batch code AV-26-003 is already taken/,
  ],
  NothingToAdd: [{ field: 'volumeUl' }, /would change nothing/],
  NewBatchIntoOccupied: [{ field: 'toVesselId', vesselNumber: 7 }, /Vessel 7 already holds a batch/],
  SameStage: [{ field: 'stage', stage: 'vinegar' }, /in Vinegar ferment already/],
  SameClosure: [{ field: 'closure', closure: 'airlock' }, /already: water lock/],
  CultureOwnParent: [{ field: 'parentCultureId' }, /cannot descend from itself/],
  InTheFuture: [
    { field: 'happenedAtMs', happenedAtMs: at(20, 0), nowMs: at(14, 2) },
    /2026-11-25 20:00 is still to come; it is 2026-11-25 14:02 now/,
    'now',
  ],
  BeforeItBegan: [
    { field: 'happenedAtMs', happenedAtMs: at(9, 0), beganAtMs: at(9, 12) + 33_000 },
    /At 2026-11-25 09:00 this was not in the vessel yet/,
    '2026-11-25 09:13',
  ],
  AlreadyStruck: [{ field: 'entryId' }, /struck through already/],
  CannotReverse: [{ field: 'entryId', kind: 'reverse' }, /Use Undo or Redo/],
  LaterEntriesRest: [{ field: 'entryId', entryIds: ['a', 'b'] }, /^2 later lines rest on this one/],
  NothingToUndo: [{ field: 'entryId' }, /nothing left to undo/],
  NothingToRedo: [{ field: 'entryId' }, /nothing left to redo/],
};

describe('every refusal of the book has its words', () => {
  test('and none is missing here', () => {
    const known = LedgerError.options.map((option) => option.shape.type.value).toSorted();
    expect(Object.keys(REFUSALS).toSorted()).toEqual(known);
  });

  test.each(Object.entries(REFUSALS))('%s', (type, [facts, words, fix]) => {
    const said = sayLedgerError({ type, ...facts } as LedgerError, context);
    expect(plain(said)).toMatch(words);
    expect(said.sentence).toMatch(/[.?]$/u);
    expect(said.fixes[0]?.text).toBe(fix);
  });

  test('a full vessel offers no amount', () => {
    const said = sayLedgerError(
      { type: 'VesselOverfilled', field: 'volumeUl', vesselNumber: 7, roomUl: 0, wantedUl: 5 },
      context,
    );
    expect(plain(said)).toMatch(/Vessel 7 is full/);
    expect(said.fixes).toEqual([]);
  });

  test('a missing position is asked for with its range', () => {
    const said = sayLedgerError(
      { type: 'PositionOffShelf', field: 'position', position: 0, positions: 8 },
      context,
    );
    expect(plain(said)).toBe('Say at which position of the shelf: 1 to 8.');
  });

  test('an amount is offered only for a field that takes one', () => {
    const said = sayLedgerError(
      { type: 'VesselOverdrawn', field: 'bottles', vesselNumber: 7, heldUl: 5, wantedUl: 9 },
      context,
    );
    expect(said.fixes).toEqual([]);
  });
});

describe('every error of a typed quantity has its words', () => {
  const wrong = (kind: QuantityKind, text: string): QuantityError => {
    const read = parseQuantity(kind, text, METRIC_HOUSE);
    if (read.ok) throw new Error(`${text} was understood`);
    return read.error;
  };
  const EXAMPLES: Record<QuantityError['type'], [QuantityKind, string, RegExp, readonly string[]]> = {
    Empty: ['gravity', ' ', /Type a gravity, for instance 1\.048/, []],
    TooLong: ['volume', '1'.repeat(95), /95 signs long/, []],
    NotANumber: ['volume', 'a jugful', /“a jugful” is not read as a volume/, []],
    UnknownUnit: ['volume', '5 furlong', /“furlong” is not a unit of volume\. Units are µL, ml/, []],
    UnitMissing: ['volume', '5', /^“5” of what\? Write the unit too, for instance/, ['Use 5 L', 'Use 5 ml']],
    Ambiguous: [
      'volume',
      '1,048 ml',
      /may be 1\.048 ml or 1048 ml \(1\.048 L\)/,
      ['Use 1.048 ml', 'Use 1048 ml'],
    ],
    Implausible: ['gravity', '1.48', /1\.48 is outside 0\.980 to 1\.200/, ['Use 1.048', 'Keep 1.48']],
  };

  test.each(Object.entries(EXAMPLES))('%s', (type, [kind, text, words, labels]) => {
    const error = wrong(kind, text);
    expect(error.type).toBe(type);
    const said = sayQuantityError(error, METRIC_HOUSE, text);
    expect(plain(said)).toMatch(words);
    expect(said.fixes.map(({ label }) => label)).toEqual(labels);
  });

  test('each of them can be said of each kind', () => {
    const kinds: QuantityKind[] = ['gravity', 'acidity', 'pH', 'volume', 'temperature', 'mass'];
    for (const kind of [...kinds, 'freeSulfite', 'alcohol', 'salt'] as QuantityKind[]) {
      for (const text of ['', 'x', '1'.repeat(99), '5 furlong', '99999', '-5', '5']) {
        const read = parseQuantity(kind, text, METRIC_HOUSE);
        if (!read.ok) {
          expect(sayQuantityError(read.error as QuantityError, METRIC_HOUSE, text).sentence).toMatch(
            /[.?]$/u,
          );
        }
      }
    }
  });

  test('a number that may be two things is asked about with both values', () => {
    const said = sayQuantityError(wrong('gravity', '12'), METRIC_HOUSE, '12');
    expect(plain(said)).toBe(
      '“12” may be 12 °Bx (gravity 1.048 SG) or 12 pts (gravity 1.012 SG). Which is meant?',
    );
  });

  test('an amount below nothing cannot be kept', () => {
    const said = sayQuantityError(wrong('volume', '-5 L'), METRIC_HOUSE, '-5 L');
    expect(plain(said)).toMatch(/-5 L cannot stand as a volume; it goes from 0/);
    expect(said.fixes.filter(({ how }) => how === 'keep')).toEqual([]);
  });
});

describe('a moment that is not understood', () => {
  const wrong = (text: string): WhenError => {
    const read = parseWhen(text, { nowMs: at(14, 2), localTime });
    if (read.ok) throw new Error(`${text} was understood`);
    return read.error;
  };

  test.each([
    ['NotAWhen', 'the other day', /“the other day” is not read as a time/],
    ['NoSuchDay', '2026-02-30', /no such day/],
    ['Ambiguous', '03/04/2026', /may be 3 April 2026 or 4 March 2026/],
  ] as const)('%s', (type, text, words) => {
    const error = wrong(text);
    expect(error.type).toBe(type);
    expect(plain(sayWhenError(error, localTime))).toMatch(words);
  });

  test('NoSuchTime', () => {
    expect(sayWhenError({ type: 'NoSuchTime', text: '2026-03-29 02:30' }, localTime).sentence).toMatch(
      /clock skips/,
    );
  });

  test('both days of an ambiguous date are presses, and the time of day is kept', () => {
    const days = sayWhenError(wrong('03/04/2026'), localTime).fixes;
    expect(days.map(({ label, text }) => [label, text])).toEqual([
      ['3 April 2026', '2026-04-03'],
      ['4 March 2026', '2026-03-04'],
    ]);
    const times = sayWhenError(wrong('03/04/2026 18:30'), localTime).fixes;
    expect(times.map(({ text }) => text)).toEqual(['2026-04-03 18:30', '2026-03-04 18:30']);
  });
});

describe('a chalked line that is not understood', () => {
  const wrong = (text: string): Said => {
    const read = parseChalk(`A1 ${text}`, METRIC_HOUSE);
    if (read.ok) throw new Error(`${text} was understood`);
    return sayChalkError(read.error, METRIC_HOUSE, text);
  };

  test('says what one line takes', () => {
    expect(plain(wrong('nice colour'))).toMatch(/Type a number with its unit/);
    expect(plain(wrong('pH 3.4 pH 3.5'))).toMatch(/gives the pH twice/);
  });

  test('mends only the faulty piece', () => {
    const said = wrong('1.48 19C');
    expect(plain(said)).toMatch(/Did you mean 1\.048/);
    expect(said.fixes[0]).toMatchObject({ text: '1.048 19C', how: 'use' });
  });

  test('an ambiguous piece is asked about', () => {
    expect(mustSucceed(parseChalk('A1 12 Bx', METRIC_HOUSE)).readings).toHaveLength(1);
  });
});
