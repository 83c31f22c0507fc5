import { describe, expect, it } from 'vitest';
import { inspectNewest } from '#core/safety/inspect.ts';
import { FIRST_MEASUREMENT_RULES as RULES } from '#core/safety/rules/measurement.ts';
import type { EventKind, Measurement } from '#core/safety/facts.ts';
import { acidity, DAY, event, facts, HOUR, NOW, other, ph } from './given.ts';

function answer(ruleId: string, measurement: Measurement, change: Parameters<typeof facts>[0] = {}) {
  const inspection = inspectNewest(
    measurement.quantity,
    facts({ measurements: [measurement], ...change }),
    RULES,
  );
  const found = inspection.answers.find(({ rule }) => rule.id === ruleId)?.answer;
  return {
    verdict: found?.verdict,
    reason: found?.reason,
    numbers: found?.numbers,
    usable: inspection.usable,
  };
}

describe('[MEAS-02] the error of a number', () => {
  it('takes the keeper’s own error when it is not below the floor', () => {
    expect(answer('MEAS-02', acidity(5, { uncertainty: 0.1 }))).toMatchObject({ verdict: 'ok' });
    expect(answer('MEAS-02', acidity(5, { uncertainty: 0.4 })).usable).toEqual({
      value: 5,
      uncertainty: 0.4,
    });
  });
  it.each([null, 0, -0.1, 0.09, Number.NaN])(
    'puts the method’s default for %s, and says so',
    (uncertainty) => {
      const given = answer('MEAS-02', acidity(5, { uncertainty }));
      expect(given).toMatchObject({ verdict: 'caution', reason: 'default_uncertainty' });
      expect(given.usable?.uncertainty).toBe(0.15);
    },
  );
  it('takes 7 % but at least 0.3 for a syringe kit', () => {
    const kit = { uncertainty: null, method: 'taSyringeKit' } as const;
    expect(answer('MEAS-02', acidity(3, kit)).usable?.uncertainty).toBe(0.3);
    expect(answer('MEAS-02', acidity(6, kit)).usable?.uncertainty).toBeCloseTo(0.42, 12);
  });
  it('credits an error without a method only from the largest floor of the methods on', () => {
    const of = (uncertainty: number) => answer('MEAS-02', acidity(5, { uncertainty, method: null }));
    expect(of(0.2)).toMatchObject({ verdict: 'ok', usable: { uncertainty: 0.2 } });
    expect(of(0.19)).toMatchObject({ verdict: 'unknown_measure_first', reason: 'method', usable: null });
    const alcohol = other('alcohol', 0.3, { uncertainty: 0.1, method: null });
    expect(answer('MEAS-02', alcohol).reason).toBe('method');
  });
  it('turns the error of a refractometer, which is in °Bx, into gravity', () => {
    // ICUMSA: 12.0 °Bx is SG 1.04839 and 13.0 is 1.05261 (reference rows SUG-SGAPP-12 and 13), so ±0.3 °Bx is ±0.00126.
    const of = (uncertainty: number | null) =>
      answer('MEAS-02', other('gravity', 1.04839, { uncertainty, method: 'refractometer' })).usable;
    expect(of(null)?.uncertainty).toBeCloseTo(0.00126, 4);
    expect(of(0.0005)?.uncertainty).toBeCloseTo(0.00126, 4);
    expect(of(0.002)?.uncertainty).toBe(0.002);
  });
  it('unknown when neither error nor method is known', () => {
    const given = answer('MEAS-02', acidity(5, { uncertainty: null, method: null }));
    expect(given).toMatchObject({ verdict: 'unknown_measure_first', reason: 'method', usable: null });
  });
  it('ok for a given error without a method', () => {
    expect(answer('MEAS-02', acidity(5, { uncertainty: 0.3, method: null })).verdict).toBe('ok');
  });
});

describe('[MEAS-03] a change after the reading', () => {
  const changes: readonly EventKind[] = [
    'addWater',
    'addJuice',
    'addWine',
    'addSugar',
    'addHoney',
    'addFruit',
    'addSalt',
    'addAcid',
    'blend',
    'refill',
    'splitWithResidue',
    'prime',
    'sulfite',
    'heat',
    'concentrate',
  ];
  it.each(changes)('%s makes it stale', (kind) => {
    const given = answer('MEAS-03', acidity(5), { compositionEvents: [event(kind, NOW - HOUR / 2)] });
    expect(given).toMatchObject({ verdict: 'unknown_measure_first', reason: 'stale_event', usable: null });
  });
  it.each(['draw', 'split', 'seal', 'open', 'move'] as const)('%s does not', (kind) => {
    const given = answer('MEAS-03', acidity(5), { compositionEvents: [event(kind, NOW - HOUR / 2)] });
    expect(given.verdict).toBe('ok');
  });
  it('a change before the reading does not, one at the same moment does', () => {
    const at = (ms: number) => ({ compositionEvents: [event('addWater', ms)] });
    expect(answer('MEAS-03', acidity(5), at(NOW - 2 * HOUR)).verdict).toBe('ok');
    expect(answer('MEAS-03', acidity(5), at(NOW - HOUR)).reason).toBe('stale_event');
    expect(answer('MEAS-03', acidity(5), at(Number.NaN)).reason).toBe('stale_event');
  });
  it('a kind of change from a newer version makes it stale', () => {
    const unheardOf = { compositionEvents: [event('ozonate' as EventKind, NOW)] };
    expect(answer('MEAS-03', acidity(5), unheardOf).reason).toBe('stale_event');
  });
});

describe('[MEAS-04] the age of a reading', () => {
  const aged = (days: number) => acidity(5, { takenAtMs: NOW - days * DAY });
  const open = { openToAir: true, liveCulture: true, bottledFull: false } as const;
  it.each([
    [1, 'ok', 'met'],
    [11.2, 'caution', 'ageing'],
    [14, 'caution', 'ageing'],
    [14.001, 'unknown_measure_first', 'stale_age'],
  ] as const)('open on a live culture, %d days: %s', (days, verdict, reason) =>
    expect(answer('MEAS-04', aged(days), open)).toMatchObject({ verdict, reason }),
  );
  it.each([
    [100, 'ok'],
    [150, 'caution'],
    [180, 'caution'],
    [181, 'unknown_measure_first'],
  ] as const)('bottled full, %d days: %s', (days, verdict) =>
    expect(answer('MEAS-04', aged(days)).verdict).toBe(verdict),
  );
  it('counts 14 days where it is not known to be closed', () => {
    const nothing = { openToAir: null, liveCulture: null, bottledFull: null, pasteurised: null };
    expect(answer('MEAS-04', aged(15), nothing).reason).toBe('stale_age');
    expect(answer('MEAS-04', aged(15), { pasteurised: true, openToAir: true }).reason).toBe('stale_age');
    expect(answer('MEAS-04', aged(15), { pasteurised: true, bottledFull: null }).verdict).toBe('ok');
  });
  it('SG for 72 h, pH for 24 h, carbon dioxide for 10 min', () => {
    const gravity = (hours: number) =>
      other('gravity', 1, { uncertainty: 0.002, takenAtMs: NOW - hours * HOUR });
    expect(answer('MEAS-04', gravity(72)).verdict).toBe('caution');
    expect(answer('MEAS-04', gravity(72.1)).reason).toBe('stale_age');
    expect(answer('MEAS-04', other('pH', 3.4, { takenAtMs: NOW - 25 * HOUR })).reason).toBe('stale_age');
    const gas = other('carbonDioxide', 900, { takenAtMs: NOW - 11 * 60_000 });
    expect(answer('MEAS-04', gas).reason).toBe('stale_age');
  });
});

describe('[MEAS-05] what an acidity is counted as', () => {
  it('acetic in 100 mL with the fixed acid known needs nothing', () => {
    expect(answer('MEAS-05', acidity(5)).verdict).toBe('ok');
  });
  it('another acid is converted, and both numbers are shown', () => {
    const given = answer('MEAS-05', acidity(5, { acid: 'malic' }));
    expect(given).toMatchObject({ verdict: 'caution', reason: 'converted' });
    expect(given.usable?.value).toBeCloseTo((5 * 60.052) / 67.0435, 9);
    expect(given.numbers).toMatchObject({ value: 5, acid: 'malic' });
  });
  it('a percentage by mass goes over a density with its own error', () => {
    const given = answer('MEAS-05', acidity(5, { basis: 'w/w' }));
    expect(given).toMatchObject({ verdict: 'caution', reason: 'converted' });
    expect(given.usable?.value).toBeCloseTo(5.05, 12);
    expect(given.usable?.uncertainty).toBeGreaterThan(0.2);
  });
  it('unknown fixed acid is said; a known one is taken off', () => {
    expect(answer('MEAS-05', acidity(5, { fixedAcidGramsPer100Ml: null }))).toMatchObject({
      verdict: 'caution',
      reason: 'fixed_acid_unknown',
    });
    expect(answer('MEAS-05', acidity(5, { fixedAcidGramsPer100Ml: 0.6 })).usable?.value).toBeCloseTo(4.4, 12);
  });
  it.each([{ acid: null }, { basis: null }])('unknown when not recorded: %j', (change) =>
    expect(answer('MEAS-05', acidity(5, change))).toMatchObject({
      verdict: 'unknown_measure_first',
      reason: 'basis',
      usable: null,
    }),
  );
});

describe('[MEAS-09] a number that does not fit its unit', () => {
  it.each([15.1, -0.1, Number.NaN, Infinity])('acidity %d is not used', (value) =>
    expect(answer('MEAS-09', acidity(value))).toMatchObject({ reason: 'implausible', usable: null }),
  );
  it.each([0, 15])('acidity %d is', (value) => expect(answer('MEAS-09', acidity(value)).verdict).toBe('ok'));
  it('a reading from the future is not used', () => {
    expect(answer('MEAS-09', acidity(5, { takenAtMs: NOW + 1 })).reason).toBe('implausible');
    expect(answer('MEAS-09', acidity(5, { takenAtMs: Number.NaN })).reason).toBe('implausible');
  });
});

describe('[MEAS-13] where a number comes from', () => {
  it.each([
    ['measured', 'ok'],
    ['boughtLabel', 'ok'],
    ['calculated', 'caution'],
    ['guessed', 'unknown_measure_first'],
  ] as const)('%s: %s', (provenance, verdict) =>
    expect(answer('MEAS-13', acidity(5, { provenance }), { origin: 'bought' }).verdict).toBe(verdict),
  );
  it('a label says nothing of what was made here, or of what nobody knows where it is from', () => {
    const label = acidity(5, { provenance: 'boughtLabel' });
    expect(answer('MEAS-13', label).reason).toBe('guessed');
    expect(answer('MEAS-13', label, { origin: null }).reason).toBe('guessed');
  });
});

describe('two readings of one thing', () => {
  const pair = (first: number, second: number, apartMs: number) =>
    inspectNewest(
      'acidity',
      facts({ measurements: [acidity(first, { takenAtMs: NOW - HOUR - apartMs }), acidity(second)] }),
      RULES,
    );
  it('the newest counts when they agree within their combined error', () => {
    expect(pair(5, 5.25, HOUR).usable?.value).toBe(5.25);
  });
  it('neither counts when they do not', () => {
    expect(pair(5, 5.3, HOUR).worst).toMatchObject({
      verdict: 'unknown_measure_first',
      reason: 'readings_disagree',
    });
  });
  it('a reading of two days ago is not the same thing', () => {
    expect(pair(4, 5, 2 * DAY).usable?.value).toBe(5);
  });
  it('two pH readings of one day are, but not the morning and the evening of a kimchi', () => {
    const sour = (apartMs: number, first = ph(4.9), then = ph(4)) =>
      inspectNewest(
        'pH',
        facts({ product: 'kimchi', measurements: [{ ...first, takenAtMs: NOW - HOUR - apartMs }, then] }),
        RULES,
      ).worst.reason;
    expect(sour(2 * HOUR)).toBe('readings_disagree');
    expect(sour(11.9 * HOUR)).toBe('readings_disagree');
    expect(sour(12 * HOUR)).not.toBe('readings_disagree');
    const brine = ph(3.6, { sampleFrom: 'brine' });
    expect(sour(HOUR, brine)).not.toBe('readings_disagree');
    expect(sour(HOUR, ph(4.6, { sampleFrom: 'brine' }))).toBe('readings_disagree');
  });
  it('a fixed acid below nought is none that could be taken off', () => {
    expect(answer('MEAS-09', acidity(3, { fixedAcidGramsPer100Ml: -2 })).reason).toBe('implausible');
    expect(answer('MEAS-09', acidity(3, { fixedAcidGramsPer100Ml: Number.NaN })).reason).toBe('implausible');
  });
  it('nor is one from before a change', () => {
    const measurements = [acidity(6, { takenAtMs: NOW - 4 * HOUR }), acidity(5)];
    const watered = facts({ measurements, compositionEvents: [event('addWater', NOW - 2 * HOUR)] });
    expect(inspectNewest('acidity', watered, RULES).usable?.value).toBe(5);
  });
  it('nothing measured is missing', () => {
    expect(inspectNewest('acidity', facts(), RULES).worst).toMatchObject({ reason: 'missing' });
  });
});
