import type { Round } from '../schedule/round.ts';

/**
 * Rounds most ferments share. Intervals are common practice, no source, unless the line says otherwise; the
 * gravity and acidity windows are those of the project's own planning model.
 */
export const PITCH: Round = {
  act: 'pitch',
  firstAfterDays: 1,
  everyDays: null,
  graceDays: 1,
  why: 'practice',
};
export const GRAVITY: Round = {
  act: 'gravity',
  firstAfterDays: 2,
  everyDays: 2,
  graceDays: 2,
  why: 'practice',
};
export const RACK_OFF_LEES: Round = {
  act: 'rack',
  firstAfterDays: 21,
  everyDays: null,
  graceDays: 21,
  why: 'practice',
};
export const TASTE: Round = {
  act: 'taste',
  firstAfterDays: 60,
  everyDays: 60,
  graceDays: 30,
  why: 'practice',
};
export const ACIDITY: Round = {
  act: 'acidity',
  firstAfterDays: 7,
  everyDays: 7,
  graceDays: 2,
  why: 'practice',
};
export const LOOK_AT_HELD: Round = {
  act: 'look',
  firstAfterDays: 1,
  everyDays: 1,
  graceDays: 2,
  why: 'practice',
};
export const LOOK_AT_KEPT_APART: Round = {
  act: 'look',
  firstAfterDays: 7,
  everyDays: 7,
  graceDays: 7,
  why: 'practice',
};
export const FEED: Round = { act: 'feed', firstAfterDays: 30, everyDays: 30, graceDays: 9, why: 'practice' };
/** Vegetable ferments are tested daily until the pH is under the line, then weekly (university extension advice, S24). */
export const PH_DAILY: Round = { act: 'ph', firstAfterDays: 1, everyDays: 1, graceDays: 1, why: 'rule' };
export const PH_EVERY_OTHER_DAY: Round = {
  act: 'ph',
  firstAfterDays: 2,
  everyDays: 2,
  graceDays: 2,
  why: 'rule',
};

export const WATCHED = { held: [LOOK_AT_HELD], quarantine: [LOOK_AT_KEPT_APART], culture: [FEED] } as const;
