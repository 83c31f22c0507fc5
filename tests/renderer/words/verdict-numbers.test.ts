import { describe, expect, test } from 'vitest';
import type { Finding } from '#core/contract/verdict.ts';
import { ALL_SAY_KEYS, RULES } from '#core/safety/rule-book.ts';
import { sayFinding } from '#renderer/words/verdict-sentences.ts';
import { INSTEAD_KEYS, sayInstead } from '#renderer/words/verdict/instead.ts';
import { limitText, warmthLimit, type VerdictHouse } from '#renderer/words/verdict/sentence.ts';

const METRIC: VerdictHouse = { dates: 'iso', temperature: 'C', volume: 'metric' };
const US: VerdictHouse = { dates: 'iso', temperature: 'F', volume: 'us' };
const NOW = Date.UTC(2026, 10, 25, 12);
const said = (sayKey: string, numbers: Finding['numbers'], house = METRIC): string =>
  sayFinding({ sayKey, ruleId: sayKey.split('.')[0] ?? '', numbers }, house).replaceAll('\u00A0', ' ');

describe('numbers in a sentence never look better than they are', () => {
  test('[VEG-01] a pH under an upper limit is rounded up, an error too', () => {
    const numbers = { value: 4.4001, uncertainty: 0.1001, limit: 4.6, takenAtMs: NOW };
    expect(said('VEG-01.met', numbers)).toBe('Rule VEG-01: the pH was 4.41 ± 0.11 on 2026-11-25, under 4.6.');
    expect(said('VEG-01.not_yet', { ...numbers, value: 4.599, elapsed: 3, deadline: 7 })).toBe(
      'The pH was 4.60 ± 0.11 on 2026-11-25, not yet shown to be under 4.6 on day 3. Let it work on, neither eat nor chill it, and measure every day until day 7.',
    );
  });

  test('[KOM-02] a pH over a lower limit is rounded down', () => {
    const numbers = { value: 2.709, uncertainty: 0.2, limit: 2.5, takenAtMs: NOW };
    expect(said('KOM-02.met', numbers)).toBe(
      'Rule KOM-02: the pH was 2.70 ± 0.20 on 2026-11-25, not under 2.5.',
    );
  });

  test('[VIN-05] a limit with more decimals is not rounded in favour of the jar', () => {
    const numbers = { value: 4.3, uncertainty: 0.2, limit: 4.04, takenAtMs: NOW };
    expect(said('VIN-05.met', numbers)).toContain('within what the country in House Rules asks, 4.04 %.');
    expect(limitText(4.041, 'lower')).toBe('4.05');
    expect(limitText(4.049, 'upper')).toBe('4.04');
    expect(limitText(4, 'lower', 1)).toBe('4.0');
    expect(limitText(60, 'lower')).toBe('60');
  });

  test('[VIN-05] a strength over the upper end of a place is rounded up', () => {
    const numbers = { value: 15.801, uncertainty: 0.15, limit: 15.5, takenAtMs: NOW };
    expect(said('VIN-05.wrong_side', numbers)).toContain(
      'Acidity was 15.81 ± 0.15 % as acetic on 2026-11-25, on the wrong side of the 15.5 %',
    );
  });

  test('[PRS-02] gas is rounded up, and what the bottle holds down', () => {
    const numbers = { value: 1.001, uncertainty: 0.001, points: 1, volumes: 2.601, rating: 2.99 };
    expect(said('PRS-02.condition', numbers)).toBe(
      'Up to 2.7 volumes of gas can form, close to the 2.9 that the bottle holds. Keep it cool, and cover it when you open it.',
    );
  });

  test('[PRS-01] a gravity keeps its three decimals, up', () => {
    expect(said('PRS-01.condition', { value: 1.0041, uncertainty: 0.0011 })).toContain(
      'the gravity is 1.005 ± 0.002, not shown to be 1.002 or less',
    );
  });

  test('[CO2-01] parts per million have their thousands parted', () => {
    expect(said('CO2-01.condition', { value: 12_399.2, uncertainty: 690.1 })).toContain(
      'The air holds 12,400 ± 691 ppm of carbon dioxide, not shown to be under 5,000.',
    );
  });

  test('[CAN-03] hours that have passed are rounded up', () => {
    expect(said('CAN-03.refrigerate_now', { hours: 21.2 })).toContain('have stood 22 hours');
    expect(said('CAN-03.refrigerate_now', { hours: 1 })).toContain('have stood 1 hour with');
  });
});

describe('measures of the house', () => {
  test('[CID-04] degrees are told in the measure of the house, limits to their strict side', () => {
    const numbers = { value: 70.9, uncertainty: 1, limit: 71 };
    expect(said('CID-04.condition', numbers)).toBe(
      'The juice reached 70.9 ± 1.0 °C, not shown to reach 71 °C. Heat it once more.',
    );
    // 70.9 °C is 159.62 °F; 71 °C is 159.8 °F, and a lower limit is not told as less.
    expect(said('CID-04.condition', numbers, US)).toBe(
      'The juice reached 159.6 ± 1.8 °F, not shown to reach 160 °F. Heat it once more.',
    );
    expect(warmthLimit(71, US, 'upper')).toBe('159\u00A0°F');
    expect(warmthLimit(15.5, METRIC, 'lower')).toBe('15.5\u00A0°C');
  });

  test('[LAW-01] litres or gallons, what was made up and what may be made down', () => {
    const numbers = { litres: 200, limit: 100 * 3.785411784 };
    expect(said('LAW-01.met', numbers)).toContain('200 L this year, not over the 378 L');
    expect(said('LAW-01.met', numbers, US)).toContain('gal this year, not over the 100 gal');
  });

  test('a house that says only its dates is told in °C and litres', () => {
    expect(said('VEG-04.met', { value: 20, uncertainty: 1 }, { dates: 'iso' })).toBe(
      'Rule VEG-04: on average 20.0 ± 1.0 °C, between 15.5 °C and 24 °C.',
    );
  });
});

describe('a fact that is not known is named', () => {
  test.each([
    ['VEG-05.missing', 'submersion.covered', 'Whether everything lies under the brine is not on record.'],
    ['VEG-03.missing', 'salting.saltGrams', 'The weight of the salt is not on record.'],
    [
      'MEAS-06.method',
      'degassed',
      'The sample may have been fizzy and was not degassed. The gas counts as acid.',
    ],
    [
      'PAS-02.missing',
      'culture.otherHolders',
      'Nothing is kept back, and whether anyone else has this mother is not on record.',
    ],
    [
      'VIN-04.missing',
      'jurisdiction',
      'The EU limits the alcohol left in a vinegar, and House Rules do not say whether you are there.',
    ],
  ])('%s for want of %s', (sayKey, find, sentence) => {
    expect(said(sayKey, { find })).toBe(sentence);
    expect(said(sayKey, { find: 'toString' })).not.toBe(sentence);
  });
});

describe('what to do where no measurement is asked for', () => {
  const finding = (sayKey: string): Finding => {
    const [ruleId = '', reason = ''] = sayKey.split('.');
    return { ruleId, reason, verdict: 'do_not', sayKey, numbers: {}, sourceIds: [] };
  };

  test('is kept for answers that rules give, each a sentence', () => {
    for (const key of INSTEAD_KEYS) {
      expect(ALL_SAY_KEYS).toContain(key);
      const instead = sayInstead([finding(key)]);
      expect(instead).toMatch(/^\p{Lu}.*\.$/u);
      expect(instead).not.toMatch(/\b[Ss]afe\b/u);
    }
  });

  test('is not said beside a rule that is final: mould is thrown out, whatever else may be mended', () => {
    expect(sayInstead([finding('VEG-07.category')])).toContain('Move it to the refrigerator');
    expect(sayInstead([finding('VEG-07.category'), finding('MLD-01.category')])).toBeNull();
    expect(sayInstead([])).toBeNull();
    const final = [
      'CAN-01.category',
      'WIN-04.category',
      'MLD-01.category',
      'HON-01.category',
      'VEG-01.deadline',
    ];
    for (const key of final) expect(INSTEAD_KEYS).not.toContain(key);
    expect(RULES.map(({ id }) => id)).toEqual(expect.arrayContaining(final.map((key) => key.split('.')[0])));
  });
});
