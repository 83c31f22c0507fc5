import { describe, expect, it } from 'vitest';
import { inspectNewest } from '#core/safety/inspect.ts';
import type { Measurement, OtherMeasurement, TitrationRecord } from '#core/safety/facts.ts';
import { MEASUREMENT_RULES } from '#core/safety/rules/measurement.ts';
import { acidity, DAY, facts, gravity, HOUR, NOW, other, ph, says, titrated, TITRATION } from './given.ts';

type Change = Parameters<typeof facts>[0];

function spoken(ruleId: string, measurement: Measurement, change: Change = {}) {
  const { answers, usable } = inspectNewest(
    measurement.quantity,
    facts({ measurements: [measurement], ...change }),
    MEASUREMENT_RULES,
  );
  const answer = answers.find(({ rule }) => rule.id === ruleId)?.answer;
  return { said: answer && `${answer.verdict} ${answer.reason}`, usable };
}

describe('[MEAS-06] a titration at home', () => {
  const by = (change: Partial<TitrationRecord>) =>
    spoken('MEAS-06', titrated(5, { titration: { ...TITRATION, ...change } }));
  it.each([
    [{}, 'ok met'],
    [{ baseCheckedAtMs: NOW - 150 * DAY }, 'ok met'],
    [{ baseCheckedAtMs: NOW - 200 * DAY }, 'caution widened'],
    [{ baseCheckedAtMs: NOW - 400 * DAY }, 'unknown_measure_first uncalibrated'],
    [{ baseCheckedAtMs: null }, 'unknown_measure_first uncalibrated'],
    [{ baseCheckedAtMs: null, baseNewlyOpened: true }, 'ok met'],
    [{ baseCheckedAtMs: null, baseBoughtAtMs: NOW - 100 * DAY }, 'caution widened'],
    [{ baseCheckedAtMs: null, baseBoughtAtMs: NOW - 500 * DAY }, 'unknown_measure_first uncalibrated'],
    [{ baseCheckedAtMs: NOW + DAY }, 'unknown_measure_first uncalibrated'],
    [{ normality: null }, 'unknown_measure_first method'],
    [{ normality: 0 }, 'unknown_measure_first method'],
    [{ endPoint: null }, 'unknown_measure_first method'],
    [{ endPoint: 'colour', darkSample: true }, 'unknown_measure_first method'],
    [{ endPoint: 'colour', darkSample: null }, 'unknown_measure_first method'],
    [{ endPoint: 'meter', darkSample: true }, 'ok met'],
    [{ fizzySample: true }, 'unknown_measure_first method'],
    [{ fizzySample: null }, 'unknown_measure_first method'],
    [{ fizzySample: true, degassed: true }, 'ok met'],
  ] as const)('%j: %s', (change, expected) => expect(by(change).said).toBe(expected));
  it('widens its error to 15 % when the base is half a year old', () => {
    expect(by({ baseCheckedAtMs: NOW - 200 * DAY }).usable?.uncertainty).toBeCloseTo(0.75, 12);
  });
  it('is not known where nothing of it was written down', () => {
    expect(spoken('MEAS-06', acidity(5)).said).toBe('unknown_measure_first method');
    expect(spoken('MEAS-06', acidity(5, { titration: null })).said).toBe('unknown_measure_first method');
  });
  it('does not speak of a laboratory, a label or a reckoning', () => {
    expect(spoken('MEAS-06', acidity(5, { method: 'taLaboratory' })).said).toBeUndefined();
    expect(spoken('MEAS-06', acidity(5, { provenance: 'boughtLabel' })).said).toBeUndefined();
    expect(spoken('MEAS-06', acidity(5, { provenance: 'calculated' })).said).toBeUndefined();
  });
});

describe('[MEAS-07] paper for pH', () => {
  const paper = (value: number) =>
    spoken('MEAS-07', ph(value, { method: 'phStripNarrow', uncertainty: null })).said;
  it.each([
    [3.9, 'ok met'],
    [4, 'ok met'],
    [4.1, 'unknown_measure_first method'],
  ] as const)('at %d: %s', (value, expected) => expect(paper(value)).toBe(expected));
  it('leaves a meter alone', () => expect(spoken('MEAS-07', ph(4.5)).said).toBe('ok met'));
});

describe('[MEAS-08] calibration of a pH meter', () => {
  const by = (method: OtherMeasurement['method']) => spoken('MEAS-08', ph(4, { method }));
  it('today, within the week, and not known', () => {
    expect(by('phMeterTwoBuffersToday').said).toBe('ok met');
    expect(by('phMeterWithinAWeek').said).toBe('caution widened');
    expect(by('phMeterWithinAWeek').usable?.uncertainty).toBe(0.2);
    expect(by(null).said).toBe('unknown_measure_first uncalibrated');
    expect(by('hydrometer').said).toBe('unknown_measure_first uncalibrated');
    expect(by('phStripWide').said).toBeUndefined();
  });
});

describe('[MEAS-10] more acid than the alcohol could have made', () => {
  const before = {
    alcohol: { value: 5, uncertainty: 0.3 },
    acidity: { value: 0.5, uncertainty: 0.1 },
  };
  // Ceiling: (0.5 + 1.0288 × 5) × 1.1 = 6.21; combined U: √(0.2² + 0.1² + 0.309²) = 0.38.
  it.each([
    [5.6, 'ok met'],
    [6.2, 'ok met'],
    [6.4, 'caution condition'],
    [6.7, 'unknown_measure_first implausible'],
  ] as const)('at %d: %s', (value, expected) =>
    expect(spoken('MEAS-10', titrated(value), { beforeAcetification: before }).said).toBe(expected),
  );
  it('counts only the alcohol that was used, where what is left was measured beside it', () => {
    // Ceiling with 2 % vol left: (0.5 + 1.0288 × 3) × 1.1 = 3.94.
    const left = { ...other('alcohol', 2, { method: 'alcoholLaboratory', uncertainty: 0.1 }) };
    const of = (value: number, takenAtMs: number) =>
      says('MEAS-10', 'labelAsVinegar', {
        beforeAcetification: before,
        measurements: [titrated(value), { ...left, takenAtMs }],
      });
    expect(of(3.9, NOW - HOUR)).toBe('ok met');
    expect(of(5, NOW - HOUR)).toBe('unknown_measure_first implausible');
    expect(of(5, NOW - 3 * DAY)).toBe('ok met');
  });
  it('says nothing where the start is not known', () => {
    expect(spoken('MEAS-10', titrated(9)).said).toBeUndefined();
  });
});

describe('[MEAS-11] pH in place of strength', () => {
  it('never counts as strength, and is named', () => {
    expect(says('MEAS-11', 'labelAsVinegar', { measurements: [ph(2.6)] })).toBe(
      'unknown_measure_first missing',
    );
    expect(says('MEAS-11', 'labelAsVinegar', { measurements: [ph(2.6), titrated(5)] })).toBeUndefined();
    expect(says('MEAS-11', 'labelAsVinegar')).toBeUndefined();
  });
});

describe('[MEAS-12] equilibrium pH of solids', () => {
  const of = (
    change: Partial<OtherMeasurement>,
    product: 'brinedVegetables' | 'kombucha' = 'brinedVegetables',
  ) => spoken('MEAS-12', ph(4, { sampleFrom: 'brine', ...change }), { product }).said;
  it.each([
    [{ sampleFrom: 'blended' }, 'ok met'],
    [{ sampleFrom: 'brine' }, 'unknown_measure_first not_equilibrium'],
    [{ sampleFrom: null }, 'unknown_measure_first not_equilibrium'],
    [{ sampleFrom: 'brine', equilibriumShown: true }, 'ok met'],
    [{ sampleFrom: 'brine', equilibriumShown: false }, 'unknown_measure_first not_equilibrium'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
  it('is no matter for a drink', () => expect(of({}, 'kombucha')).toBeUndefined());
});

describe('[MEAS-14] gravity by hydrometer and refractometer', () => {
  const of = (change: Partial<OtherMeasurement>, more: Change = {}) =>
    spoken('MEAS-14', gravity(1, change), { product: 'cider', acetificationBegun: false, ...more });
  it.each([
    [{}, {}, 'ok met'],
    [{ temperatureCorrected: false, degreesOff: 3 }, {}, 'caution widened'],
    [{ temperatureCorrected: null, degreesOff: -2 }, {}, 'caution widened'],
    [{ temperatureCorrected: false, degreesOff: 3.1 }, {}, 'unknown_measure_first method'],
    [{ temperatureCorrected: false }, {}, 'unknown_measure_first method'],
    [{ method: 'refractometer' }, { pitched: true }, 'unknown_measure_first method'],
    [{ method: 'refractometer' }, {}, 'unknown_measure_first method'],
    [{ method: 'refractometer' }, { pitched: false }, 'ok met'],
    [{ method: null }, { pitched: true }, 'unknown_measure_first method'],
    [{ method: null }, { pitched: false }, 'ok met'],
    [{}, { acetificationBegun: true }, 'unknown_measure_first method'],
    [{}, { acetificationBegun: null }, 'unknown_measure_first method'],
    [{}, { acetificationBegun: null, product: 'vinegar' }, 'unknown_measure_first method'],
  ] as const)('%j %j: %s', (change, more, expected) => expect(of(change, more).said).toBe(expected));
  it('widens the error of an uncorrected reading by 0.001', () => {
    const given = of({ temperatureCorrected: false, degreesOff: 2, uncertainty: 0.002 });
    expect(given.usable?.uncertainty).toBeCloseTo(0.003, 12);
  });
});

describe('[MEAS-04] the age of a pH of vegetables', () => {
  it('is a day while they sour, and a week once they are clearly sour', () => {
    const aged = (value: number, hours: number) =>
      spoken('MEAS-04', ph(value, { takenAtMs: NOW - hours * HOUR }), { product: 'brinedVegetables' }).said;
    expect(aged(4.55, 25)).toBe('unknown_measure_first stale_age');
    expect(aged(3.6, 25)).toBe('ok met');
    expect(aged(3.6, 7 * 24)).toBe('caution ageing');
    expect(aged(3.6, 8 * 24)).toBe('unknown_measure_first stale_age');
  });
});
