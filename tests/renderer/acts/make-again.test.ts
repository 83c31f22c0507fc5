import { describe, expect, it } from 'vitest';
import type { Leaf } from '#core/contract/book.ts';
import type { Act } from '#core/ledger/act.ts';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import { draftKey } from '#renderer/acts/act-request.ts';
import { againFields, againFrom, plannedNote, sayFactor } from '#renderer/acts/make-again.ts';
import { entryOf, uuid } from '../fake-cellar.ts';

const DAY = 86_400_000;
const START = Date.UTC(2026, 8, 1, 9);
const LEAF = {
  ...{ batchId: uuid(9), code: 'DW-26-001', name: 'Damson wine', ferment: 'wine', startedAtMs: START },
  startedUl: 5_000_000,
  ingredients: [
    { name: 'damsons', amountTyped: '3 kg', massUg: 3e9, costHundredths: 600 },
    { name: 'sugar', amountTyped: '', massUg: 1_200_000_000 },
    { name: 'cloves', amountTyped: 'a handful', massUg: null },
  ],
} as unknown as Leaf;
const RULES = { ...HOUSE_RULES_AT_FIRST, currency: 'kr' };
const line = (day: number, act: unknown, more: object = {}) =>
  entryOf(act as Act, { happenedAtMs: START + day * DAY, sequence: day + 1, ...more });
const sugar = { kind: 'addTo', vesselId: uuid(1), what: 'sugar', volumeUl: 0 };
const ENTRIES = [
  line(12, { ...sugar, ingredient: { name: 'sugar', amountTyped: '200 g', massUg: 2e8 } }),
  line(8, { ...sugar, ingredient: { name: 'chalk', amountTyped: '5 g', massUg: 5e6 } }, { struck: true }),
  line(1, { kind: 'pitchYeast', vesselId: uuid(1), cultureId: null, yeast: 'dry yeast', massUg: 5_000_000 }),
  line(40, {
    kind: 'seed',
    vesselId: uuid(1),
    cultureId: uuid(5),
    fromVesselId: null,
    volumeUl: 300_000,
    what: '',
    toStage: 'vinegar',
  }),
];
const plain = (text: string): string => text.replaceAll('\u00A0', ' ');

describe('a batch made again', () => {
  const again = againFrom(LEAF, ENTRIES, RULES);

  it('takes over what went in, scaled to the new volume, and leaves alone what is no number', () => {
    const fields = againFields(again, 1.5);
    expect(plain(fields['amount0'] ?? '')).toBe('4.5 kg');
    expect(plain(fields['amount1'] ?? '')).toBe('1.8 kg');
    expect(fields['amount2']).toBe('a handful');
    expect(fields['ingredient2']).toBe('cloves');
    expect(again.ingredients[0]?.cost).toBe('6.00\u00A0kr');
  });

  it('lists what was put in later as planned, by its day, without what was struck', () => {
    expect(plain(plannedNote(again, 2)).split('\n')).toEqual([
      ...[
        'Made again from Damson wine (DW-26-001).',
        'Planned:',
        'day 1: 10 g yeast dry yeast (last time 5 g)',
      ],
      ...['day 12: 400 g sugar (last time 200 g)', 'day 40: 600 ml Old Bess (last time 300 ml)'],
    ]);
    expect(plannedNote({ ...again, later: [] }, 2)).toBe('Made again from Damson wine (DW-26-001).');
  });

  it('says how many times as much, and keeps one draft for each old batch', () => {
    expect(sayFactor(1)).toBe('as much as last time');
    expect(sayFactor(1 / 3)).toBe('0.333 times as much as last time');
    expect(draftKey({ kind: 'startBatch', again })).toBe(`startBatch:again ${uuid(9)}`);
  });
});
