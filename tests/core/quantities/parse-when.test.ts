import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import {
  civilOfUtc,
  fixedOffset,
  isCalendarDay,
  isoMinute,
  utcOfCivil,
  type LocalTime,
} from '#core/quantities/civil-time.ts';
import { parseWhen } from '#core/quantities/parse-when.ts';

const NOW = Date.UTC(2026, 10, 25, 12, 30);
const utc = fixedOffset(0);
const read = (text: string, localTime: LocalTime = utc) => parseWhen(text, { nowMs: NOW, localTime });

function iso(text: string, localTime: LocalTime = utc): string {
  const parsed = read(text, localTime);
  if (!parsed.ok) throw new Error(`${text}: ${JSON.stringify(parsed.error)}`);
  return isoMinute(civilOfUtc(parsed.value.atMs));
}

describe('a moment', () => {
  test.each([
    ['now', '2026-11-25 12:30'],
    ['today', '2026-11-25 12:30'],
    ['today 08:15', '2026-11-25 08:15'],
    ['8:15', '2026-11-25 08:15'],
    ['yesterday', '2026-11-24 12:00'],
    ['yesterday 18:00', '2026-11-24 18:00'],
    ['Yesterday, 18:00', '2026-11-24 18:00'],
    ['3 d ago', '2026-11-22 12:30'],
    ['3 days ago', '2026-11-22 12:30'],
    ['2h ago', '2026-11-25 10:30'],
    ['90 min ago', '2026-11-25 11:00'],
    ['1 week ago', '2026-11-18 12:30'],
    ['2026-11-25', '2026-11-25 12:00'],
    ['2026-11-25 14:30', '2026-11-25 14:30'],
    ['2026-11-25T14:30', '2026-11-25 14:30'],
    ['2026-11-25T14:30:59', '2026-11-25 14:30'],
    ['25 Nov 2026', '2026-11-25 12:00'],
    ['25. November 2026', '2026-11-25 12:00'],
    ['Nov 25, 2026 06:00', '2026-11-25 06:00'],
    ['25/11/2026', '2026-11-25 12:00'],
    ['11/25/2026', '2026-11-25 12:00'],
    ['25.11.2026 7:00', '2026-11-25 07:00'],
    ['05/05/2026', '2026-05-05 12:00'],
    ['2024-02-29', '2024-02-29 12:00'],
    ['2027-01-01', '2027-01-01 12:00'],
  ])('%s', (text, expected) => expect(iso(text)).toBe(expected));

  it('is read on the wall clock of the place', () => {
    expect(iso('yesterday 18:00', fixedOffset(120))).toBe('2026-11-24 16:00');
    expect(iso('2026-11-25 00:30', fixedOffset(-480))).toBe('2026-11-25 08:30');
  });

  it('says how closely it was told', () => {
    const precision = (text: string) => {
      const parsed = read(text);
      return parsed.ok && parsed.value.precision;
    };
    expect(precision('yesterday')).toBe('day');
    expect(precision('today')).toBe('day');
    expect(precision('3 d ago')).toBe('day');
    expect(precision('3 h ago')).toBe('minute');
    expect(precision('today 08:00')).toBe('minute');
  });

  it('with day and month that could be swapped is never guessed', () => {
    const parsed = read('03/04/2026');
    if (parsed.ok || parsed.error.type !== 'Ambiguous') throw new Error('not ambiguous');
    expect(parsed.error.readings.map(({ text }) => text)).toEqual(['2026-04-03', '2026-03-04']);
    for (const reading of parsed.error.readings) expect(iso(reading.text).slice(0, 10)).toBe(reading.text);
  });

  test.each(['2026-02-30', '31/04/2026', '2025-02-29', '2026-13-01', '00/00/2026', '32/01/2026'])(
    '%s is no day',
    (text) => expect(read(text)).toMatchObject({ ok: false, error: { type: 'NoSuchDay' } }),
  );

  test.each([
    '',
    'damson',
    'tomorrow',
    '25:00',
    'today 12:60',
    '3 moons ago',
    '03/04/26',
    '25 Foo 2026',
    '9'.repeat(100_000),
    'toString ago',
    '3 constructor ago',
  ])('%s is no moment', (text) =>
    expect(read(text)).toMatchObject({ ok: false, error: { type: 'NotAWhen' } }),
  );

  it('that the wall clock skips is refused', () => {
    const gap: LocalTime = { ...utc, epochOf: (civil) => (civil.hour === 2 ? null : utc.epochOf(civil)) };
    expect(read('2026-03-29 02:30', gap)).toMatchObject({ ok: false, error: { type: 'NoSuchTime' } });
  });

  it('never throws, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.stringMatching(/^[0-9/.: -]{0,20}$/), fc.string({ unit: 'grapheme' })),
        (text) => {
          const parsed = read(text);
          if (parsed.ok) expect(Number.isFinite(parsed.value.atMs)).toBe(true);
        },
      ),
      { numRuns: 3000 },
    );
  });
});

describe('the calendar', () => {
  const minute = fc.integer({ min: Date.UTC(1600, 0, 1) / 60_000, max: Date.UTC(2800, 0, 1) / 60_000 });
  it('agrees with the language’s own, there and back', () => {
    fc.assert(
      fc.property(minute, (minutes) => {
        const at = minutes * 60_000;
        const civil = civilOfUtc(at);
        expect(utcOfCivil(civil)).toBe(at);
        expect(isoMinute(civil)).toBe(new Date(at).toISOString().slice(0, 16).replace('T', ' '));
        expect(isCalendarDay(civil.year, civil.month, civil.day)).toBe(true);
      }),
    );
  });
  it('reads back what it writes', () => {
    fc.assert(
      fc.property(minute, fc.integer({ min: -840, max: 840 }), (minutes, offset) => {
        const place = fixedOffset(offset);
        const at = minutes * 60_000;
        const parsed = parseWhen(isoMinute(place.localOf(at)), { nowMs: NOW, localTime: place });
        expect(parsed).toMatchObject({ ok: true, value: { atMs: at } });
      }),
    );
  });
});
