import type { FilledStage } from '../ledger/stage.ts';
import { mm, rectangle } from './ink.ts';

/** A pattern that fills a square, told apart by form alone, as on the shelf: path data in mm; weight 0 means filled. */
export interface PrintedPattern {
  readonly d: string;
  readonly weightMm: number;
}

/** Thin enough to leave paper between, and no thinner than any line on a label. */
const LINE_MM = 0.3;

/** The pattern of a stage over a square whose upper left corner is at `x`, `y`. */
export function stagePattern(stage: FilledStage, x: number, y: number, side: number): PrintedPattern {
  const across = (step: number, draw: (at: number) => string): string =>
    steps(side, step)
      .map((at) => draw(y + at))
      .join('');
  const lined = (d: string): PrintedPattern => ({ d, weightMm: LINE_MM });
  const right = x + side;
  switch (stage) {
    case 'waiting':
      return { d: spots(x, y, side, 1.2, (cx, cy) => ring(cx, cy, 0.28)), weightMm: 0 };
    case 'yeast':
      return lined(spots(x, y, side, 1.5, (cx, cy) => ring(cx, cy, 0.45)));
    case 'lactic':
      return lined(
        spots(x, y, side, 1.5, (cx, cy) => `M${mm(cx - 0.4)} ${mm(cy)}h0.8M${mm(cx)} ${mm(cy - 0.4)}v0.8`),
      );
    case 'settling':
      return lined(across(0.9, (at) => `M${mm(x)} ${mm(at)}H${mm(right)}`));
    case 'maturing':
      return lined(
        steps(side, 0.9)
          .map((at) => `M${mm(x + at)} ${mm(y)}v${mm(side)}`)
          .join(''),
      );
    case 'vinegar':
      return lined(across(1, (at) => wave(x, at, side, 1.5, 0.35)));
    case 'culture':
      return lined(across(1.1, (at) => arcs(x, at, side, 1.6)));
    case 'held':
      return { d: slanted(x, y, side, 1.9, 1), weightMm: 0.8 };
    case 'quarantine':
      return lined(slanted(x, y, side, 1.3, 1) + slanted(x, y, side, 1.3, -1));
    case 'ready':
      return { d: rectangle(x, y, side, side), weightMm: 0 };
  }
}

/** So many steps over the square, the first half a step from its edge. */
function steps(side: number, step: number): readonly number[] {
  return Array.from({ length: Math.ceil(side / step) }, (_, n) => (n + 0.5) * step);
}

/** Small forms over the square, those of every other row shifted by half a step. */
function spots(
  x: number,
  y: number,
  side: number,
  step: number,
  draw: (cx: number, cy: number) => string,
): string {
  return steps(side, step)
    .flatMap((down, row) =>
      steps(side, step).map((along) => draw(x + along - (row % 2) * (step / 2), y + down)),
    )
    .join('');
}

function ring(cx: number, cy: number, r: number): string {
  return `M${mm(cx - r)} ${mm(cy)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
}

function wave(x: number, y: number, side: number, length: number, height: number): string {
  const half = length / 2;
  const one = `q${half / 2} ${-2 * height} ${half} 0t${half} 0`;
  return `M${mm(x)} ${mm(y)}${one.repeat(Math.ceil(side / length))}`;
}

function arcs(x: number, y: number, side: number, width: number): string {
  return `M${mm(x)} ${mm(y)}${`a${width / 2} ${width / 2} 0 0 1 ${width} 0`.repeat(Math.ceil(side / width))}`;
}

/** Stripes from edge to edge, falling to the right (1) or to the left (-1). */
function slanted(x: number, y: number, side: number, step: number, way: 1 | -1): string {
  return steps(2 * side, step)
    .map((at) => {
      const from = way === 1 ? x + at - side : x + at;
      return `M${mm(from)} ${mm(y)}l${mm(way * side)} ${mm(side)}`;
    })
    .join('');
}
