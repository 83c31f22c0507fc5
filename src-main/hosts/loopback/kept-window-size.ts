import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** How large the window was when it was last closed. */
export interface KeptWindowSize {
  readonly width: number;
  readonly height: number;
  readonly isMaximized: boolean;
}

const pixelsMin = 320;
const pixelsMax = 16_384;

/**
 * Chromium writes down where an app window stood, but does not give a window at our address that place again. So its
 * size is read from there and asked for at the next start; where the window stands is left to the desktop, which knows
 * its displays.
 *
 * @param profile folder of the browser profile
 * @returns undefined at the first start, and for preferences that say nothing usable
 */
export function readKeptWindowSize(profile: string): KeptWindowSize | undefined {
  try {
    return keptWindowSize(readFileSync(join(profile, 'Default', 'Preferences'), 'utf8'));
  } catch {
    return undefined; // No window of this profile was closed yet.
  }
}

/** The size in the text of a profile's preferences. */
export function keptWindowSize(preferences: string): KeptWindowSize | undefined {
  let value: unknown;
  try {
    value = JSON.parse(preferences);
  } catch {
    return undefined; // Not JSON: a browser killed while writing.
  }
  const placements = member(member(value, 'browser'), 'app_window_placement');
  return firstSize(placements, 8);
}

/** The placement lies under a name made of our address, taken apart at its dots into objects inside objects. */
function firstSize(value: unknown, depthLeft: number): KeptWindowSize | undefined {
  if (typeof value !== 'object' || value === null || depthLeft === 0) return undefined;
  const [left, right, top, bottom] = ['left', 'right', 'top', 'bottom'].map((side) => member(value, side));
  if (isWhole(left) && isWhole(right) && isWhole(top) && isWhole(bottom)) {
    const width = right - left;
    const height = bottom - top;
    const usable = [width, height].every((pixels) => pixels >= pixelsMin && pixels <= pixelsMax);
    return usable ? { width, height, isMaximized: member(value, 'maximized') === true } : undefined;
  }
  for (const inner of Object.values(value)) {
    const found = firstSize(inner, depthLeft - 1);
    if (found !== undefined) return found;
  }
  return undefined;
}

function member(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null ? (Reflect.get(value, name) as unknown) : undefined;
}

function isWhole(value: unknown): value is number {
  return Number.isInteger(value);
}
