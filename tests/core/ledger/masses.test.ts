import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { joinLiquids, partLiquid, type Liquid } from '#core/ledger/liquid.ts';
import {
  addMasses,
  COMPONENTS,
  partMasses,
  tidyMasses,
  totalUg,
  waterUg,
  type Component,
  type Masses,
} from '#core/ledger/masses.ts';
import { acetify, evaporated, ferment, invert, overOxidise, PPM, sour } from '#core/ledger/reactions.ts';
import { MOLAR_MASS, THEORETICAL_YIELD } from '#core/must/stoichiometry.ts';

interface Vessel {
  readonly vol: number;
  readonly m: Record<string, number>;
  readonly ped: Record<string, number>;
}
interface Step {
  readonly do: string;
  readonly a?: Vessel;
  readonly b?: Vessel;
}

/** Worked example and integer vectors by the makers of the models, computed apart from this program. */
const vectors = (
  JSON.parse(readFileSync(new URL('../../published/ledger-vectors.json', import.meta.url), 'utf8')) as {
    ledger: { constantsPpm: Record<string, number>; history: readonly Step[] };
  }
).ledger;

/** Their carbon dioxide is what left for the air, so in a vessel there is none. */
function liquidOf({ vol, m, ped }: Vessel): Liquid {
  const origins = Object.fromEntries(Object.entries(ped).filter(([, tokens]) => tokens > 0));
  return { volumeUl: vol, massesUg: tidyMasses({ ...m, carbonDioxide: 0 }), origins };
}

function given(step: Step | undefined, vessel: 'a' | 'b'): Liquid {
  const found = step?.[vessel];
  if (found === undefined) throw new Error(`no vessel ${vessel} in the vector`);
  return liquidOf(found);
}

const component = fc.constantFrom<Component>(...COMPONENTS);
const masses: fc.Arbitrary<Masses> = fc
  .dictionary(component, fc.integer({ min: 0, max: 5_000_000_000 }))
  .map((made) => tidyMasses(made as Masses));

describe('[model-vectors ledger.history] the worked example, integer by integer', () => {
  const [filled, fermented, motherFilled, moved, acetified, back] = vectors.history;

  it('ferments all sugar with 91 % of the theory', () => {
    const { vessel, air } = ferment(2_100_000_000, 910_000);
    const before = given(filled, 'a');
    expect({ ...before, massesUg: addMasses(before.massesUg, vessel) }).toEqual(given(fermented, 'a'));
    expect(air).toEqual({ carbonDioxide: 933_647_715 });
  });

  it('moves 1.234567 L to the mother', () => {
    const [part, rest] = partLiquid(given(fermented, 'a'), [1_234_567]);
    if (part === undefined) throw new Error('no part');
    expect(rest).toEqual(given(moved, 'a'));
    expect(joinLiquids(given(motherFilled, 'b'), part)).toEqual(given(moved, 'b'));
  });

  it('acetifies 54.297309 g of alcohol, 85 % of it into acid', () => {
    const { vessel, air } = acetify(54_297_309, 850_000);
    const before = given(moved, 'b');
    expect({ ...before, massesUg: addMasses(before.massesUg, vessel) }).toEqual(given(acetified, 'b'));
    expect(air).toEqual({ oxygen: -32_056_151, ethanol: 8_144_596 });
  });

  it('pours everything back', () => {
    expect(joinLiquids(given(moved, 'a'), given(acetified, 'b'))).toEqual(given(back, 'a'));
  });
});

describe('reactions', () => {
  it('use the ratios of the balanced equations (molar masses by CIAAW 2021, here in millionths)', () => {
    expect(PPM.ethanolFromHexose).toBe(vectors.constantsPpm['hexoseToEthanol']);
    expect(PPM.aceticFromEthanol).toBe(vectors.constantsPpm['ethanolToAcetic']);
    expect(PPM.oxygenPerEthanol).toBe(vectors.constantsPpm['ethanolOxygen']);
    expect(PPM.ethanolFromHexose / 1e6).toBeCloseTo(THEORETICAL_YIELD.ethanolFromHexose, 5);
    expect(PPM.aceticFromEthanol / 1e6).toBeCloseTo(THEORETICAL_YIELD.aceticFromEthanol, 5);
    expect(PPM.oxygenPerEthanol / 1e6).toBeCloseTo(THEORETICAL_YIELD.oxygenPerEthanol, 5);
    expect(PPM.oxygenPerAcetic / 1e6).toBeCloseTo((2 * MOLAR_MASS.oxygen) / MOLAR_MASS.acetic, 5);
    expect(PPM.carbonDioxidePerAcetic / 1e6).toBeCloseTo(
      (2 * MOLAR_MASS.carbonDioxide) / MOLAR_MASS.acetic,
      5,
    );
  });

  it('keep mass to the microgram, whatever is rounded', () => {
    const amount = fc.integer({ min: 0, max: 9_000_000_000 });
    const ppm = fc.integer({ min: 0, max: 1_000_000 });
    fc.assert(
      fc.property(amount, ppm, (ug, share) => {
        for (const { vessel, air } of [ferment(ug, share), acetify(ug, share), sour(ug), overOxidise(ug)]) {
          expect(totalUg(vessel) + totalUg(air)).toBe(0);
          for (const each of COMPONENTS) expect(Number.isSafeInteger(vessel[each] ?? 0)).toBe(true);
        }
        expect(totalUg(invert(ug, share))).toBe(0);
      }),
    );
  });

  it('with the whole yield give the theory within a microgram', () => {
    const sugar = 1_000_000_000_000;
    expect(ferment(sugar, 1_000_000).vessel.ethanol).toBe(511_435_000_000);
    expect(acetify(sugar, 1_000_000).vessel.acetic).toBe(1_303_523_000_000);
  });
});

describe('evaporation', () => {
  it('takes water and alcohol, never more than is there, and nothing dissolved', () => {
    fc.assert(
      fc.property(masses, fc.integer({ min: 0, max: 9_000_000_000 }), (held, vapourUg) => {
        const gone = evaporated(held, vapourUg);
        const volatile = (held.water ?? 0) + (held.ethanol ?? 0) + (held.unassayed ?? 0);
        expect(totalUg(gone)).toBe(Math.min(vapourUg, volatile));
        for (const each of COMPONENTS) {
          expect(gone[each] ?? 0).toBeGreaterThanOrEqual(0);
          expect(gone[each] ?? 0).toBeLessThanOrEqual(held[each] ?? 0);
        }
        for (const each of ['sugar', 'acetic', 'salt', 'other'] as const) expect(gone[each]).toBeUndefined();
      }),
    );
  });

  it('is richer in alcohol than what it leaves: y = 8x/(1 + 7x) at 5 % by mass is 0.296', () => {
    const gone = evaporated({ water: 950_000_000, ethanol: 50_000_000 }, 1_000_000);
    expect((gone.ethanol ?? 0) / 1_000_000).toBeCloseTo((8 * 0.05) / (1 + 7 * 0.05), 6);
  });
});

describe('parting', () => {
  it('leaves no remainder in any component, and joins to what it was', () => {
    const weights = fc.array(fc.integer({ min: 1, max: 9_999_999 }), { minLength: 1, maxLength: 9 });
    fc.assert(
      fc.property(masses, weights, (held, volumes) => {
        const parts = partMasses(held, volumes);
        expect(parts.reduce((sum, part) => addMasses(sum, part), {})).toEqual(held);
      }),
    );
  });

  it('keeps the strength: no part departs from its share by a microgram', () => {
    fc.assert(
      fc.property(masses, fc.integer({ min: 1, max: 999_999 }), (held, taken) => {
        const [part = {}] = partMasses(held, [taken, 1_000_000 - taken]);
        for (const each of COMPONENTS) {
          const exact = ((held[each] ?? 0) * taken) / 1_000_000;
          expect(Math.abs((part[each] ?? 0) - exact)).toBeLessThan(1);
        }
      }),
    );
  });
});

it('weighs water at 998.203 g/L (20 °C, ITS-90; CRC Handbook table of water density)', () => {
  expect(waterUg(1_000_000)).toBe(998_203_000);
});
