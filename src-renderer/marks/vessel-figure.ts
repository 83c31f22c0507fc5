import type { Closure, Silhouette, Stage } from '#core/ledger/stage.ts';
import { SHAPES } from './shapes.ts';
import { DRAWN_CAPACITY_MAX_L, halfWidthAt, levelAt, MM_PER_PX, outlinePath, sizePx } from './silhouettes.ts';

/** The materials a vessel is drawn with. Each is a CSS custom property of `vessel-inks.css` or of the theme. */
export const VESSEL_INKS = {
  outline: 'var(--outline)',
  glass: 'var(--glass)',
  clay: 'var(--vessel-clay)',
  wood: 'var(--vessel-wood)',
  cloth: 'var(--vessel-cloth)',
  rubber: 'var(--vessel-rubber)',
  cork: 'var(--vessel-cork)',
  tin: 'var(--line)',
  shadow: 'var(--vessel-shadow)',
  shine: 'var(--vessel-shine)',
} as const;
export type VesselInk = keyof typeof VESSEL_INKS;

/** One stroke of a drawing, standing on (0, 0), y upwards negative, lengths in px. */
export interface FigureMark {
  readonly d: string;
  readonly fill: VesselInk | null;
  readonly stroke: VesselInk | null;
  readonly strokeWidth: number;
  readonly opacity: number;
  readonly dash: readonly number[];
}

export interface FigureAsk {
  readonly silhouette: Silhouette;
  readonly capacityUl: number;
  readonly stage: Stage;
  readonly closure: Closure;
  readonly mmPerPx?: number;
}

/** A rectangle in the figure's own px. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * A vessel as strokes in three layers, so that the liquid between them can be cut at any level. `liquid` is the
 * whole room for liquid, `lees` the layer at its foot, `window` the sight glass of an opaque vessel.
 */
export interface Figure {
  readonly width: number;
  readonly height: number;
  /** How far closures rise above the rim. */
  readonly closureHeight: number;
  readonly back: readonly FigureMark[];
  readonly liquid: string;
  readonly lees: string;
  readonly window: Box | null;
  readonly front: readonly FigureMark[];
  readonly plate: { readonly y: number; readonly size: number };
}

const LEES_SHARE = 0.06;
const n = (x: number): number => Math.round(x * 100) / 100;

const mark = (d: string, style: Partial<Omit<FigureMark, 'd'>>): FigureMark => ({
  d,
  fill: null,
  stroke: null,
  strokeWidth: 1,
  opacity: 1,
  dash: [],
  ...style,
});

const box = (x: number, y: number, width: number, height: number, r = 0): string =>
  r === 0
    ? `M${n(x)} ${n(y)}h${n(width)}v${n(height)}h${n(-width)}Z`
    : `M${n(x + r)} ${n(y)}h${n(width - 2 * r)}a${r} ${r} 0 0 1 ${r} ${r}v${n(height - 2 * r)}a${r} ${r} 0 0 1 ${-r} ${r}h${n(-(width - 2 * r))}a${r} ${r} 0 0 1 ${-r} ${-r}v${n(-(height - 2 * r))}a${r} ${r} 0 0 1 ${r} ${-r}Z`;

/** Thickness of the outline: a little stronger on large vessels, 1.7 to 2 px. */
export const outlineWidth = (width: number): number => (width > 60 ? 2 : 1.7);

const bodyInk = (silhouette: Silhouette): VesselInk =>
  silhouette === 'cask' ? 'wood' : silhouette === 'crock' ? 'clay' : 'glass';

/** The strokes of a vessel. Pure geometry: the same call always gives the same strings. */
export function vesselFigure(ask: FigureAsk): Figure {
  const { silhouette, stage, closure } = ask;
  const { width, height } = sizePx(silhouette, ask.capacityUl, ask.mmPerPx ?? MM_PER_PX);
  const { opaque, plateAt, brim } = SHAPES[silhouette];
  const line = outlineWidth(width);
  const outline = outlinePath(silhouette, width, height);
  const empty = stage === 'empty';
  const window = opaque && !empty ? sightGlass(silhouette, width, height) : null;
  const inner = width - line;

  const back: FigureMark[] = [
    mark(ellipse(width * 0.5, Math.max(2, width * 0.035)), { fill: 'shadow' }),
    mark(outline, { fill: bodyInk(silhouette), opacity: empty ? 0.75 : 1 }),
    ...(silhouette === 'cask' ? staves(width, height) : []),
  ];
  if (window !== null) {
    back.push(
      mark(box(window.x, window.y, window.width, window.height, 3), {
        fill: 'glass',
        stroke: 'outline',
        strokeWidth: 1.2,
      }),
    );
  }

  const front: FigureMark[] = [
    mark(outline, { stroke: 'outline', strokeWidth: line, dash: empty ? [5, 3] : [] }),
  ];
  if (window !== null) {
    front.push(
      mark(box(window.x, window.y, window.width, window.height, 3), { stroke: 'outline', strokeWidth: 1.2 }),
    );
  }
  if (!opaque && !empty) {
    front.push(
      mark(`M${n(-shineAt(silhouette) * width)} ${n(-height * 0.2)}V${n(-height * 0.55)}`, {
        stroke: 'shine',
        strokeWidth: Math.max(1.2, width * 0.03),
      }),
    );
  }
  if (ask.capacityUl > DRAWN_CAPACITY_MAX_L * 1_000_000) front.push(...breakMark(silhouette, width, height));
  if (!empty) front.push(...closureMarks(silhouette, closure, width, height));

  return {
    width,
    height,
    closureHeight: empty ? 0 : closureHeight(closure),
    back,
    liquid:
      window === null
        ? outlinePath(silhouette, inner, height, 0, brim)
        : box(window.x, window.y, window.width, window.height, 3),
    lees: window === null ? outlinePath(silhouette, inner, height, 0, levelAt(silhouette, LEES_SHARE)) : '',
    window,
    front,
    plate: { y: -height * plateAt, size: width < 32 ? 15 : width > 80 ? 26 : 20 },
  };
}

/** How far below the rim (y, negative upwards) the surface stands, and half its width there. */
export function surfaceOf(
  silhouette: Silhouette,
  figure: Figure,
  share: number,
): { readonly y: number; readonly halfWidth: number } {
  const { window } = figure;
  if (window !== null) {
    return { y: window.y + window.height * (1 - Math.min(1, share)), halfWidth: window.width / 2 };
  }
  const level = levelAt(silhouette, share);
  const inner = figure.width - outlineWidth(figure.width);
  return { y: -level * figure.height, halfWidth: (halfWidthAt(silhouette, level) * inner) / 2 };
}

/** How far left of the middle the shine runs, as a share of the width: inside the narrowest part it passes. */
function shineAt(silhouette: Silhouette): number {
  return Math.min(halfWidthAt(silhouette, 0.2), halfWidthAt(silhouette, 0.55)) * 0.36;
}

function ellipse(rx: number, ry: number): string {
  return `M${n(-rx)} 0a${n(rx)} ${n(ry)} 0 1 0 ${n(2 * rx)} 0a${n(rx)} ${n(ry)} 0 1 0 ${n(-2 * rx)} 0Z`;
}

function sightGlass(silhouette: Silhouette, width: number, height: number): Box {
  const glass = Math.max(13, width * 0.5);
  const top = silhouette === 'cask' ? 0.86 : 0.84;
  return { x: -glass / 2, y: -height * top, width: glass, height: height * (top - 0.12) };
}

function staves(width: number, height: number): FigureMark[] {
  const marks = [-0.6, -0.2, 0.2, 0.6].map((q) =>
    mark(
      `M${n(q * width * 0.42)} 0Q${n(q * width * 0.51)} ${n(-height / 2)} ${n(q * width * 0.42)} ${n(-height)}`,
      { stroke: 'outline', strokeWidth: 0.7, opacity: 0.35 },
    ),
  );
  for (const t of [0.1, 0.3, 0.7, 0.9]) {
    const half = (halfWidthAt('cask', t) * width) / 2;
    marks.push(
      mark(`M${n(-half)} ${n(-t * height)}H${n(half)}`, {
        stroke: 'outline',
        strokeWidth: 2.4,
        opacity: 0.75,
      }),
    );
  }
  return marks;
}

/** Two short slanting cuts on the wall: this vessel is larger than it is drawn. */
function breakMark(silhouette: Silhouette, width: number, height: number): FigureMark[] {
  const half = (halfWidthAt(silhouette, 0.6) * width) / 2;
  return [0.58, 0.62].flatMap((t) =>
    [-1, 1].map((side) =>
      mark(`M${n(side * half - 6)} ${n(-t * height + 3)}l12 -6`, { stroke: 'outline', strokeWidth: 1.6 }),
    ),
  );
}

/** Room above the rim that a closure takes, in px. */
export function closureHeight(closure: Closure): number {
  switch (closure) {
    case 'airlock':
      return 22;
    case 'cork':
      return 8;
    case 'cloth':
      return 8;
    case 'lid':
      return 11;
    case 'bung':
      return 6;
    case 'open':
      return 0;
  }
}

/** The closure tells air from no air: cloth lets it in, a water lock lets gas out only, cork, bung and lid shut. */
function closureMarks(silhouette: Silhouette, closure: Closure, width: number, height: number): FigureMark[] {
  const half = (halfWidthAt(silhouette, 1) * width) / 2;
  const y = -height;
  switch (closure) {
    case 'open':
      return [];
    case 'cloth': {
      const c = half + 3;
      const cloth = `M${n(-c)} ${n(y + 9)}Q${n(-c - 3)} ${n(y + 2)} ${n(-c + 2)} ${n(y - 3)}Q0 ${n(y - 7)} ${n(c - 2)} ${n(y - 3)}Q${n(c + 3)} ${n(y + 2)} ${n(c)} ${n(y + 9)}l-3 4 -4 -4 -4 4 ${n(-(c * 2 - 22))} 0 -4 -4 -4 4Z`;
      return [
        mark(cloth, { fill: 'cloth', stroke: 'outline', strokeWidth: 1.3 }),
        mark(`M${n(-c)} ${n(y + 4)}H${n(c)}`, { stroke: 'outline', strokeWidth: 1.6, dash: [2, 1.6] }),
      ];
    }
    case 'airlock': {
      const plug = Math.min(half, 16);
      return [
        mark(box(-plug * 0.72, y - 5, plug * 1.44, 7), {
          fill: 'rubber',
          stroke: 'outline',
          strokeWidth: 1,
        }),
        mark(`M0 ${n(y - 5)}v-6h5v-5a3.4 3.4 0 0 1 6.8 0v3a3.4 3.4 0 0 0 6.8 0v-8`, {
          stroke: 'outline',
          strokeWidth: 1.9,
        }),
      ];
    }
    case 'cork': {
      const plug = Math.min(half, 20);
      return [
        mark(box(-plug * 0.66, y - 7, plug * 1.32, 9, 1.5), {
          fill: 'cork',
          stroke: 'outline',
          strokeWidth: 1.1,
        }),
      ];
    }
    case 'lid': {
      const ink = silhouette === 'crock' ? 'clay' : silhouette === 'cask' ? 'wood' : 'tin';
      const lid = mark(box(-half - 2, y - 6, half * 2 + 4, 7, 2.5), {
        fill: ink,
        stroke: 'outline',
        strokeWidth: 1.4,
      });
      if (silhouette !== 'crock') return [lid];
      return [lid, mark(box(-5, y - 10, 10, 5, 2), { fill: 'clay', stroke: 'outline', strokeWidth: 1.3 })];
    }
    case 'bung':
      return [mark(box(-6, y - 5, 12, 6, 1.5), { fill: 'rubber', stroke: 'outline', strokeWidth: 1.1 })];
  }
}
