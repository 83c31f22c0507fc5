import { describe, expect, test } from 'vitest';
import type { Inspection, Product } from '#core/safety/facts-of-uses.ts';
import { gasInBottle } from '#renderer/uses/bottle-gas.ts';
import { closingFindings } from '#renderer/uses/closing.ts';
import { heatingFindings } from '#renderer/uses/heating.ts';
import {
  inspectionOf,
  LOOK_ACTS,
  lookAt,
  productSeen,
  sightOf,
  type LookAnswers,
} from '#renderer/uses/look.ts';
import { saySign, sourcesBehind } from '#renderer/words/look-words.ts';

const NOW = Date.UTC(2026, 10, 25, 12);
const DAY = 86_400_000;
const NOTHING: LookAnswers = {
  ...{ surface: null, feel: null, colour: null, shape: null, where: null, smell: null, flies: null },
  ...{ cover: null, eels: null, texture: null, undecidedSinceMs: null, solventSinceMs: null },
};
const look = (answers: Partial<LookAnswers>, product: Product | null = 'vinegar', before?: Inspection) => {
  const all = { ...NOTHING, ...answers };
  const inspection = inspectionOf(all, { atMs: NOW, product, before });
  return { ...lookAt({ sight: sightOf(all), inspection, product, nowMs: NOW }), inspection };
};
const FLAT: Partial<LookAnswers> = {
  surface: 'flat',
  feel: 'wet',
  colour: 'whiteOrCream',
  where: 'onLiquid',
};

describe('a look', () => {
  test.each([
    ['a bare surface is left', { surface: 'bare' }, 'leave', 'none'],
    ['a disc on vinegar is left', { ...FLAT, shape: 'smoothDisc' }, 'leave', 'jellyDisc'],
    ['a film is skimmed', { ...FLAT, shape: 'wrinkledFilm' }, 'skim', 'flatFilm'],
    ['fuzz is mould', { surface: 'fuzzy' }, 'discard', 'fuzzyOrColoured'],
    [
      'one coloured spot is mould',
      { ...FLAT, colour: 'blueGreenBlackPinkOrange' },
      'discard',
      'fuzzyOrColoured',
    ],
    ['a dry film is held', { ...FLAT, feel: 'dry', shape: 'wrinkledFilm' }, 'hold', 'cannotTell'],
    ['what cannot be told is held', { surface: 'cannotTell' }, 'hold', 'cannotTell'],
  ] as const)('%s', (_, answers, act, growth) => {
    const result = look(answers);
    expect(result.act).toBe(act);
    expect(result.inspection.growth).toBe(growth);
  });

  test('bare leaves no sign of a growth behind from before', () => {
    expect(look({ ...FLAT, surface: 'bare', colour: 'blueGreenBlackPinkOrange' }).act).toBe('leave');
  });

  test.each([
    ['maggots', { flies: 'larvae' }, 'discard', 'FLY-01'],
    ['flies and cheesecloth', { flies: 'inside', cover: 'cheesecloth' }, 'discard', 'FLY-01'],
    ['flies in the room', { flies: 'inRoom', cover: 'tightCloth' }, 'treat', 'FLY-01'],
    ['rot', { smell: 'putrid' }, 'discard', 'OFF-01'],
    ['faint varnish', { smell: 'solventFaint' }, 'treat', 'ETH-01'],
    ['strong varnish', { smell: 'solventStrong' }, 'hold', 'ETH-01'],
    ['eels', { eels: 'present' }, 'treat', 'VIN-10'],
  ] as const)('%s is told with its rule on a bare surface', (_, answers, act, ruleId) => {
    const result = look({ surface: 'bare', ...answers });
    expect(result.act).toBe(act);
    expect(result.signs[0]?.ruleIds).toEqual([ruleId]);
  });

  test('a cover nobody spoke of is not held against it while there are no flies', () => {
    expect(look({ surface: 'bare', flies: 'none' }).signs).toHaveLength(1);
    expect(look({ surface: 'bare', flies: 'none', cover: 'cheesecloth' }).act).toBe('treat');
  });

  test('slime on vegetables is thrown out, a cloudy brine is not', () => {
    const veg = (texture: LookAnswers['texture']) =>
      look({ surface: 'bare', texture }, 'brinedVegetables').act;
    expect(veg('slimySoftPinkOrFoul')).toBe('discard');
    expect(veg('cloudyBrine')).toBe('leave');
  });

  test('two days from the first look that could not tell, it is thrown out', () => {
    const before = look({ surface: 'cannotTell', undecidedSinceMs: NOW - 3 * DAY }).inspection;
    const result = look({ surface: 'cannotTell' }, 'vinegar', before);
    expect(result.inspection.undecidedSinceMs).toBe(NOW - 3 * DAY);
    expect(result.act).toBe('discard');
    expect(result.signs[0]?.key).toBe('MLD-03.deadline');
  });

  test('four weeks of varnish are counted from the first smell, also a faint one', () => {
    const before = look({
      surface: 'bare',
      smell: 'solventFaint',
      solventSinceMs: NOW - 29 * DAY,
    }).inspection;
    const result = look({ surface: 'bare', smell: 'solventStrong' }, 'vinegar', before);
    expect(result.signs[0]?.key).toBe('ETH-01.deadline');
  });

  test('every sign it can give has words of ours and a source', () => {
    const surfaces = ['bare', 'flat', 'fuzzy', 'cannotTell'] as const;
    const smells = ['clean', 'solventFaint', 'solventStrong', 'rottenEgg', 'putrid'] as const;
    const flies = ['none', 'inRoom', 'inside', 'larvae'] as const;
    for (const product of ['vinegar', 'cider', 'brinedVegetables', null] as const) {
      for (const surface of surfaces) {
        for (const smell of smells) {
          for (const fly of flies) {
            const { signs, act } = look({ ...FLAT, surface, smell, flies: fly, eels: 'present' }, product);
            expect(LOOK_ACTS).toContain(act);
            for (const { key, ruleIds } of signs) {
              expect(saySign(key).title).not.toContain('no words');
              expect(sourcesBehind(ruleIds).length).toBeGreaterThan(0);
            }
          }
        }
      }
    }
  });

  test('knows what stands there only where the book says so', () => {
    const seen = (
      ferment: Parameters<typeof productSeen>[0]['ferment'],
      stage: 'held' | 'vinegar' | 'yeast' | 'ready',
    ) => productSeen({ ferment, stage });
    expect(seen('fruitVinegar', 'vinegar')).toBe('vinegar');
    expect(seen('fruitVinegar', 'yeast')).toBe('wine');
    expect(seen('fruitVinegar', 'held')).toBeNull();
    expect(seen('cider', 'vinegar')).toBe('vinegar');
    expect(seen('mead', 'ready')).toBe('mead');
    expect(seen('kombucha', 'held')).toBe('kombucha');
    expect(seen(null, 'held')).toBeNull();
  });
});

describe('gas in a bottle', () => {
  const reading = (sg: number | null, atMs: number, error: number | null = 0.002) => ({
    ...{ atMs, gravityCorrectedSg: sg, gravityUncertainty: error },
  });
  const stands = {
    findings: [
      { ruleId: 'PRS-01', verdict: 'ok' as const, reason: 'met', sayKey: '', numbers: {}, sourceIds: [] },
    ],
  };
  const ask = (over: Partial<Parameters<typeof gasInBottle>[0]> = {}) =>
    gasInBottle({
      ...{ readings: [reading(1.01, 2), reading(1.004, 3), reading(1.05, 1)], verdict: { findings: [] } },
      ...{ bottle: 'light', makerRatingVolumes: null, primingGramsPerLitre: 0 },
      ...over,
    });

  test('is what the newest gravity with its error may yet give', () => {
    // 1000 × (1.004 + 0.002 − 0.996) = 10 points; 0.9 + 0.7 × 10 = 7.9 volumes, by hand from rule PRS-02.
    const gas = ask();
    expect(gas).toMatchObject({ rating: 3, fits: 'no' });
    expect(typeof gas === 'string' ? 0 : gas.volumes).toBeCloseTo(7.9, 9);
  });

  test('of a ferment that stands is one point and the priming', () => {
    const gas = ask({ verdict: stands, primingGramsPerLitre: 6 });
    // 0.9 + 0.7 + 0.26 × 6 = 3.16.
    expect(typeof gas === 'string' ? 0 : gas.volumes).toBeCloseTo(3.16, 9);
    expect(ask({ verdict: stands, primingGramsPerLitre: 4 })).toMatchObject({ fits: 'barely' });
    expect(ask({ verdict: stands, bottle: 'heavyBeer' })).toMatchObject({ fits: 'yes', rating: 4 });
  });

  test('says what is wanting before it reckons', () => {
    expect(ask({ readings: [reading(null, 1)] })).toBe('gravity');
    expect(ask({ bottle: null })).toBe('bottle');
    expect(ask({ bottle: 'makerRated' })).toBe('bottle');
    expect(ask({ bottle: 'makerRated', makerRatingVolumes: 5 })).toMatchObject({ rating: 5 });
    expect(ask({ primingGramsPerLitre: null })).toBe('priming');
  });
});

describe('rules asked of a form', () => {
  test('closing gas-tight while it works is ruled out', () => {
    expect(closingFindings({ closure: 'gasTight', headspacePercent: 20 }, NOW)[0]).toMatchObject({
      ...{ ruleId: 'PRS-04', verdict: 'do_not' },
    });
    expect(closingFindings({ closure: null, headspacePercent: 20 }, NOW)[0]?.verdict).toBe(
      'unknown_measure_first',
    );
    expect(closingFindings({ closure: 'airlock', headspacePercent: 20 }, NOW)[0]?.verdict).toBe('ok');
  });

  test('heating is weighed for vinegar and juice, and for nothing else', () => {
    const heating = (celsius: number) => ({
      reachedCelsius: { value: celsius, uncertainty: null, method: 'thermometer' as const },
      ...{ simmered: null, minutes: 30, pot: 'sound' as const, calledPasteurised: true, bottleGlass: null },
    });
    const culture = { keptBack: true, otherHolders: null };
    const says = (celsius: number, product: Product | null) =>
      heatingFindings({ heating: heating(celsius), culture }, product, NOW).map(
        ({ ruleId, verdict }) => `${ruleId} ${verdict}`,
      );
    expect(says(65, 'vinegar')).toContain('PAS-01 ok');
    expect(says(50, 'vinegar')).toContain('PAS-01 do_not');
    expect(says(73, 'juice')).toEqual(['CID-04 ok']);
    expect(says(65, 'cider')).toEqual([]);
    expect(says(65, null)).toEqual([]);
  });
});
