import type { VesselId } from '#core/ledger/ids.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { FACT_WORDS } from '../words/fact-words.ts';
import type { Step } from './act-form.svelte.ts';
import type { FormReader } from './form-reader.ts';

export const HEAT_FIELDS = {
  reachedCelsius: '',
  minutes: '',
  pot: '',
  calledPasteurised: '',
  bottleGlass: '',
  keptBack: '',
  otherHolders: '',
  note: '',
  happenedAtMs: 'now',
} as const;

const MINUTES = { units: /^m(?:in(?:utes?)?)?$/iu, sample: '30' };
/** What the book takes of a heating. */
const CELSIUS = { low: 20, high: 130 };
const MINUTES_MAX = 1440;

/** What is told of a heating beside how hot and how long, whether or not the form is whole yet. */
export function readHeating(read: FormReader): Required<Pick<ToldFacts, 'heating' | 'culture'>> {
  const reached = read.quantityIfSound('temperature', 'reachedCelsius')?.value ?? null;
  const minutes = read.raw('minutes') === '' ? null : read.number('minutes', MINUTES);
  return {
    heating: {
      reachedCelsius: reached === null ? null : { value: reached, uncertainty: null, method: 'thermometer' },
      simmered: null,
      minutes: minutes !== null && minutes >= 0 && minutes <= MINUTES_MAX ? minutes : null,
      pot: read.choiceOrNone('pot', FACT_WORDS['heating.pot'].choices),
      calledPasteurised: yesNo(read.raw('calledPasteurised')),
      bottleGlass: read.choiceOrNone('bottleGlass', FACT_WORDS['heating.bottleGlass'].choices),
    },
    culture: { keptBack: yesNo(read.raw('keptBack')), otherHolders: yesNo(read.raw('otherHolders')) },
  };
}

/** A heating as it is written: the act, which makes earlier readings stale, and right after it how it was done. */
export function buildHeat(
  read: FormReader,
  given: { readonly vesselId: VesselId; readonly asksOfCulture: boolean },
): readonly Step[] {
  const { vesselId, asksOfCulture } = given;
  const reachedCelsius = read.quantity('temperature', 'reachedCelsius')?.value ?? null;
  if (reachedCelsius === null && read.raw('reachedCelsius') === '') {
    read.problem('reachedCelsius', 'Say how hot all of it became, read off a thermometer.');
  }
  if (reachedCelsius !== null && (reachedCelsius < CELSIUS.low || reachedCelsius > CELSIUS.high)) {
    read.problem('reachedCelsius', 'Heating is between 20 °C and 130 °C. Check the number and its unit.');
  }
  const minutes = read.number('minutes', MINUTES);
  if (read.raw('minutes') === '') {
    read.problem('minutes', 'Say for how many minutes it was held there; 0 if it was only brought to it.');
  }
  if (minutes !== null && (minutes < 0 || minutes > MINUTES_MAX)) {
    read.problem('minutes', `This goes from 0 to ${MINUTES_MAX.toLocaleString('en')} minutes.`);
  }
  const note = read.note('note');
  read.when();
  const { heating, culture } = readHeating(read);
  return [
    () => ({ kind: 'heat', vesselId, reachedCelsius: reachedCelsius ?? 20, minutes: minutes ?? 0, note }),
    () => ({ kind: 'tellFacts', vesselId, facts: asksOfCulture ? { heating, culture } : { heating } }),
  ];
}

function yesNo(text: string): boolean | null {
  return text === 'yes' ? true : text === 'no' ? false : null;
}
