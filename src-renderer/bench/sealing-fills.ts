import type { HouseRules } from '#core/contract/house-rules.ts';
import type { ReadingRow } from '#core/contract/shelves.ts';
import { trimmed } from '../words/quantity-words.ts';
import { celsiusText, sgText } from './fill-text.ts';
import type { Staleness, VesselFill } from './vessel-fill.ts';

const HOUR_MS = 3_600_000;
/** The scales a hydrometer of the house may be marked for, as the reckonings name them. */
const CALIBRATIONS = [
  { name: '20C', celsius: 20 },
  { name: '60F', celsius: (60 - 32) / 1.8 },
  { name: '15C', celsius: 15 },
] as const;

/**
 * The two newest hydrometer readings of a vessel as they were read, each with its temperature, and the whole hours between and
 * since: what the check before sealing asks for. Nothing where there are not two.
 */
export function sealingFills(
  readings: readonly ReadingRow[],
  rules: HouseRules,
  nowMs: number,
  staleness: (atMs: number) => Staleness | null,
): Record<string, VesselFill> {
  const [second, first] = readings
    .filter(({ gravitySg, gravityInstrument }) => gravitySg !== null && gravityInstrument !== 'refractometer')
    .toSorted((a, b) => b.atMs - a.atMs);
  if (first === undefined || second === undefined) return {};
  const found: Record<string, VesselFill> = {};
  const lay = (name: string, text: string, { atMs }: ReadingRow, origin: VesselFill['origin']): void => {
    found[name] = { text, origin, atMs, stale: staleness(atMs) };
  };
  for (const [reading, gravity, warmth] of [
    [first, 'firstReading', 'firstCelsius'],
    [second, 'secondReading', 'secondCelsius'],
  ] as const) {
    if (reading.gravitySg !== null) lay(gravity, sgText(reading.gravitySg), reading, 'read');
    if (reading.temperatureCelsius !== null) {
      lay(warmth, celsiusText(reading.temperatureCelsius, rules), reading, 'read');
    }
  }
  const hours = (ms: number): string => trimmed(Math.max(0, Math.floor(ms / HOUR_MS)), 0);
  lay('hoursBetween', hours(second.atMs - first.atMs), second, 'dates');
  lay('hoursSinceLast', hours(nowMs - second.atMs), second, 'dates');
  const calibration = CALIBRATIONS.find(
    ({ celsius }) => Math.abs(celsius - rules.hydrometerCalibrationCelsius) < 0.5,
  );
  if (calibration !== undefined) lay('calibration', calibration.name, second, 'read');
  return found;
}
