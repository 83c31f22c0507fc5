import { assertNever } from '#core/base/exhaustive.ts';
import { shownText } from '#core/quantities/format-quantity.ts';
import { roundedText } from '#core/quantities/round.ts';
import type { OutOfRange } from '#core/quantities/validity.ts';
import type { ImpossibleReason } from '#core/reckonings/cautions.ts';
import { BENCH_SOURCE } from '#core/reckonings/define-reckoning.ts';
import type {
  CarriesOut,
  ReckonedStep,
  Reckoning,
  ReckoningError,
  ReckoningGroup,
} from '#core/reckonings/reckoning.ts';
import { CHOICE_WORDS, FIELD_WORDS, type FieldSaid } from './reckoning-fields.ts';
import { RECKONING_NAMES, type ReckoningNamed } from './reckoning-names.ts';
import { ANSWER_WORDS, STEP_WORDS } from './reckoning-results.ts';

export { sayCaution, type CautionSaid } from './reckoning-cautions.ts';

const GROUPS: Readonly<Record<ReckoningGroup, string>> = {
  must: 'Must and sugar',
  strength: 'Alcohol',
  acid: 'Acid and vinegar',
  gas: 'Gas and bottles',
  brine: 'Salt and brine',
  fruitToShelf: 'From fruit to shelf',
  room: 'The air of the cellar',
  convert: 'Units',
};

const CARRIES_OUT: Readonly<Record<CarriesOut, string>> = {
  addWater: 'Add this water',
  addSugar: 'Add this sugar',
  addHoney: 'Add this honey',
  addSulfite: 'Add this sulfite',
  addSalt: 'Add this salt',
  seed: 'Seed with this much',
};

export const sayReckoningGroup = (group: ReckoningGroup): string => GROUPS[group];
/** What the button that carries a plan out says. */
export const sayCarriesOut = (act: CarriesOut): string => CARRIES_OUT[act];

/** Name and purpose of a reckoning; its id when a newer one has no words yet, which the tests forbid. */
export function sayReckoning(id: string): ReckoningNamed {
  return RECKONING_NAMES[id] ?? { name: id, purpose: '' };
}

export function sayField(id: string, field: string): FieldSaid {
  return FIELD_WORDS[`${id}.${field}`] ?? FIELD_WORDS[field] ?? { label: field, hint: '' };
}

export function sayChoice(field: string, choice: string): string {
  return CHOICE_WORDS[`${field}.${choice}`] ?? CHOICE_WORDS[choice] ?? choice;
}

export function sayAnswer(id: string, answer: string): string {
  return ANSWER_WORDS[`${id}.${answer}`] ?? ANSWER_WORDS[answer] ?? answer;
}

export function sayStep(step: string): string {
  return STEP_WORDS[step] ?? step;
}

/** The value of a line of working, in its own unit. */
export function sayStepValue({ value, unit }: ReckonedStep): string {
  return shownText({ number: plainNumber(value, unit), unit });
}

/** Decimals that suit a unit; otherwise three significant digits. */
function plainNumber(value: number, unit: string): string {
  const size = Math.abs(value);
  const decimals =
    unit === 'SG'
      ? 4
      : unit === 'pH'
        ? 2
        : size >= 100 || size === 0
          ? 0
          : Math.min(5, Math.max(0, 2 - Math.floor(Math.log10(size))));
  const text = roundedText(value, decimals);
  return decimals > 0 && unit !== 'SG' && unit !== 'pH' ? text.replace(/\.?0+$/u, '') : text;
}

/** Why a reckoning gives no number, in a sentence that says what to do. */
export function sayReckoningError(reckoning: Pick<Reckoning, 'id'>, error: ReckoningError): string {
  const label = (field: string): string => sayField(reckoning.id, field).label;
  switch (error.type) {
    case 'Missing':
      return `Still to fill in: ${error.fields.map(label).join(', ')}.`;
    case 'Outside':
      return sayOutside(label(error.field), error.range);
    case 'Impossible':
      return sayImpossible(error.reason, error.numbers);
    default:
      return assertNever(error);
  }
}

/** The canonical units of volume and mass are no one's in a kitchen. */
const KITCHEN_UNITS: Readonly<Record<string, { readonly unit: string; readonly per: number }>> = {
  µL: { unit: 'L', per: 1e6 },
  µg: { unit: 'kg', per: 1e9 },
};

function sayOutside(label: string, { value, low, high, unit, source }: OutOfRange): string {
  const kitchen = KITCHEN_UNITS[unit] ?? { unit, per: 1 };
  const [typed, from, to] = [value, low, high].map((number) => said(number / kitchen.per));
  const shown = kitchen.unit === '' || kitchen.unit === '1' ? '' : `\u00A0${kitchen.unit}`;
  return source === BENCH_SOURCE
    ? `${label}: ${typed} lies outside ${from} to ${to}${shown}, which is as far as the bench reckons. Check the unit.`
    : `${label}: ${typed} lies outside ${from} to ${to}${shown}, where this can be worked out (${source}).`;
}

function said(value: number): string {
  if (!Number.isFinite(value)) return 'this';
  const size = Math.abs(value);
  if (size >= 1e6 || (size > 0 && size < 1e-5)) return value.toExponential(2).replace('-', '\u2212');
  const text = roundedText(value, 5);
  return text.includes('.') ? text.replace(/\.?0+$/u, '') : text;
}

function sayImpossible(reason: ImpossibleReason, numbers: Readonly<Record<string, number>>): string {
  const n = (name: string, decimals = 1): string => roundedText(numbers[name] ?? Number.NaN, decimals);
  switch (reason) {
    case 'beyondReckoning':
      return 'These numbers are too large or too small to reckon with. Check the units.';
    case 'gravityRose':
      return `The gravity now, ${n('presentGravity', 3)}, is above the ${n('originalGravity', 3)} of the start. Check both readings; a vinegar’s gravity may rise, but then it says nothing about alcohol.`;
    case 'noSugarBelowWater':
      return `A gravity of ${n('gravity', 3)} is lighter than water: there is alcohol in it, and gravity alone says nothing about its sugar.`;
    case 'alreadySweeter':
      return `It stands at ${n('gravity', 3)} already, which is above the ${n('target', 3)} you want. It needs water, not sugar.`;
    case 'alreadyStrongEnough':
      return `Its own sugar will give ${n('alcohol')} % vol, which is already more than the ${n('target')} % you want.`;
    case 'targetAboveStrength':
      return `Water only weakens: it is ${n('strength')} % vol now, and you want ${n('target')}.`;
    case 'tooWeakToDilute':
      return `Your reading of ${n('strength')} % may be as low as ${roundedText(numbers['lowEnd'] ?? Number.NaN, 1, 'lower')} %, which is below ${n('target')} %. Add no water; let it sour further, or measure more finely.`;
    case 'noExtractLeft':
      return `A liquid of this gravity and ${n('alcohol')} % vol would hold less than no extract. One of the two readings is wrong.`;
    case 'moreAcidThanSaid':
      return `pH ${n('pH', 2)} is lower than this acidity can give alone (pH ${n('pureAcidPh', 2)}). Check the meter, or titrate again.`;
    case 'enoughSulfite':
      return `It holds ${n('free', 0)} mg/L free already, and ${n('wanted', 0)} would do. Add none.`;
    case 'tooMuchSulfite':
      return `At pH ${n('pH', 2)} this would take ${n('wanted', 0)} mg/L of free sulfite, far more than any drink should hold. Lower the pH first, or do without.`;
    case 'seedTooWeak':
      return `The seed has ${n('seed')} % acid, which cannot lift the mash to ${n('wanted')} %. Take a stronger vinegar, or start less acid.`;
    case 'brixRose':
      return `The reading now, ${n('presentBrix')} °Bx, is above the ${n('originalBrix')} °Bx of the start. Check both.`;
    case 'residueTooLight':
      return `The residue, ${n('residue', 3)}, must be heavier than the ${n('gravity', 3)} of the drink: alcohol makes it lighter. Check that it was made up to the same volume.`;
    case 'targetOutsideBoth':
      return `The ${n('target')} you want does not lie between the ${n('first')} of the first and the ${n('second')} of the second, so no blend of the two reaches it.`;
    case 'nothingToBlend':
      return 'Both amounts are nothing. Give at least one of them.';
    case 'enoughNitrogen':
      return `It holds ${n('nitrogen', 0)} mg/L of nitrogen already, and ${n('target', 0)} is wanted. Add none.`;
    case 'blankAboveReading':
      return `The blank took ${n('blankMl', 2)} mL, more than a reading of ${n('baseMl', 2)} mL. Check which is which.`;
    case 'acidityImplausible':
      return `This comes out at ${n('acidity', 0)} g of acid in 100 mL, more than any ferment makes. Check the strength of the hydroxide, the sample and the decimal points.`;
    default:
      return assertNever(reason);
  }
}
