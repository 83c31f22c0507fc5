import type { StageSpan } from '#core/contract/book.ts';
import type { FilledStage } from '#core/ledger/stage.ts';
import { calendarDays } from '../words/time-words.ts';
import { MS_PER_DAY } from './time-axis.ts';

/** One stretch of a stage on the band. `goesOn` marks the one that still lasts. */
export interface BandPart {
  readonly stage: FilledStage;
  readonly fromMs: number;
  readonly toMs: number;
  readonly days: number;
  readonly goesOn: boolean;
  /** Passed in the batch this one was taken from, before this batch began. */
  readonly inherited: boolean;
}

/** One line of the band: the whole leaf, or one vessel of several in which the batch stands. */
export interface BandLine {
  readonly vesselId: string | null;
  readonly parts: readonly BandPart[];
}

export interface Band {
  readonly fromMs: number;
  readonly toMs: number;
  readonly lines: readonly BandLine[];
}

/**
 * The stages of a batch laid out in time up to `untilMs` (now while it stands, its last act when it does not). A batch
 * that stands in several vessels gets a line for each: what they went through together, then their own.
 */
export function stageBand(given: {
  readonly spans: readonly StageSpan[];
  readonly batchId: string;
  readonly startedAtMs: number;
  readonly standingIn: readonly string[];
  readonly untilMs: number;
}): Band | null {
  const spans = [...given.spans].sort((a, b) => a.fromMs - b.fromMs);
  const first = spans[0];
  if (first === undefined) return null;
  const latest = spans[spans.length - 1]?.fromMs ?? first.fromMs;
  // A band must have a width even for a batch started this minute.
  const toMs = Math.max(given.untilMs, latest, first.fromMs + MS_PER_DAY / 24);
  const stands = given.standingIn.length > 0;
  const draw = (own: readonly StageSpan[]): BandPart[] => partsOf(own, { ...given, toMs, stands });
  const lines: BandLine[] =
    given.standingIn.length < 2
      ? [{ vesselId: null, parts: draw(spans) }]
      : given.standingIn.map((vesselId) => ({
          vesselId,
          parts: draw(spansOfVessel(spans, vesselId, given)),
        }));
  return { fromMs: first.fromMs, toMs, lines };
}

/**
 * What the liquid now in a vessel went through: its own spans, and before them those of vessels it no longer stands in
 * or of the one the batch began in, from which all others were filled.
 */
function spansOfVessel(
  spans: readonly StageSpan[],
  vesselId: string,
  given: { readonly standingIn: readonly string[] },
): StageSpan[] {
  const own = spans.find((span) => span.vesselId === vesselId);
  if (own === undefined) return [...spans];
  const beganIn = spans[0]?.vesselId;
  const apart = new Set(given.standingIn.filter((id) => id !== vesselId && id !== beganIn));
  return spans.filter(
    (span) => span.vesselId === vesselId || (span.fromMs < own.fromMs && !apart.has(span.vesselId)),
  );
}

function partsOf(
  spans: readonly StageSpan[],
  given: {
    readonly batchId: string;
    readonly startedAtMs: number;
    readonly toMs: number;
    readonly stands: boolean;
  },
): BandPart[] {
  const parts: BandPart[] = [];
  spans.forEach((span, i) => {
    const endMs = spans[i + 1]?.fromMs ?? given.toMs;
    const inherited = span.batchId !== given.batchId;
    const before = parts[parts.length - 1];
    if (before !== undefined && before.stage === span.stage && before.inherited === inherited) {
      parts[parts.length - 1] = lasting({ ...before, toMs: endMs });
    } else if (endMs > span.fromMs) {
      parts.push(
        lasting({ stage: span.stage, fromMs: span.fromMs, toMs: endMs, days: 0, goesOn: false, inherited }),
      );
    }
  });
  const last = parts[parts.length - 1];
  if (last !== undefined && given.stands) parts[parts.length - 1] = { ...last, goesOn: true };
  return parts;
}

function lasting(part: BandPart): BandPart {
  return { ...part, days: calendarDays(part.fromMs, part.toMs) };
}
