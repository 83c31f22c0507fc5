import { sayShortDate } from './time-words.ts';

/** What a panel says of itself in one sentence: the values between which it went, over how long, from how many readings. */
export function sayPanel(panel: {
  readonly title: string;
  readonly unit: string;
  readonly decimals: number;
  readonly points: readonly { readonly y: number; readonly atMs: number }[];
}): string {
  const first = panel.points[0];
  const last = panel.points[panel.points.length - 1];
  if (first === undefined || last === undefined) return `${panel.title}: no readings.`;
  const say = (y: number): string => y.toFixed(panel.decimals);
  const unit = panel.unit === '' ? '' : `, ${panel.unit}`;
  if (panel.points.length === 1) {
    return `${panel.title} was ${say(last.y)} on ${sayShortDate(last.atMs)}, one reading${unit}.`;
  }
  const days = Math.round((last.atMs - first.atMs) / 86_400_000);
  const time = days < 1 ? 'within a day' : `in ${days === 1 ? '1 day' : `${days} days`}`;
  return `${panel.title} ${went(first.y, last.y, panel.decimals)} ${time}, ${COUNTS[panel.points.length] ?? panel.points.length} readings${unit}.`;
}

function went(from: number, to: number, decimals: number): string {
  const [first, last] = [from.toFixed(decimals), to.toFixed(decimals)];
  if (first === last) return `stayed at ${last}`;
  return to > from ? `rose from ${first} to ${last}` : `fell from ${first} to ${last}`;
}

const COUNTS: Readonly<Record<number, string>> = {
  2: 'two',
  3: 'three',
  4: 'four',
  5: 'five',
  6: 'six',
  7: 'seven',
  8: 'eight',
  9: 'nine',
  10: 'ten',
};
