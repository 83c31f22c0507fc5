import { describe, expect, test } from 'vitest';
import { HOUSE_RULES_AT_FIRST } from '#core/contract/house-rules.ts';
import type { EntryRow } from '#core/contract/ledger.ts';
import { Act } from '#core/ledger/act.ts';
import { EntryId } from '#core/ledger/ids.ts';
import { PINS_MAX, pinsOf, sayPinDays } from '#renderer/cellar-book/pins.ts';
import { DAY, idOf } from './sample-readings.ts';

const JAR = idOf(1);
const START = Date.UTC(2026, 8, 1, 9);
let serial = 0;
function line(day: number, act: object, more: Partial<EntryRow> = {}): EntryRow {
  serial += 1;
  return {
    ...{
      entryId: EntryId.parse(idOf(500 + serial)),
      sequence: serial,
      act: Act.parse(act),
      postings: [],
      typed: {},
    },
    ...{
      happenedAtMs: START + day * DAY,
      writtenAtMs: START + day * DAY,
      struck: false,
      reversed: null,
      restated: null,
    },
    names: { [JAR]: 'Jar 2' },
    ...more,
  };
}
const pitched = { kind: 'pitchYeast', vesselId: JAR, cultureId: null, yeast: 'Perry yeast', massUg: null };
const moved = { kind: 'changeStage', vesselId: JAR, stage: 'settling', reason: '' };
const noted = { kind: 'note', about: { kind: 'vessel', vesselId: JAR }, text: 'clear' };
const ALL = { fromMs: START - DAY, toMs: START + 900 * DAY };

describe('numbered acts over the charts', () => {
  test('oldest first, numbered from one; notes and struck lines have none', () => {
    const pins = pinsOf(
      [line(20, moved), line(9, noted), line(2, pitched), line(3, pitched, { struck: true })],
      { fromMs: START, toMs: START + 60 * DAY },
      HOUSE_RULES_AT_FIRST,
    );
    expect(pins.map(({ number, says }) => [number, says])).toEqual([
      [1, 'Pitched Perry yeast, into Jar 2.'],
      [2, 'Jar 2 moved on to Settling.'],
    ]);
  });

  test('what was done on one day shares a number', () => {
    const pins = pinsOf([line(2, pitched), line(2.1, moved)], ALL, HOUSE_RULES_AT_FIRST);
    expect(pins).toHaveLength(1);
    expect(pins[0]?.says).toBe('Pitched Perry yeast, into Jar 2. Jar 2 moved on to Settling.');
  });

  test('acts too close to be told apart on the range share a number, and say from when to when', () => {
    const close = [line(2, pitched), line(5, moved), line(400, moved)];
    const pins = pinsOf(close, ALL, HOUSE_RULES_AT_FIRST);
    expect(pins.map((pin) => [pin.number, sayPinDays(pin)])).toEqual([
      [1, 'Sep 3 to Sep 6'],
      [2, 'Oct 6'],
    ]);
    const near = { fromMs: START, toMs: START + 10 * DAY };
    expect(pinsOf(close, near, HOUSE_RULES_AT_FIRST).map(sayPinDays)).toEqual(['Sep 3', 'Sep 6']);
  });

  test('only what lies in the range, and never more than can be told apart', () => {
    const many = Array.from({ length: 40 }, (_, i) => line(i * 30, moved));
    expect(
      pinsOf(many, { fromMs: START + 50 * DAY, toMs: START + 130 * DAY }, HOUSE_RULES_AT_FIRST),
    ).toHaveLength(3);
    const all = pinsOf(many, { fromMs: START, toMs: START + 40 * 30 * DAY }, HOUSE_RULES_AT_FIRST);
    expect(all.length).toBeLessThanOrEqual(PINS_MAX);
    expect(all[all.length - 1]?.untilMs).toBe(START + 39 * 30 * DAY);
  });
});
