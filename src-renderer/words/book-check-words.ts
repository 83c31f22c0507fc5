import type { HouseRules } from '#core/contract/house-rules.ts';
import type { BookFinding, BookOfVessel } from '#core/contract/shelves.ts';
import { roundedText } from '#core/quantities/round.ts';
import type { ActOf } from '#core/ledger/act.ts';
import { COMPONENTS, totalUg, type Component, type Masses } from '#core/ledger/masses.ts';
import { sayStep } from './cellar-work-words.ts';
import { capital } from './choice-words.ts';
import { COMPONENT_WORDS } from './component-words.ts';
import { sayMass, trimmed } from './quantity-words.ts';
import { sayMoment } from './time-words.ts';

type Rules = Pick<HouseRules, 'volume' | 'temperature' | 'gravity' | 'dates'>;

/** One line of what the book weighs. */
export interface WeighedLine {
  readonly component: Component;
  readonly name: string;
  readonly mass: string;
  /** Of water and what was never measured its part of the whole, of everything else how much is in a litre. */
  readonly share: string;
}

const UG_PER_GRAM = 1e6;
const UL_PER_LITRE = 1e6;

/** What the book weighs, the components in their order; what is not there is not told. */
export function sayWeighed(
  { massesUg, volumeUl }: Pick<BookOfVessel, 'massesUg' | 'volumeUl'>,
  rules: Rules,
): readonly WeighedLine[] {
  const wholeUg = totalUg(massesUg);
  return COMPONENTS.flatMap((component): WeighedLine[] => {
    const ug = massesUg[component] ?? 0;
    if (ug === 0) return [];
    const name = component === 'unassayed' ? 'never measured' : COMPONENT_WORDS[component];
    return [{ component, name, mass: sayMass(ug, rules), share: sayPart(component, ug, wholeUg, volumeUl) }];
  });
}

function sayPart(component: Component, ug: number, wholeUg: number, volumeUl: number): string {
  if (component === 'water' || component === 'unassayed') {
    const percent = (100 * ug) / wholeUg;
    return percent < 0.1 ? 'under 0.1\u00A0%' : `${roundedText(percent, 1)}\u00A0%`;
  }
  const gramsPerLitre = ug / UG_PER_GRAM / (volumeUl / UL_PER_LITRE);
  if (gramsPerLitre < 0.01) return 'under 0.01\u00A0g/L';
  return `${roundedText(gramsPerLitre, gramsPerLitre < 10 ? 2 : 1)}\u00A0g/L`;
}

/** How old what stands there is: one age, or the mean with the youngest and the oldest of a blend. Ages are in days. */
export function sayBlendAge(age: BookOfVessel['age']): string {
  if (age === null) return 'The book does not know its age.';
  const { mean, youngest, oldest } = age;
  if (sayAgeDays(youngest) === sayAgeDays(oldest)) return `It is ${sayAgeDays(mean)} old.`;
  return `On the mean it is ${sayAgeDays(mean)} old; the youngest in it is ${sayAgeDays(youngest)}, the oldest ${sayAgeDays(oldest)}.`;
}

const DAYS_PER_YEAR = 365.25;
const DAYS_PER_MONTH = DAYS_PER_YEAR / 12;

function sayAgeDays(days: number): string {
  if (days >= 2 * DAYS_PER_YEAR) return `${roundedText(days / DAYS_PER_YEAR, 1)} years`;
  if (days >= 100) return `${Math.round(days / DAYS_PER_MONTH)} months`;
  const whole = Math.max(0, Math.round(days));
  return whole === 0 ? 'less than a day' : whole === 1 ? '1 day' : `${whole} days`;
}

/** What a reading finds against the book, in whole sentences. */
export function sayFinding(finding: BookFinding, rules: Rules): string {
  const when = sayMoment(finding.atMs, rules);
  const { what, readValue, bookValue, steps } = finding;
  if (what === 'composition' || readValue === null)
    return `The gravity of ${when} tells what the must is made of; the book has it as never measured.`;
  const read = `The reading of ${when} says ${sayValue(what, readValue)}; the book counts ${sayCounted(what, bookValue)}.`;
  const living = steps.filter(({ kind }) => kind !== 'assay');
  if (living.length === 0) return read;
  const partly = finding.doubt === 'moreAlcoholThanSugar' ? 'explain a part of it' : 'explain it';
  return `${read} ${capital(living.map((step) => sayStep(step, rules)).join('; '))} would ${partly}.`;
}

type Measured = Exclude<BookFinding['what'], 'composition'>;
const UNITS: Readonly<Record<Measured, string>> = {
  alcohol: '%\u00A0vol alcohol',
  acid: '%\u00A0acid as acetic',
  salt: '%\u00A0salt',
};

function sayValue(what: Measured, value: number): string {
  return `${roundedText(value, 1)}\u00A0${UNITS[what]}`;
}

function sayCounted(what: Measured, value: number | null): string {
  if (value === null) return 'it as never measured';
  return value === 0 ? 'none' : sayValue(what, value);
}

/** How far apart they may be without a finding. */
export function sayTolerance({ what, tolerance }: BookFinding): string | null {
  if (what === 'composition') return null;
  return `The reading itself is good to ${trimmed(tolerance, 2)}\u00A0${what === 'alcohol' ? '%\u00A0vol' : '%'}.`;
}

/** Why living work alone does not explain a finding. */
export function sayDoubt(doubt: BookFinding['doubt']): string | null {
  return doubt === null ? null : DOUBT_WORDS[doubt];
}

const DOUBT_WORDS: Readonly<Record<NonNullable<BookFinding['doubt']>, string>> = {
  neverMeasured:
    'What it is made of was never measured, so nothing in the book can say where this comes from. Only the word of the reading would stand there.',
  moreAlcoholThanSugar:
    'The book has not enough sugar for so much alcohol. Sugar that went in was not written down, or one of the readings is wrong. Look at those first.',
  moreAcidThanAlcohol:
    'The book has not enough to make so much acid from. Something sour that went in was not written down, or one of the readings is wrong. Look at those first.',
  lessThanBefore:
    'This is less than the book has, and nothing at work in it takes so much away. Something poured in was not written down, or one of the readings is wrong. Measure again before you write it.',
};

export const NOTHING_SETTLES =
  'Nothing in the book can settle this. Write down what went in, or correct the reading that is wrong.';
export const AGREES = 'No reading says otherwise. That is not a proof: only what was measured was compared.';
export const RECONCILE_LEAD =
  'This is what would be written into the book. The readings stay as they are, and so does the volume.';

/** Each step as a line of its own, with what an assay sets against what the book has. */
export function sayStepLines(
  step: ActOf<'reconcile'>['steps'][number],
  heldUg: Masses,
  rules: Rules,
): readonly { readonly says: string; readonly was: string | null }[] {
  if (step.kind !== 'assay') return [{ says: capital(sayStep(step, rules)), was: null }];
  return COMPONENTS.flatMap((component) => {
    const ug = step.massesUg[component];
    const held = heldUg[component] ?? 0;
    if (ug === undefined && !(step.whole && held > 0)) return [];
    const name = capital(COMPONENT_WORDS[component]);
    return [{ says: `${name} set to ${sayHeld(ug ?? 0, rules)}`, was: sayHeld(held, rules) }];
  });
}

function sayHeld(ug: number, rules: Rules): string {
  return ug === 0 ? 'none' : sayMass(ug, rules);
}
