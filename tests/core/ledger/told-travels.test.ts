import { describe, expect, it } from 'vitest';
import { TOLD_GROUP_NAMES, ToldFacts } from '#core/ledger/told-facts.ts';
import { toldElsewhere, toldOfBlend } from '#core/ledger/told-travels.ts';

const look = (over: Partial<NonNullable<ToldFacts['inspection']>> = {}) => ({
  ...{ atMs: 100, growth: 'none', undecidedSinceMs: null, smell: 'clean', solventSinceMs: null },
  ...{ flies: 'none', cover: 'tightCloth', eels: 'absent', texture: null },
  ...over,
});
const heated = {
  reachedCelsius: { value: 65, uncertainty: null, method: 'thermometer' },
  ...{ simmered: null, minutes: 20, pot: 'sound', calledPasteurised: true, bottleGlass: 'warm' },
} as const;
const crock = {
  ...{ material: 'glazedCeramic', contactMinutes: null, glaze: 'makerSaysLeadFree', damage: 'sound' },
  ...{ foodGrade: null, scratched: null, heldChemicals: false, light: 'dark', heldVinegarBefore: true },
} as const;
const rinsed = {
  ...{ bleach: false, acidOrSulfite: null, rinsedBetween: null, sulfiteWithAcid: false },
  ...{ place: 'outdoors', asthmaPresent: false, lastCleanerRinsed: true },
} as const;
const facts = (told: object): ToldFacts => ToldFacts.parse(told);

describe('in another vessel', () => {
  it('what was told of the vessel, its closing, its cleaning and its place is gone', () => {
    const told = facts({
      ...{ vessel: crock, cleaning: rinsed, closing: { closure: 'airlock', headspacePercent: 20 } },
      storage: { place: 'refrigerator', closedTight: true, testedProcess: true },
    });
    expect(toldElsewhere(told)).toEqual({});
  });

  it('what was told of the liquid goes with it', () => {
    const told = facts({
      ...{ rawMaterial: 'juice', recipient: 'child', containsHoney: false, concentrated: false },
      heating: heated,
    });
    expect(toldElsewhere(told)).toEqual({ ...told, heating: { ...heated, bottleGlass: null } });
  });

  it('a look goes with it but for the cover and the flies of the room, unless they are inside', () => {
    expect(toldElsewhere(facts({ inspection: look() })).inspection).toMatchObject({
      ...{ growth: 'none', smell: 'clean', eels: 'absent', cover: null, flies: null, atMs: 100 },
    });
    const larvae = toldElsewhere(facts({ inspection: look({ flies: 'larvae' }) }));
    expect(larvae.inspection?.flies).toBe('larvae');
    const nothingLeft = look({ growth: null, smell: null, eels: null });
    expect(toldElsewhere(facts({ inspection: nothingLeft }))).toEqual({});
  });
});

describe('poured together', () => {
  it('a reassuring answer told of one alone is not known of the whole', () => {
    const told = facts({
      ...{ rawMaterial: 'juice', recipient: 'healthyAdult', containsHoney: false, concentrated: false },
      ...{ sulfiteAdded: false, labelComplete: true, localLawChecked: true, inspection: look() },
      heating: heated,
    });
    const cover = { inspection: expect.objectContaining({ cover: 'tightCloth', growth: null }) as unknown };
    const glass = {
      heating: expect.objectContaining({ bottleGlass: 'warm', reachedCelsius: null }) as unknown,
    };
    expect(toldOfBlend(told, [{}])).toEqual({ ...cover, ...glass });
    expect(toldOfBlend({}, [told])).toEqual({});
    expect(toldOfBlend(null, [told, {}])).toEqual({});
  });

  it('an alarming answer of any one holds for all', () => {
    const told = facts({
      ...{ containsHoney: true, concentrated: true, rawMaterial: 'aceticAcid', recipient: 'infant' },
      inspection: look({ growth: 'fuzzyOrColoured', cover: null, flies: 'larvae', eels: 'present' }),
    });
    for (const blend of [toldOfBlend(told, [{}]), toldOfBlend({}, [told]), toldOfBlend(null, [{}, told])]) {
      expect(blend).toMatchObject({
        ...{ containsHoney: true, concentrated: true, rawMaterial: 'aceticAcid', recipient: 'infant' },
        inspection: { growth: 'fuzzyOrColoured', flies: 'larvae', eels: 'present', smell: null },
      });
    }
  });

  it('told alike of each it holds, and the older look counts', () => {
    const first = facts({ rawMaterial: 'juice', containsHoney: false, inspection: look() });
    const second = facts({ rawMaterial: 'juice', containsHoney: false, inspection: look({ atMs: 70 }) });
    expect(toldOfBlend(first, [toldElsewhere(second)])).toMatchObject({
      ...{ rawMaterial: 'juice', containsHoney: false },
      inspection: { atMs: 70, growth: 'none', smell: 'clean', flies: null, cover: 'tightCloth' },
    });
  });

  it('the vessel poured into keeps what was told of it, and takes nothing of the other', () => {
    const here = facts({ vessel: crock });
    const other = facts({ vessel: { ...crock, glaze: 'decorative' } });
    expect(toldOfBlend(here, [other]).vessel).toEqual(crock);
    expect(toldOfBlend({}, [other])).toEqual({});
  });

  it('gives what the book takes, whatever is poured together', () => {
    const whole = facts({ inspection: look(), heating: heated, vessel: crock, cleaning: rinsed });
    for (const blend of [toldOfBlend(whole, [whole]), toldOfBlend(whole, [{}]), toldElsewhere(whole)]) {
      expect(ToldFacts.safeParse(blend).success).toBe(true);
      for (const group of Object.keys(blend)) expect(TOLD_GROUP_NAMES).toContain(group);
    }
  });
});
