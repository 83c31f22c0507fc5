import type { DueCheck } from '#core/contract/shelves.ts';
import type { DueTone } from '../marks/due-tone.ts';
import { calendarDays, sayDays } from './time-words.ts';

/** What is due, as short as a tag allows and as a person would say it. */
const ACT_WORDS: Readonly<Record<DueCheck['act'], { readonly tag: string; readonly said: string }>> = {
  pitch: { tag: 'pitch', said: 'pitch yeast' },
  gravity: { tag: 'gravity', said: 'measure gravity' },
  acidity: { tag: 'acidity', said: 'measure acidity' },
  ph: { tag: 'pH', said: 'measure pH' },
  rack: { tag: 'rack', said: 'rack off the lees' },
  seed: { tag: 'seed', said: 'add a mother' },
  taste: { tag: 'taste', said: 'taste it' },
  look: { tag: 'look', said: 'look at it' },
  feed: { tag: 'feed', said: 'feed it' },
  bottle: { tag: 'bottle', said: 'bottle it' },
};

const REASON_WORDS: Readonly<Record<string, string>> = {
  practice: 'A usual interval: common practice, no source.',
  rule: 'The interval is written in a rule.',
  gravityStands: 'Two gravities at least two days apart are the same.',
  gravityStandsHigh: 'The gravity has stopped falling while it is still high.',
  targetReached: 'The acidity aimed at is reached; without alcohol left a mother eats the acid.',
  closureAgainstStage: 'The closure works against the stage.',
  acidBelowLine: 'The pH is below the line, so a weekly look is enough.',
};

/** The keeper's day: local midnight to local midnight, epoch ms. */
export interface DayBounds {
  readonly startMs: number;
  readonly endMs: number;
}

export type DueGroup = 'late' | 'today' | 'week' | 'later';
/** The week a tag looks ahead. */
const WEEK_MS = 7 * 86_400_000;

/** Late once its last day is over; today when the best day is here; this week within seven days; else later. */
export function dueGroupOf(due: DueCheck, today: DayBounds): DueGroup {
  if (due.latestMs < today.startMs) return 'late';
  if (due.idealMs < today.endMs) return 'today';
  return due.idealMs < today.endMs + WEEK_MS ? 'week' : 'later';
}

/** The form of the tag at the neck, or null when nothing is due within the week. */
export function dueToneOf(due: DueCheck | null, today: DayBounds): DueTone | null {
  if (due === null) return null;
  switch (dueGroupOf(due, today)) {
    case 'late':
      return 'late';
    case 'today':
      return 'today';
    case 'week':
      return 'soon';
    case 'later':
      return null;
  }
}

/** Words on the tag: `! 3 d late`, `today`, `rack in 3 d`. */
export function sayDueTag(due: DueCheck, today: DayBounds): string {
  const { tag } = ACT_WORDS[due.act];
  switch (dueGroupOf(due, today)) {
    case 'late':
      return `! ${calendarDays(due.latestMs, today.startMs)} d late`;
    case 'today':
      return 'today';
    case 'week':
    case 'later':
      return `${tag} in ${calendarDays(today.startMs, due.idealMs)} d`;
  }
}

/** The same as a person would say it: `3 days late: rack off the lees`, `today: measure acidity`, `in 3 days: rack off the lees`. */
export function sayDue(due: DueCheck, today: DayBounds): string {
  const { said } = ACT_WORDS[due.act];
  switch (dueGroupOf(due, today)) {
    case 'late':
      return `${sayDays(calendarDays(due.latestMs, today.startMs))} late: ${said}`;
    case 'today':
      return `today: ${said}`;
    case 'week':
    case 'later':
      return `in ${sayDays(calendarDays(today.startMs, due.idealMs))}: ${said}`;
  }
}

/** What is to be done, with a capital: `Measure acidity`. */
export function sayDueAct(act: DueCheck['act']): string {
  const { said } = ACT_WORDS[act];
  return said.charAt(0).toUpperCase() + said.slice(1);
}

/** Why it is due; a reason without words of ours says that it has none. */
export function sayDueReason(why: string): string {
  return REASON_WORDS[why] ?? 'No reason is on record for this interval.';
}

/** Names of the groups when the shelves are grouped by what is due. */
export const DUE_GROUP_WORDS = {
  late: 'Late',
  today: 'Today',
  week: 'This week',
  later: 'Later',
  nothing: 'Nothing due',
} as const;
