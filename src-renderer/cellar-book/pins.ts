import type { EntryRow } from '#core/contract/ledger.ts';
import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ActKind } from '#core/ledger/act.ts';
import { sayEntry } from '../words/act-words.ts';
import { sayShortDate } from '../words/time-words.ts';
import { localDayAround } from '../cellar/day.ts';

/** A numbered pin over the charts: what was done to the liquid on one day, or on days too close to be told apart. */
export interface Pin {
  readonly number: number;
  readonly atMs: number;
  /** The moment of the last act under this number. */
  readonly untilMs: number;
  readonly says: string;
}

/** Acts that explain a bend in a line; readings and notes do not get a pin. */
const PINNED: ReadonlySet<ActKind> = new Set<ActKind>([
  'addTo',
  'pitchYeast',
  'transfer',
  'seed',
  'changeStage',
  'changeClosure',
  'bottle',
]);

/** Acts nearer than this part of the range share a number, since their pins would cover each other. */
const LEAST_APART = 1 / 24;
/** As many pins as can be told apart over one chart; the newest are kept. */
export const PINS_MAX = 16;

/** The acts worth a pin between two moments, oldest first. Struck acts have none. */
export function pinsOf(
  entries: readonly EntryRow[],
  range: { readonly fromMs: number; readonly toMs: number },
  rules: HouseRules,
): readonly Pin[] {
  const apartMs = (range.toMs - range.fromMs) * LEAST_APART;
  const pins: { atMs: number; untilMs: number; says: string[] }[] = [];
  const worth = entries
    .filter(({ act, struck }) => !struck && PINNED.has(act.kind))
    .filter(({ happenedAtMs }) => happenedAtMs >= range.fromMs && happenedAtMs <= range.toMs)
    .sort((a, b) => a.happenedAtMs - b.happenedAtMs || a.sequence - b.sequence);
  for (const entry of worth) {
    const { happenedAtMs } = entry;
    const last = pins[pins.length - 1];
    const says = sayEntry(entry, rules);
    if (last !== undefined && (happenedAtMs - last.atMs < apartMs || sameDay(happenedAtMs, last.atMs))) {
      last.untilMs = happenedAtMs;
      if (!last.says.includes(says)) last.says.push(says);
    } else pins.push({ atMs: happenedAtMs, untilMs: happenedAtMs, says: [says] });
  }
  return pins.slice(-PINS_MAX).map((pin, i) => ({ ...pin, number: i + 1, says: pin.says.join(' ') }));
}

/** The days a pin stands for: `10 Jun`, or `10 Jun to 17 Jun`. */
export function sayPinDays(pin: Pick<Pin, 'atMs' | 'untilMs'>): string {
  const from = sayShortDate(pin.atMs);
  return sameDay(pin.atMs, pin.untilMs) ? from : `${from} to ${sayShortDate(pin.untilMs)}`;
}

function sameDay(oneMs: number, otherMs: number): boolean {
  return localDayAround(oneMs).startMs === localDayAround(otherMs).startMs;
}
