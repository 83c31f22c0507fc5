import type { Quantity } from '#core/safety/facts.ts';
import type { Reason } from '#core/safety/rule.ts';
import { written, type RuleWords, type Words } from './sentence.ts';

type Causes = Readonly<Partial<Record<Reason, string>>>;

function causesOf(what: string, of: Causes): Causes {
  return {
    stale_event: `${what} is from before something was last done to the liquid`,
    stale_age: `${what} on record is too old`,
    implausible: `${what} on record does not fit its unit or its date`,
    readings_disagree: `two readings of ${what.replace('the measurement of ', '')} do not agree`,
    guessed: `${what} on record is a guess`,
    ...of,
  };
}

function withoutChange({ stale_event: _, ...causes }: Causes): Causes {
  return causes;
}

/** Why a number that is there may not be used, quantity by quantity, to stand after what is therefore not shown. */
const CAUSES: Readonly<Partial<Record<Quantity, Causes>>> = {
  acidity: causesOf('the acidity', {
    method: 'how the acidity was measured is not on record in full',
    uncalibrated: 'the sodium hydroxide of the titration is not known to be checked within a year',
    basis: 'which acid the acidity counts is not on record',
  }),
  pH: causesOf('the pH', {
    method: 'the pH was read on paper too coarse for it, or nobody noted how',
    uncalibrated: 'the pH meter is not known to have been set to its buffers within a week',
    not_equilibrium: 'the pH is of the brine, or nobody noted of what',
  }),
  gravity: causesOf('the gravity', {
    method: 'the gravity was taken in a way that alcohol, acid or warmth distorts',
  }),
  alcohol: causesOf('the alcohol', { method: 'how the alcohol was measured is not on record' }),
  sulfite: causesOf('the sulfite', { method: 'how the sulfite was measured is not on record' }),
  // Nothing put into a vessel makes a reading of the room stale.
  carbonDioxide: withoutChange(
    causesOf('the measurement of the air', { method: 'how the air was measured is not on record' }),
  ),
};

/**
 * The sentences of a rule whose number there is and may not be used: what is therefore not shown, a colon, and why. `after` is
 * added as a sentence of its own.
 */
export function withheld(quantity: Quantity, notShown: Words, after: Words = ''): RuleWords['says'] {
  return Object.fromEntries(
    Object.entries(CAUSES[quantity] ?? {}).map(([reason, cause]) => [
      reason,
      (numbers, house) => `${written(notShown, numbers, house)}: ${cause}.${written(after, numbers, house)}`,
    ]),
  );
}
