import { err, ok, type Result } from '../base/result.ts';
import { firstOutOfRange, within, type Limits, type OutOfRange } from '../quantities/validity.ts';
import { invertMonotone } from '../quantities/polynomial.ts';
import {
  densityFromPercentVol,
  massFractionFromPercentVol,
  percentVolFromMassFraction,
  alcoholDensity,
} from './alcohol.ts';

/** One liquid that goes into a blend, at 20 °C. */
export interface BlendPart {
  readonly volumeLitres: number;
  readonly alcoholPercentVol: number;
  /** Grams of acid in 100 mL, all counted as the same acid. */
  readonly acidityGramsPer100Ml: number;
  /** Grams of sugar in a litre. */
  readonly sugarGramsPerLitre: number;
}

export interface Blend {
  /** Litres at 20 °C after the contraction of alcohol and water. */
  readonly volumeLitres: number;
  readonly alcoholPercentVol: number;
  readonly acidityGramsPer100Ml: number;
  readonly sugarGramsPerLitre: number;
  /** Litres that the parts measured more than the blend does. */
  readonly contractionLitres: number;
}

const SOURCE = 'mass balance over OIML R 22';
const VOLUME: Limits = { quantity: 'volumeLitres', low: 0, high: 100_000, unit: 'L', source: SOURCE };
const STRENGTH: Limits = { quantity: 'alcoholPercentVol', low: 0, high: 100, unit: '% vol', source: SOURCE };
const ACIDITY: Limits = {
  quantity: 'acidityGramsPer100Ml',
  low: 0,
  high: 100,
  unit: 'g/100 mL',
  source: SOURCE,
};
const SUGAR: Limits = { quantity: 'sugarGramsPerLitre', low: 0, high: 1000, unit: 'g/L', source: SOURCE };

/**
 * What two or more liquids give together. Alcohol is turned into mass by OIML R 22, the masses are added and turned back,
 * so volume shrinks as it does in the vessel: 50 L of pure alcohol and 50 L of water give 96.46 L at 51.83 % vol. Acid
 * and sugar are kept as grams. The volume is that of the alcohol and water; dissolved sugar and acid are taken to shrink
 * with it. Below 15 % vol in both parts the plain volume rule errs by less than 0.01 % vol. At least one part must hold
 * something.
 */
export function blend(parts: readonly BlendPart[]): Result<Blend, OutOfRange> {
  let mass = 0;
  let ethanol = 0;
  let measured = 0;
  let acid = 0;
  let sugar = 0;
  for (const part of parts) {
    const outside = firstOutOfRange(
      [part.volumeLitres, VOLUME],
      [part.alcoholPercentVol, STRENGTH],
      [part.acidityGramsPer100Ml, ACIDITY],
      [part.sugarGramsPerLitre, SUGAR],
    );
    if (outside) return err(outside);
    const { kilograms, ethanolKilograms } = massesOf(part);
    mass += kilograms;
    ethanol += ethanolKilograms;
    measured += part.volumeLitres;
    acid += part.acidityGramsPer100Ml * part.volumeLitres;
    sugar += part.sugarGramsPerLitre * part.volumeLitres;
  }
  const something = within(measured, { ...VOLUME, low: Number.MIN_VALUE, high: 1e12 });
  if (!something.ok) return something;
  const fraction = ethanol / mass;
  const volumeLitres =
    (mass / valueOf(alcoholDensity({ ethanolMassFraction: fraction, temperatureCelsius: 20 }))) * 1000;
  return ok({
    volumeLitres,
    alcoholPercentVol: valueOf(percentVolFromMassFraction(fraction)),
    acidityGramsPer100Ml: acid / volumeLitres,
    sugarGramsPerLitre: sugar / volumeLitres,
    contractionLitres: measured - volumeLitres,
  });
}

/** Litres of water that bring a liquid to a lower strength, contraction included. The target must lie in between. */
export function waterToStrength(given: {
  readonly volumeLitres: number;
  readonly alcoholPercentVol: number;
  readonly targetPercentVol: number;
}): Result<number, OutOfRange> {
  const { volumeLitres, alcoholPercentVol, targetPercentVol } = given;
  const outside = firstOutOfRange(
    [volumeLitres, VOLUME],
    [alcoholPercentVol, STRENGTH],
    [targetPercentVol, { ...STRENGTH, quantity: 'targetPercentVol', low: 0.1, high: alcoholPercentVol }],
  );
  if (outside) return err(outside);
  const { kilograms, ethanolKilograms } = massesOf({ volumeLitres, alcoholPercentVol });
  const target = valueOf(massFractionFromPercentVol(targetPercentVol));
  const water = Math.max(0, ethanolKilograms / target - kilograms);
  return ok((water / valueOf(alcoholDensity({ ethanolMassFraction: 0, temperatureCelsius: 20 }))) * 1000);
}

/**
 * Mass of water to add to so much mass that holds `amount` of a solute, until a unit of mass holds `targetPerMass`.
 * Source: 27 CFR 30.64: 302.58 proof gallons in 1000 lb to 0.27964 a pound need 82.03 lb.
 */
export function waterMassToReach(given: {
  readonly amount: number;
  readonly mass: number;
  readonly targetPerMass: number;
}): Result<number, OutOfRange> {
  const source = 'mass balance; 27 CFR 30.64';
  const outside = firstOutOfRange(
    [given.amount, { quantity: 'amount', low: 0, high: 1e12, unit: '', source }],
    [given.mass, { quantity: 'mass', low: 0, high: 1e12, unit: '', source }],
    [
      given.targetPerMass,
      { quantity: 'targetPerMass', low: 1e-12, high: given.amount / given.mass, unit: '', source },
    ],
  );
  return outside ? err(outside) : ok(given.amount / given.targetPerMass - given.mass);
}

/**
 * Pearson's square: parts of the first to parts of the second that reach a target between them, (target − c2) : (c1 −
 * target), volumes taken as additive. `OutOfRange` when the target lies outside: no blend reaches it.
 */
export function pearsonParts(given: {
  readonly first: number;
  readonly second: number;
  readonly target: number;
}): Result<{ readonly first: number; readonly second: number }, OutOfRange> {
  const { first, second, target } = given;
  const low = Math.min(first, second);
  const high = Math.max(first, second);
  const checked = within(target, { quantity: 'target', low, high, unit: '', source: 'Pearson square' });
  if (!checked.ok) return checked;
  return ok({ first: Math.abs(target - second), second: Math.abs(first - target) });
}

/** Litres of `second` to mix into so many litres of `first` to reach a strength in % vol between theirs. */
export function litresToReachStrength(given: {
  readonly firstLitres: number;
  readonly firstPercentVol: number;
  readonly secondPercentVol: number;
  readonly targetPercentVol: number;
}): Result<number, OutOfRange> {
  const { firstLitres, firstPercentVol, secondPercentVol, targetPercentVol } = given;
  const outside = firstOutOfRange(
    [firstLitres, VOLUME],
    [firstPercentVol, STRENGTH],
    [secondPercentVol, STRENGTH],
    [
      targetPercentVol,
      {
        ...STRENGTH,
        quantity: 'targetPercentVol',
        low: Math.min(firstPercentVol, secondPercentVol),
        high: Math.max(firstPercentVol, secondPercentVol),
      },
    ],
  );
  if (outside) return err(outside);
  // So little that shares of it are at the end of what a double holds, and no numbers.
  if (targetPercentVol === firstPercentVol || firstLitres < 1e-200) return ok(0);
  const first = massesOf({ volumeLitres: firstLitres, alcoholPercentVol: firstPercentVol });
  const perLitre = massesOf({ volumeLitres: 1, alcoholPercentVol: secondPercentVol });
  const strengthWith = (litres: number) =>
    valueOf(
      percentVolFromMassFraction(
        (first.ethanolKilograms + litres * perLitre.ethanolKilograms) /
          (first.kilograms + litres * perLitre.kilograms),
      ),
    );
  const most = 1e6 * Math.max(firstLitres, 1e-6);
  const litres = invertMonotone(strengthWith, targetPercentVol, 0, most);
  const limits = {
    ...STRENGTH,
    quantity: 'targetPercentVol',
    low: strengthWith(0),
    high: strengthWith(most),
  };
  return litres === null ? err({ type: 'OutOfRange', value: targetPercentVol, ...limits }) : ok(litres);
}

function massesOf(part: Pick<BlendPart, 'volumeLitres' | 'alcoholPercentVol'>): {
  readonly kilograms: number;
  readonly ethanolKilograms: number;
} {
  const { alcoholPercentVol } = part;
  const density = valueOf(densityFromPercentVol({ alcoholPercentVol, temperatureCelsius: 20 }));
  const kilograms = (part.volumeLitres * density) / 1000;
  return { kilograms, ethanolKilograms: kilograms * valueOf(massFractionFromPercentVol(alcoholPercentVol)) };
}

/** The value of a reckoning whose arguments were checked before. */
function valueOf(result: Result<number, OutOfRange>): number {
  if (!result.ok) throw new Error(`Checked before: ${result.error.quantity}`);
  return result.value;
}
