import { isoDay, type LocalTime } from '#core/quantities/civil-time.ts';
import { parseWhen } from '#core/quantities/parse-when.ts';
import { sayWhenError, type Said } from '../words/error-words.ts';
import { howFar } from './read-when.ts';

/** What a field for a day to come holds. */
export type LaterState =
  | { readonly type: 'empty' }
  | { readonly type: 'understood'; readonly atMs: number; readonly echo: string }
  | { readonly type: 'wrong'; readonly said: Said };

const DAY_MS = 86_400_000;
const SPANS: readonly (readonly [name: RegExp, days: number])[] = [
  [/^d(?:ays?)?$/u, 1],
  [/^w(?:k|eeks?)?$/u, 7],
  [/^months?$/u, 30],
];
/** Longer than this a vessel is not resting but put away. */
const LATEST_DAYS = 3660;

/** Reads a day to come: `5 days`, `in 2 weeks`, `2026-12-05`, or any other date that a time field takes. */
export function readLater(text: string, nowMs: number, localTime: LocalTime): LaterState {
  const plain = text.trim().toLowerCase();
  if (plain === '') return { type: 'empty' };
  const days = spanDays(plain);
  const read = days === null ? parseWhen(text, { nowMs, localTime }) : null;
  if (read !== null && !read.ok) {
    if (read.error.type !== 'NotAWhen') return { type: 'wrong', said: sayWhenError(read.error, localTime) };
    const sentence = `“${text.trim().slice(0, 40)}” is not read as a day to come. Write 5 days, 2 weeks, or 2026-12-05.`;
    return { type: 'wrong', said: { sentence, fixes: [] } };
  }
  const atMs = read?.ok === true ? read.value.atMs : nowMs + (days ?? 0) * DAY_MS;
  if (atMs <= nowMs) {
    return { type: 'wrong', said: { sentence: 'This day has come already. Give a later one.', fixes: [] } };
  }
  if (atMs - nowMs > LATEST_DAYS * DAY_MS) {
    return {
      type: 'wrong',
      said: { sentence: 'That is more than ten years ahead. Give an earlier day.', fixes: [] },
    };
  }
  return { type: 'understood', atMs, echo: `${isoDay(localTime.localOf(atMs))}, ${howFar(atMs - nowMs)}` };
}

function spanDays(plain: string): number | null {
  const found = /^(?:in )?([0-9]{1,4}) ?([a-z]+)$/u.exec(plain);
  const span = found && SPANS.find(([name]) => name.test(found[2] ?? ''));
  return found && span ? Number(found[1]) * span[1] : null;
}
