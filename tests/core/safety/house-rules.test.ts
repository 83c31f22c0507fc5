import { describe, expect, it } from 'vitest';
import type {
  BaseHandling,
  Cleaning,
  CultureFacts,
  Heating,
  Inspection,
  VesselFacts,
} from '#core/safety/facts-of-uses.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { CLEAN, DAY, fermentingSince, gauged, HOUR, NOW, ph, says, word } from './given.ts';

const glass: VesselFacts = {
  material: 'glass',
  contactMinutes: null,
  glaze: null,
  damage: 'sound',
  foodGrade: null,
  scratched: null,
  heldChemicals: null,
  light: 'dark',
  heldVinegarBefore: false,
};
const vessel = (id: string, change: Partial<VesselFacts> | null, more: Partial<SafetyFacts> = {}) =>
  says(id, 'useVessel', { vessel: change && { ...glass, ...change }, ...more });

describe('[MAT-01] glazes and crystal', () => {
  const of = (change: Partial<VesselFacts>) => vessel('MAT-01', { material: 'glazedCeramic', ...change });
  it.each([
    [{ glaze: 'makerSaysLeadFree' }, 'ok met'],
    [{ glaze: 'leachTestPassed' }, 'ok met'],
    [{ glaze: 'swabNegative' }, 'caution condition'],
    [{ glaze: 'swabPositive' }, 'do_not category'],
    [{ glaze: 'decorative' }, 'do_not category'],
    [{ glaze: 'makerSaysLeadFree', damage: 'chippedOrCracked' }, 'do_not category'],
    [{ glaze: 'makerSaysLeadFree', damage: null }, 'unknown_measure_first missing'],
    [{ glaze: null }, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
  it('cannot clear where the material is not known, and is silent of glass', () => {
    expect(vessel('MAT-01', { material: null, glaze: 'makerSaysLeadFree' })).toBe(
      'unknown_measure_first missing',
    );
    expect(vessel('MAT-01', {})).toBeUndefined();
  });
});

describe('[MAT-02] metals', () => {
  it.each([
    [{ material: 'glass' }, 'ok met'],
    [{ material: 'stainless' }, 'ok met'],
    [{ material: 'wood' }, 'ok met'],
    [{ material: 'copper', contactMinutes: 9 }, 'caution condition'],
    [{ material: 'copper', contactMinutes: 10 }, 'do_not category'],
    [{ material: 'copper' }, 'do_not category'],
    [{ material: 'aluminium', contactMinutes: 600 }, 'do_not category'],
    [{ material: 'galvanised', contactMinutes: 1 }, 'do_not category'],
    [{ material: 'iron' }, 'do_not category'],
    [{ material: null }, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(vessel('MAT-02', change)).toBe(expected));
});

describe('[MAT-03] plastic', () => {
  const tub = { material: 'plastic', foodGrade: true, scratched: false, heldChemicals: false } as const;
  it.each([
    [{}, 'ok met'],
    [{ scratched: true }, 'caution condition'],
    [{ scratched: null }, 'caution condition'],
    [{ foodGrade: false }, 'do_not category'],
    [{ heldChemicals: true }, 'do_not category'],
    [{ foodGrade: null }, 'unknown_measure_first missing'],
    [{ heldChemicals: null }, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(vessel('MAT-03', { ...tub, ...change })).toBe(expected));
});

describe('[MAT-04] chips and cracks', () => {
  it('sound, cracked and not looked at', () => {
    expect(vessel('MAT-04', {})).toBe('ok met');
    expect(vessel('MAT-04', { damage: 'chippedOrCracked' })).toBe('do_not category');
    expect(vessel('MAT-04', null)).toBe('unknown_measure_first missing');
  });
});

describe('[MAT-05] light', () => {
  it('is a matter of quality: dark, bright and not known', () => {
    expect(vessel('MAT-05', {})).toBe('ok met');
    expect(vessel('MAT-05', { light: 'brightRoom' })).toBe('caution condition');
    expect(vessel('MAT-05', null)).toBe('caution condition');
  });
});

describe('[MAT-06] what it held before', () => {
  const of = (change: Partial<VesselFacts>) => vessel('MAT-06', change, { product: 'cider' });
  it.each([
    [{}, 'ok met'],
    [{ heldVinegarBefore: true }, 'ok met'],
    [{ heldVinegarBefore: true, material: 'plastic' }, 'caution condition'],
    [{ heldVinegarBefore: true, material: 'wood' }, 'do_not category'],
    [{ heldVinegarBefore: null }, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
  it('is no matter for vinegar', () => {
    expect(vessel('MAT-06', { heldVinegarBefore: true }, { product: 'vinegar' })).toBeUndefined();
  });
  it('is one for what is not known, unless it never held vinegar', () => {
    const of_ = (heldVinegarBefore: boolean | null, material: 'wood' | 'glass') =>
      vessel('MAT-06', { heldVinegarBefore, material }, { product: null });
    expect(of_(true, 'wood')).toBe('do_not category');
    expect(of_(true, 'glass')).toBe('unknown_measure_first missing');
    expect(of_(null, 'glass')).toBe('unknown_measure_first missing');
    expect(of_(false, 'wood')).toBeUndefined();
  });
});

const careful: Cleaning = {
  bleach: false,
  acidOrSulfite: true,
  rinsedBetween: null,
  sulfiteWithAcid: false,
  place: null,
  asthmaPresent: null,
  lastCleanerRinsed: true,
};
const cleaning = (id: string, change: Partial<Cleaning> | null) =>
  says(id, 'clean', { cleaning: change && { ...careful, ...change } });

describe('[CLN-01] bleach and acid', () => {
  it.each([
    [{}, 'ok met'],
    [{ bleach: true, rinsedBetween: true }, 'ok met'],
    [{ bleach: true, acidOrSulfite: false }, 'ok met'],
    [{ bleach: true, rinsedBetween: false }, 'do_not category'],
    [{ bleach: true, rinsedBetween: null }, 'do_not category'],
    [{ bleach: null }, 'unknown_measure_first missing'],
    [{ bleach: true, acidOrSulfite: null }, 'unknown_measure_first missing'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(cleaning('CLN-01', change)).toBe(expected));
});

describe('[CLN-02] sulfite with acid', () => {
  const used = { sulfiteWithAcid: true, place: 'outdoors', asthmaPresent: false } as const;
  it.each([
    [{}, 'ok met'],
    [used, 'ok met'],
    [{ ...used, place: 'windowOpen' }, 'caution condition'],
    [{ ...used, place: 'closedRoom' }, 'do_not category'],
    [{ ...used, asthmaPresent: true }, 'do_not category'],
    [{ ...used, asthmaPresent: null }, 'unknown_measure_first missing'],
    [{ ...used, place: null }, 'unknown_measure_first missing'],
    [{ sulfiteWithAcid: null }, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(cleaning('CLN-02', change)).toBe(expected));
});

describe('[CLN-03] sodium hydroxide', () => {
  const kit: BaseHandling = {
    normality: 0.1,
    goggles: true,
    gloves: true,
    labelledAndLocked: true,
    byMouth: false,
  };
  const of = (change: Partial<BaseHandling> | null) =>
    says('CLN-03', 'titrate', { baseHandling: change && { ...kit, ...change } });
  it.each([
    [{}, 'ok met'],
    [{ gloves: false }, 'caution condition'],
    [{ normality: 0.5 }, 'caution condition'],
    [{ normality: 1.1 }, 'do_not category'],
    [{ goggles: false }, 'do_not category'],
    [{ byMouth: true }, 'do_not category'],
    [{ labelledAndLocked: false }, 'do_not category'],
    [{ normality: null }, 'unknown_measure_first missing'],
    [{ goggles: null }, 'unknown_measure_first missing'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
});

describe('[CLN-04] residues', () => {
  it('rinsed, not rinsed and not known', () => {
    expect(cleaning('CLN-04', {})).toBe('ok met');
    expect(cleaning('CLN-04', { lastCleanerRinsed: false })).toBe('do_not category');
    expect(cleaning('CLN-04', null)).toBe('unknown_measure_first missing');
  });
});

const look = (id: string, change: Partial<Inspection> | null, more: Partial<SafetyFacts> = {}) =>
  says(id, 'keep', {
    product: 'vinegar',
    bottledFull: false,
    inspection: change && { ...CLEAN, ...change },
    ...more,
  });

describe('[MLD-01] mould', () => {
  it.each([
    [{}, 'ok met'],
    [{ growth: 'jellyDisc' }, 'ok met'],
    [{ growth: 'fuzzyOrColoured' }, 'do_not category'],
    [{ growth: 'cannotTell' }, 'unknown_measure_first missing'],
    [{ growth: null }, 'unknown_measure_first missing'],
    [null, 'unknown_measure_first missing'],
    [{ atMs: NOW - 8 * DAY }, 'unknown_measure_first stale_age'],
    [{ atMs: NOW + HOUR }, 'unknown_measure_first stale_age'],
    [{ growth: 'fuzzyOrColoured', atMs: NOW - 80 * DAY }, 'do_not category'],
  ] as const)('%j: %s', (change, expected) => expect(look('MLD-01', change)).toBe(expected));
  it('counts half a year on a bottle that is closed up', () => {
    expect(look('MLD-01', { atMs: NOW - 100 * DAY }, { bottledFull: true })).toBe('ok met');
  });
  it('is not rescued by strong acid', () => {
    const jar = { product: 'vinegar', inspection: { ...CLEAN, growth: 'fuzzyOrColoured' } } as const;
    expect(word('dressSalad', jar)).toBe('doNotUse');
  });
});

describe('[MLD-02] flat films', () => {
  it('a jelly disc, a film, and a film on what has not soured', () => {
    expect(look('MLD-02', { growth: 'jellyDisc' })).toBe('ok met');
    expect(look('MLD-02', { growth: 'jellyDisc' }, { product: 'cider' })).toBe('caution condition');
    expect(look('MLD-02', { growth: 'flatFilm' })).toBe('caution condition');
    expect(look('MLD-02', {})).toBeUndefined();
    const brine = (value: number | null, days: number | null) =>
      look(
        'MLD-02',
        { growth: 'flatFilm' },
        {
          product: 'brinedVegetables',
          ferment: days === null ? null : fermentingSince(NOW - days * DAY),
          measurements: value === null ? [] : [ph(value)],
        },
      );
    expect(brine(3.6, 10)).toBe('caution condition');
    expect(brine(5, 3)).toBe('caution condition');
    expect(brine(4.6, 8)).toBe('do_not deadline');
    expect(brine(null, 8)).toBe('unknown_measure_first missing');
    expect(brine(5, null)).toBe('unknown_measure_first missing');
  });
});

describe('[MLD-03] cannot tell', () => {
  const of = (hours: number | null) =>
    look('MLD-03', {
      growth: 'cannotTell',
      undecidedSinceMs: hours === null ? null : NOW - hours * HOUR,
    });
  it('waits two days and no longer', () => {
    expect(of(10)).toBe('unknown_measure_first not_yet');
    expect(of(48)).toBe('unknown_measure_first not_yet');
    expect(of(49)).toBe('do_not deadline');
    expect(of(null)).toBe('unknown_measure_first missing');
    expect(look('MLD-03', {})).toBeUndefined();
  });
});

describe('[FLY-01] fruit flies', () => {
  it.each([
    [{ cover: 'tightCloth' }, 'ok met'],
    [{ cover: 'cheesecloth' }, 'caution condition'],
    [{ cover: null }, 'caution condition'],
    [{ flies: 'inRoom', cover: 'tightCloth' }, 'caution condition'],
    [{ flies: 'inside', cover: 'tightCloth' }, 'caution condition'],
    [{ flies: 'inside', cover: 'cheesecloth' }, 'do_not category'],
    [{ flies: 'inside', cover: null }, 'unknown_measure_first missing'],
    [{ flies: 'larvae' }, 'do_not category'],
    [{ flies: null }, 'unknown_measure_first missing'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(look('FLY-01', change)).toBe(expected));
});

describe('[ETH-01] varnish smell', () => {
  const strong = (days: number | null) => ({
    smell: 'solventStrong' as const,
    solventSinceMs: days === null ? null : NOW - days * DAY,
  });
  it('none, faint, strong for a while, strong for four weeks, not known', () => {
    expect(look('ETH-01', {})).toBe('ok met');
    expect(look('ETH-01', { smell: 'solventFaint' })).toBe('caution condition');
    expect(look('ETH-01', strong(10))).toBe('unknown_measure_first not_yet');
    expect(look('ETH-01', strong(28))).toBe('do_not deadline');
    expect(look('ETH-01', strong(null))).toBe('unknown_measure_first missing');
    expect(look('ETH-01', { smell: null })).toBe('unknown_measure_first missing');
  });
});

describe('[OFF-01] foul smells', () => {
  it('clean, rotten egg in cider, rotten egg elsewhere, putrid, not known', () => {
    expect(look('OFF-01', {})).toBe('ok met');
    expect(look('OFF-01', { smell: 'rottenEgg' }, { product: 'cider' })).toBe('caution condition');
    expect(look('OFF-01', { smell: 'rottenEgg' })).toBe('do_not category');
    expect(look('OFF-01', { smell: 'putrid' }, { product: 'cider' })).toBe('do_not category');
    expect(look('OFF-01', { smell: null })).toBe('unknown_measure_first missing');
  });
});

describe('[PAS-01] pasteurised vinegar', () => {
  const heat: Heating = {
    reachedCelsius: gauged(66, 1),
    simmered: null,
    minutes: 30,
    pot: 'sound',
    calledPasteurised: true,
    bottleGlass: null,
  };
  const of = (change: Partial<Heating> | null) =>
    says('PAS-01', 'pasteurise', { heating: change && { ...heat, ...change } });
  it.each([
    [{}, 'ok met'],
    [{ reachedCelsius: gauged(61, 1) }, 'ok met'],
    [{ reachedCelsius: gauged(60, 1) }, 'unknown_measure_first straddles'],
    [{ reachedCelsius: gauged(58, 1) }, 'do_not wrong_side'],
    [{ reachedCelsius: gauged(58, 1), calledPasteurised: false }, 'unknown_measure_first not_yet'],
    [{ reachedCelsius: gauged(71, 1) }, 'caution condition'],
    [{ reachedCelsius: gauged(78, 1) }, 'caution condition'],
    [{ minutes: 9 }, 'unknown_measure_first not_yet'],
    [{ minutes: 10 }, 'ok met'],
    [{ minutes: null }, 'unknown_measure_first missing'],
    [{ pot: 'reactive' }, 'do_not category'],
    [{ pot: null }, 'unknown_measure_first missing'],
    [{ reachedCelsius: null }, 'unknown_measure_first missing'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
});

describe('[PAS-02] keeping the culture', () => {
  const of = (change: Partial<CultureFacts> | null) =>
    says('PAS-02', 'pasteurise', { culture: change && { keptBack: false, otherHolders: null, ...change } });
  it('kept back, held elsewhere, the last of its line, not known', () => {
    expect(of({ keptBack: true })).toBe('ok met');
    expect(of({ otherHolders: true })).toBe('caution condition');
    expect(of({ otherHolders: false })).toBe('do_not category');
    expect(of({})).toBe('unknown_measure_first missing');
    expect(of(null)).toBe('unknown_measure_first missing');
  });
});

describe('[PAS-03] hot filling', () => {
  const of = (bottleGlass: Heating['bottleGlass']) =>
    says('PAS-03', 'pasteurise', {
      heating: {
        reachedCelsius: gauged(66, 1),
        simmered: null,
        minutes: 30,
        pot: 'sound',
        calledPasteurised: true,
        bottleGlass,
      },
    });
  it('warm, cold, cracked, and none filled', () => {
    expect(of('warm')).toBe('ok met');
    expect(of('coldOrdinary')).toBe('caution condition');
    expect(of('crackedOrColdThin')).toBe('do_not category');
    expect(of(null)).toBeUndefined();
  });
});
