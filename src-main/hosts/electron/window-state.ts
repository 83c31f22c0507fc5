import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

/** A rectangle on the desktop, in the system's own units. */
export interface Bounds {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** How the window stood when it was last closed. */
export interface WindowState {
  readonly bounds: Bounds;
  readonly isMaximized: boolean;
  readonly isFullScreen: boolean;
}

export const firstSize = { width: 1280, height: 820 };
export const smallestSize = { width: 760, height: 520 };

/** A window with less than this much of it on some display counts as gone. */
const visibleMin = { width: 120, height: 80 };

/**
 * Where a window opens: where it stood, if that is still on a display, no larger than that display; otherwise centred
 * on the main one.
 *
 * @param state undefined at the first start
 * @param displays work areas, the main display first; at least one
 */
export function placeWindow(state: WindowState | undefined, displays: readonly Bounds[]): Bounds {
  const main = displays[0];
  if (main === undefined) throw new Error('A window needs a display.');
  if (state === undefined) return centre(firstSize, main);
  const { bounds } = state;
  return (
    displays.map((display) => moveOnto(display, bounds)).find((place) => place !== undefined) ??
    centre(bounds, main)
  );
}

/**
 * Reads a kept state.
 *
 * @returns undefined for text that is no state, as after a crash while writing; the window then opens as at first
 */
export function parseWindowState(text: string): WindowState | undefined {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return undefined; // Not JSON, so not a state.
  }
  if (!isRecord(value) || !isRecord(value['bounds'])) return undefined;
  const { x, y, width, height } = value['bounds'];
  if (!isInteger(x) || !isInteger(y) || !isInteger(width) || !isInteger(height)) return undefined;
  if (width < 1 || height < 1) return undefined;
  return {
    bounds: { x, y, width, height },
    isMaximized: value['isMaximized'] === true,
    isFullScreen: value['isFullScreen'] === true,
  };
}

export function readWindowState(file: string): WindowState | undefined {
  try {
    return parseWindowState(readFileSync(file, 'utf8'));
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}

export function keepWindowState(file: string, state: WindowState): void {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, `${JSON.stringify(state)}\n`);
}

/** The place on a display as near as can be to where the window stood; undefined when it was not on this display. */
function moveOnto(display: Bounds, bounds: Bounds): Bounds | undefined {
  const { width, height } = fit(bounds, display);
  const x = bounds.x;
  const y = Math.max(bounds.y, display.y); // The title bar must stay within reach.
  const seenWidth = overlap(x, width, display.x, display.width);
  const seenHeight = overlap(y, height, display.y, display.height);
  const wasHere = overlap(bounds.y, bounds.height, display.y, display.height) >= visibleMin.height;
  return wasHere && seenWidth >= visibleMin.width && seenHeight >= visibleMin.height
    ? { x, y, width, height }
    : undefined;
}

function centre(wished: { readonly width: number; readonly height: number }, display: Bounds): Bounds {
  const { width, height } = fit(wished, display);
  return {
    x: Math.round(display.x + (display.width - width) / 2),
    y: Math.round(display.y + (display.height - height) / 2),
    width,
    height,
  };
}

/** Not smaller than the page works in, not larger than the display, which wins when both cannot be. */
function fit(wished: { readonly width: number; readonly height: number }, display: Bounds) {
  return {
    width: Math.min(Math.max(wished.width, smallestSize.width), display.width),
    height: Math.min(Math.max(wished.height, smallestSize.height), display.height),
  };
}

function overlap(start: number, length: number, otherStart: number, otherLength: number): number {
  return Math.min(start + length, otherStart + otherLength) - Math.max(start, otherStart);
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}

function isInteger(value: unknown): value is number {
  return Number.isInteger(value);
}
