import type { Stage } from '#core/ledger/stage.ts';
import { STAGE_ORDER, stageColour, type StageInk } from '../marks/stages.ts';
import { VESSEL_INKS, type VesselInk } from '../marks/vessel-figure.ts';

const UI_INKS = [
  'wall',
  'paper',
  'plank-top',
  'plank-face',
  'plank-shade',
  'outline',
  'selection',
  'line',
  'text',
  'tag-paper',
  'tag-edge',
  'late-fill',
  'late-ink',
  'accent',
] as const;
export type UiInk = (typeof UI_INKS)[number];

/** Every colour the canvas paints with, resolved from the page's own custom properties. */
export interface ShelfInks {
  readonly ui: Readonly<Record<UiInk, string>>;
  readonly vessel: Readonly<Record<VesselInk, string>>;
  readonly stage: Readonly<Record<Stage, Readonly<Record<StageInk, string>>>>;
  readonly face: string;
  readonly isForced: boolean;
}

const STAGE_INKS: readonly StageInk[] = ['fill', 'ink', 'tint', 'on-fill', 'pattern'];

/**
 * Reads the colours as they are painted now, so that the canvas follows the theme, more contrast and forced colours
 * just as the rest of the page does. `within` is an element of the page the custom properties reach.
 */
export function readShelfInks(within: HTMLElement): ShelfInks {
  const probe = document.createElement('span');
  probe.style.display = 'none';
  within.append(probe);
  const style = getComputedStyle(probe);
  const resolve = (value: string): string => {
    probe.style.color = value;
    return style.color;
  };
  const record = <Key extends string>(
    keys: readonly Key[],
    value: (key: Key) => string,
  ): Record<Key, string> =>
    Object.fromEntries(keys.map((key) => [key, resolve(value(key))])) as Record<Key, string>;
  const inks: ShelfInks = {
    ui: record(UI_INKS, (key) => `var(--${key})`),
    vessel: record(Object.keys(VESSEL_INKS) as VesselInk[], (key) => VESSEL_INKS[key]),
    stage: Object.fromEntries(
      STAGE_ORDER.map((stage) => [stage, record(STAGE_INKS, (ink) => stageColour(stage, ink))]),
    ) as ShelfInks['stage'],
    face: style.fontFamily,
    isForced: matchMedia('(forced-colors: active)').matches,
  };
  probe.remove();
  return inks;
}
