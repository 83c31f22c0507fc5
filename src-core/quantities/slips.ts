import { isPlausible, LARGEST_GRAVITY_DROP } from './plausible.ts';
import type { QuantityKind } from './understood.ts';

/** A way in which a new number may have gone wrong, judged by the last one of the same vessel. */
export interface Slip {
  readonly why:
    | 'factorTen'
    | 'thousand'
    | 'fahrenheitAsCelsius'
    | 'celsiusAsFahrenheit'
    | 'imperialAsUs'
    | 'usAsImperial'
    | 'fellTooFar';
  /** The value it would have been, in the canonical unit of its kind; null where no other value is offered. */
  readonly instead: number | null;
}

/** Imperial to US gallon: 4.54609/3.785411784. Source: NIST SP 811. */
const IMPERIAL_PER_US = 4.54609 / 3.785411784;
/** How near a ratio must come to a slip's own to be asked about. Policy. */
const NEAR = 0.02;

/**
 * Slips of rule MEAS-09 that a number plausible by itself may still hide, given the value before it in the same vessel: ten
 * times too much or little, °F for °C, an imperial for a US measure, a gravity fallen by more than 0.130. Asked about, never
 * corrected. Canonical units. Empty when nothing looks wrong, or when nothing came before.
 */
export function slipsAgainst(given: {
  readonly kind: QuantityKind;
  readonly value: number;
  readonly previous: number | null;
}): readonly Slip[] {
  const { kind, value, previous } = given;
  if (previous === null || !Number.isFinite(value) || !Number.isFinite(previous)) return [];
  const slips: Slip[] = [];
  const isNear = (candidate: number, tolerance: number) =>
    isPlausible(kind, candidate) && Math.abs(candidate - previous) <= tolerance;
  if (kind === 'gravity') {
    if (previous - value > LARGEST_GRAVITY_DROP) slips.push({ why: 'fellTooFar', instead: null });
    return slips;
  }
  if (kind === 'temperature') {
    const asCelsius = ((value - 32) * 5) / 9;
    const asFahrenheit = (value * 9) / 5 + 32;
    const moved = Math.abs(value - previous) > 15;
    if (moved && isNear(asCelsius, 6)) slips.push({ why: 'fahrenheitAsCelsius', instead: asCelsius });
    if (moved && isNear(asFahrenheit, 6)) slips.push({ why: 'celsiusAsFahrenheit', instead: asFahrenheit });
    return slips;
  }
  if (kind === 'pH' || !(value > 0) || !(previous > 0)) return [];
  const tolerance = 0.3 * previous;
  const ratio = value / previous;
  if (ratio > 5 && isNear(value / 10, tolerance)) slips.push({ why: 'factorTen', instead: value / 10 });
  if (ratio < 0.2 && isNear(value * 10, tolerance)) slips.push({ why: 'factorTen', instead: value * 10 });
  if (ratio > 300 && isNear(value / 1000, tolerance)) slips.push({ why: 'thousand', instead: value / 1000 });
  if (ratio < 1 / 300 && isNear(value * 1000, tolerance))
    slips.push({ why: 'thousand', instead: value * 1000 });
  if (kind === 'volume') {
    if (Math.abs(ratio / IMPERIAL_PER_US - 1) < NEAR) {
      slips.push({ why: 'imperialAsUs', instead: value / IMPERIAL_PER_US });
    }
    if (Math.abs(ratio * IMPERIAL_PER_US - 1) < NEAR) {
      slips.push({ why: 'usAsImperial', instead: value * IMPERIAL_PER_US });
    }
  }
  return slips;
}
