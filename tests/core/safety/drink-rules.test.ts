import { describe, expect, it } from 'vitest';
import type { Fruit, Heating, Recipient, SulfiteHandling } from '#core/safety/facts-of-uses.ts';
import type { SafetyFacts } from '#core/safety/facts.ts';
import { CLEAN, DAY, event, gauged, NOW, other, says, word } from './given.ts';

const sound: Fruit = {
  sorting: 'sound',
  pickedFrom: 'tree',
  grazedOrchard: false,
  washed: true,
  intended: 'rawJuice',
};

describe('[CID-01] fruit for juice', () => {
  it.each([
    ['sound', 'ok met'],
    ['bruisedTrimmed', 'caution condition'],
    ['mouldy', 'do_not category'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%s: %s', (sorting, expected) =>
    expect(says('CID-01', 'pressFruit', { fruit: { ...sound, sorting } })).toBe(expected),
  );
  it('mouldy fruit is not mended by fermenting', () => {
    const fruit = { ...sound, sorting: 'mouldy', intended: 'fermentFully' } as const;
    expect(says('CID-01', 'drink', { product: 'cider', fruit })).toBe('do_not category');
    expect(says('CID-01', 'drink', { product: 'cider' })).toBe('unknown_measure_first missing');
  });
});

describe('[CID-02] windfalls and raw juice', () => {
  const of = (change: Partial<Fruit> | null, more: Partial<SafetyFacts> = {}) =>
    says('CID-02', 'pressFruit', { fruit: change && { ...sound, ...change }, ...more });
  it.each([
    [{}, 'ok met'],
    [{ washed: false }, 'caution condition'],
    [{ pickedFrom: 'ground' }, 'do_not category'],
    [{ grazedOrchard: true }, 'do_not category'],
    [{ grazedOrchard: null }, 'unknown_measure_first missing'],
    [{ pickedFrom: null }, 'unknown_measure_first missing'],
    [{ washed: null }, 'unknown_measure_first missing'],
    [{ intended: null }, 'unknown_measure_first missing'],
    [{ pickedFrom: 'ground', intended: 'heatedJuice' }, 'ok met'],
    [{ pickedFrom: 'ground', intended: 'fermentFully' }, 'caution condition'],
    [{ intended: 'fermentFully' }, 'ok met'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
  it('of juice in the glass what was meant with it does not count, only whether it was heated', () => {
    const glass = (intended: Fruit['intended'], heated: boolean | null) =>
      of_(intended, heated, { pickedFrom: 'ground', grazedOrchard: true });
    const of_ = (intended: Fruit['intended'], heated: boolean | null, change: Partial<Fruit>) =>
      says('CID-02', 'drink', { product: 'juice', heated, fruit: { ...sound, intended, ...change } });
    for (const intended of ['rawJuice', 'heatedJuice', 'fermentFully', null] as const) {
      expect(glass(intended, true)).toBe('ok met');
      expect(glass(intended, false)).toBe('do_not category');
      expect(glass(intended, null)).toBe('do_not category');
    }
    expect(of_('heatedJuice', null, {})).toBe('ok met');
  });
});

describe('[CID-03] juice offered to others', () => {
  const of = (recipient: Recipient | null, heated: boolean | null = false) =>
    says('CID-03', 'giveAway', { product: 'juice', recipient, heated });
  it('heated, to adults, to those at risk, and to whom is not known', () => {
    expect(of('child', true)).toBe('ok met');
    expect(of('healthyAdult')).toBe('caution print_on_label');
    for (const recipient of ['child', 'elder', 'weakImmunity', 'pregnant', 'infant'] as const) {
      expect(of(recipient)).toBe('do_not category');
      expect(of(recipient, null)).toBe('do_not category');
    }
    expect(of(null)).toBe('unknown_measure_first missing');
  });
});

const heat: Heating = {
  reachedCelsius: gauged(74, 1),
  simmered: null,
  minutes: 20,
  pot: 'sound',
  calledPasteurised: true,
  bottleGlass: null,
};

describe('[CID-04] heating juice', () => {
  const of = (change: Partial<Heating> | null) =>
    says('CID-04', 'drink', { product: 'juice', heated: true, heating: change && { ...heat, ...change } });
  it.each([
    [{}, 'ok met'],
    [{ reachedCelsius: gauged(72, 1) }, 'ok met'],
    [{ reachedCelsius: gauged(71, 1) }, 'caution condition'],
    [{ reachedCelsius: gauged(69, 1) }, 'caution condition'],
    [{ reachedCelsius: gauged(68, 1) }, 'unknown_measure_first straddles'],
    [{ reachedCelsius: gauged(66, 1) }, 'do_not wrong_side'],
    [{ reachedCelsius: null }, 'unknown_measure_first missing'],
    [{ reachedCelsius: null, simmered: true }, 'ok met'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
});

describe('[WIN-01] sulfite on the label', () => {
  const sulfite = (value: number) => other('sulfite', value, { uncertainty: 5, method: 'sulfiteKit' });
  const of = (value: number | null, change: Partial<SafetyFacts> = {}) =>
    says('WIN-01', 'giveAway', {
      product: 'cider',
      sulfiteAdded: false,
      measurements: value === null ? [] : [sulfite(value)],
      ...change,
    });
  it.each([
    [4, {}, 'ok met'],
    [5, {}, 'caution print_on_label'],
    [30, {}, 'caution print_on_label'],
    [null, {}, 'caution print_on_label'],
    [4, { sulfiteAdded: true }, 'caution print_on_label'],
    [4, { sulfiteAdded: null }, 'caution print_on_label'],
    [null, { calledSulfiteFree: true }, 'do_not category'],
    [30, { calledSulfiteFree: true }, 'do_not category'],
    [4, { calledSulfiteFree: true }, 'ok met'],
  ] as const)('%s mg/L %j: %s', (value, change, expected) => expect(of(value, change)).toBe(expected));
  it('sulfite in the book counts as added, and makes the reading stale', () => {
    const compositionEvents = [event('sulfite', NOW - 2 * DAY)];
    expect(of(4, { compositionEvents })).toBe('caution print_on_label');
  });
});

describe('[WIN-02] handling sulfite', () => {
  const careful: SulfiteHandling = {
    ventilated: true,
    gloves: true,
    asthmaPresent: false,
    intoHotOrStrongAcid: false,
  };
  const of = (change: Partial<SulfiteHandling> | null) =>
    says('WIN-02', 'handleSulfite', { sulfiteHandling: change && { ...careful, ...change } });
  it.each([
    [{}, 'ok met'],
    [{ ventilated: false }, 'caution condition'],
    [{ gloves: false }, 'caution condition'],
    [{ asthmaPresent: true }, 'do_not category'],
    [{ intoHotOrStrongAcid: true }, 'do_not category'],
    [{ asthmaPresent: null }, 'unknown_measure_first missing'],
    [{ asthmaPresent: null, intoHotOrStrongAcid: true }, 'do_not category'],
    [null, 'unknown_measure_first missing'],
  ] as const)('%j: %s', (change, expected) => expect(of(change)).toBe(expected));
});

describe('[WIN-03] methanol in fermented fruit', () => {
  const of = (change: Partial<SafetyFacts>) => says('WIN-03', 'drink', { product: 'wine', ...change });
  it('fermented only, with pomace, concentrated, and not known', () => {
    expect(of({ concentrated: false, pecticEnzymeWithPomace: false })).toBe('ok met');
    expect(of({ concentrated: false, pecticEnzymeWithPomace: true })).toBe('caution condition');
    expect(of({ concentrated: false })).toBe('caution condition');
    expect(of({ concentrated: true })).toBe('do_not category');
    expect(of({ concentrated: false, compositionEvents: [event('concentrate', NOW - DAY)] })).toBe(
      'do_not category',
    );
    expect(of({})).toBe('unknown_measure_first missing');
  });
});

describe('[WIN-04] distilling and freezing out', () => {
  it('is refused always', () => {
    expect(says('WIN-04', 'concentrateAlcohol')).toBe('do_not category');
    expect(word('concentrateAlcohol')).toBe('doNotUse');
  });
});

describe('[HON-01] honey and infants', () => {
  const of = (change: Partial<SafetyFacts>) => says('HON-01', 'drink', { product: 'cider', ...change });
  it('never under one year', () => {
    expect(of({ containsHoney: true, recipient: 'infant' })).toBe('do_not category');
    expect(of({ product: 'mead', recipient: 'infant' })).toBe('do_not category');
    expect(of({ compositionEvents: [event('addHoney', NOW - DAY)], recipient: 'infant' })).toBe(
      'do_not category',
    );
    expect(of({ containsHoney: true, recipient: null })).toBe('caution print_on_label');
    expect(of({ containsHoney: true, recipient: 'child' })).toBe('ok met');
    expect(of({ containsHoney: false, recipient: 'infant' })).toBeUndefined();
  });
  it('asks whether there is honey in it before an infant gets it', () => {
    expect(of({ recipient: 'infant' })).toBe('unknown_measure_first missing');
    expect(of({ recipient: 'healthyAdult' })).toBeUndefined();
  });
});

describe('[LAW-01] making alcohol at home', () => {
  const home = { ofAge: true, adultsInHousehold: 1, litresThisYear: 100 };
  const of = (
    change: Partial<typeof home> | Record<string, null> | null,
    jurisdiction: SafetyFacts['jurisdiction'] = 'us',
  ) =>
    says('LAW-01', 'makeAlcohol', {
      jurisdiction,
      homeAlcohol: change && { ...home, ...change },
    });
  it('inside the rule, over it, under age, elsewhere and not known', () => {
    expect(of({})).toBe('ok met');
    expect(of({ litresThisYear: 378.5 })).toBe('ok met');
    expect(of({ litresThisYear: 378.6 })).toBe('do_not wrong_side');
    expect(of({ litresThisYear: 600, adultsInHousehold: 2 })).toBe('ok met');
    expect(of({ litresThisYear: 800, adultsInHousehold: 3 })).toBe('do_not wrong_side');
    expect(of({ ofAge: false })).toBe('do_not category');
    expect(of({ ofAge: null }, 'de')).toBe('unknown_measure_first missing');
    expect(of({ ofAge: null }, null)).toBe('unknown_measure_first missing');
    expect(of({}, 'de')).toBe('caution condition');
    expect(of({}, null)).toBe('caution condition');
    expect(of(null)).toBe('unknown_measure_first missing');
    expect(of({ litresThisYear: null })).toBe('unknown_measure_first missing');
  });
});

describe('[LAW-02] giving and selling', () => {
  const of = (change: Partial<SafetyFacts>) => says('LAW-02', 'giveAway', change);
  it('a gift, a sale, and no country', () => {
    expect(of({ labelAudience: 'gift', labelComplete: true })).toBe('ok met');
    expect(of({ labelAudience: 'gift' })).toBe('caution condition');
    expect(of({ labelAudience: 'sale' })).toBe('do_not category');
    expect(of({ labelAudience: 'sale', localLawChecked: true })).toBe('caution condition');
    expect(of({ labelAudience: null })).toBe('unknown_measure_first missing');
    expect(of({ jurisdiction: null })).toBe('unknown_measure_first jurisdiction_unset');
  });
});

describe('a verdict for a glass of cider', () => {
  const glass = {
    product: 'cider',
    fruit: { ...sound, intended: 'fermentFully' },
    concentrated: false,
    pecticEnzymeWithPomace: false,
    inspection: CLEAN,
  } as const;
  it('is met when all is known and never otherwise', () => {
    expect(word('drink', glass)).toBe('meetsTheRule');
    expect(word('drink', { ...glass, fruit: null })).toBe('notKnown');
    expect(word('drink', { ...glass, inspection: null })).toBe('notKnown');
    expect(word('drink', { ...glass, concentrated: true })).toBe('doNotUse');
    expect(word('drink', { ...glass, inspection: { ...CLEAN, atMs: NOW - 200 * DAY } })).toBe('notKnown');
  });
});
