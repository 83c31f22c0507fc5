import type { Closure, Silhouette, Stage } from '#core/ledger/stage.ts';
import { patternScale, STAGE_PATTERNS } from '../marks/stage-patterns.ts';
import { STAGE_MARKS } from '../marks/stages.ts';
import { vesselFigure, type Figure, type FigureMark } from '../marks/vessel-figure.ts';
import type { ShelfInks } from './shelf-inks.ts';

/** A picture painted once. `x` and `y` say where its top left lies from the point it is drawn at, in px. */
export interface Sprite {
  readonly image: OffscreenCanvas;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const BYTES_MAX = 64 * 1024 * 1024;
const BYTES_PER_PIXEL = 4;
/** Room around a figure for outlines, shadows and water locks. */
const MARGIN = 8;

/**
 * Pictures of glass, liquid, closures, plates and dots at one pixel ratio and with one set of colours, painted when
 * first asked for and let go by least use above 64 MB.
 */
export class SpriteAtlas {
  readonly inks: ShelfInks;
  readonly pixelRatio: number;
  #sprites = new Map<string, Sprite>();
  #figures = new Map<string, Figure>();
  #bytes = 0;

  constructor(inks: ShelfInks, pixelRatio: number) {
    this.inks = inks;
    this.pixelRatio = pixelRatio;
  }

  /** The strokes of a vessel; capacities that are drawn alike within half a pixel share one. */
  figure(
    silhouette: Silhouette,
    capacityUl: number,
    stage: Stage,
    closure: Closure,
    mmPerPx: number,
  ): Figure {
    const state = stage === 'empty' ? 'empty' : 'filled';
    const key = `${silhouette}/${capacityUl}/${state}/${closure}/${mmPerPx}`;
    const known = this.#figures.get(key);
    if (known !== undefined) return known;
    const figure = vesselFigure({ silhouette, capacityUl, stage, closure, mmPerPx });
    if (this.#figures.size > 4000) this.#figures.clear();
    this.#figures.set(key, figure);
    return figure;
  }

  back(silhouette: Silhouette, figure: Figure, isEmpty: boolean): Sprite {
    return this.#get(`back/${silhouette}/${figure.width}/${isEmpty}`, () =>
      this.#paintFigure(figure, (context) => {
        for (const mark of figure.back) this.#stroke(context, mark);
      }),
    );
  }

  front(silhouette: Silhouette, figure: Figure, closure: Closure, isEmpty: boolean): Sprite {
    return this.#get(`front/${silhouette}/${figure.width}/${isEmpty ? 'empty' : closure}`, () =>
      this.#paintFigure(figure, (context) => {
        for (const mark of figure.front) this.#stroke(context, mark);
      }),
    );
  }

  /** Only the outline, for vessels a filter has put aside. */
  faded(silhouette: Silhouette, figure: Figure): Sprite {
    return this.#get(`faded/${silhouette}/${figure.width}`, () =>
      this.#paintFigure(figure, (context) => {
        const outline = figure.front[0];
        if (outline) this.#stroke(context, { ...outline, opacity: 0.4, dash: [] });
      }),
    );
  }

  /** The liquid as if the vessel were full, to be cut at its level. */
  liquid(silhouette: Silhouette, figure: Figure, stage: Stage, zoom: number): Sprite {
    return this.#get(`liquid/${silhouette}/${figure.width}/${stage}`, () =>
      this.#paintFigure(figure, (context) => {
        const shape = new Path2D(figure.liquid);
        context.save();
        context.clip(shape);
        this.#fillStage(context, stage, {
          x: -figure.width / 2,
          y: -figure.height,
          width: figure.width,
          height: figure.height,
          zoom,
        });
        context.restore();
      }),
    );
  }

  lees(silhouette: Silhouette, figure: Figure): Sprite {
    return this.#get(`lees/${silhouette}/${figure.width}`, () =>
      this.#paintFigure(figure, (context) => {
        context.globalAlpha = 0.55;
        context.fillStyle = this.inks.vessel.outline;
        context.fill(new Path2D(figure.lees));
      }),
    );
  }

  /** The paper plate with the stage's letter, centred on where it is drawn. */
  plate(stage: Stage, size: number): Sprite {
    return this.#get(`plate/${stage}/${size}`, () =>
      this.#paint({ x: -size / 2 - 2, y: -size / 2 - 2, width: size + 4, height: size + 4 }, (context) => {
        const { ui, stage: stages, face } = this.inks;
        context.beginPath();
        context.roundRect(-size / 2, -size / 2, size, size, 3);
        context.fillStyle = ui.paper;
        context.fill();
        context.lineWidth = 1.8;
        context.strokeStyle = stages[stage].ink;
        context.stroke();
        this.#letter(context, STAGE_MARKS[stage].letter, size * 0.78, size * 0.27, stages[stage].ink, face);
      }),
    );
  }

  /** A vessel as a dot: pattern, colour and letter; `late` notches a corner, `today` fills one. */
  dot(stage: Stage, size: number, tone: 'late' | 'today' | null, isFaded: boolean): Sprite {
    return this.#get(`dot/${stage}/${size}/${tone ?? ''}/${isFaded}`, () =>
      this.#paint({ x: -size / 2 - 1, y: -size / 2 - 1, width: size + 2, height: size + 2 }, (context) => {
        this.#paintDot(context, stage, size, tone, isFaded);
      }),
    );
  }

  /** The small square with ! that says that a vessel's closure works against its stage. */
  held(size: number): Sprite {
    return this.#get(`held/${size}`, () =>
      this.#paint({ x: -size / 2 - 2, y: -size / 2 - 2, width: size + 4, height: size + 4 }, (context) => {
        const { ui, stage, face } = this.inks;
        const half = size / 2;
        context.beginPath();
        context.moveTo(0, -half);
        context.lineTo(half, 0);
        context.lineTo(0, half);
        context.lineTo(-half, 0);
        context.closePath();
        context.fillStyle = stage.held.fill;
        context.fill();
        context.lineWidth = 1.6;
        context.strokeStyle = ui.outline;
        context.stroke();
        this.#letter(context, STAGE_MARKS.held.letter, size * 0.56, size * 0.2, stage.held['on-fill'], face);
      }),
    );
  }

  #paintDot(
    context: OffscreenCanvasRenderingContext2D,
    stage: Stage,
    size: number,
    tone: 'late' | 'today' | null,
    isFaded: boolean,
  ): void {
    const half = size / 2;
    const { ui, stage: stages, face, isForced } = this.inks;
    const notch = size * 0.34;
    const shape = new Path2D();
    if (tone === 'late') {
      shape.moveTo(-half, -half);
      shape.lineTo(half - notch, -half);
      shape.lineTo(half - notch, -half + notch);
      shape.lineTo(half, -half + notch);
      shape.lineTo(half, half);
      shape.lineTo(-half, half);
      shape.closePath();
    } else shape.roundRect(-half, -half, size, size, 4);
    if (isFaded || stage === 'empty') {
      context.globalAlpha = isFaded ? 0.4 : 1;
      context.lineWidth = 1.4;
      context.setLineDash(stage === 'empty' ? [4, 2.5] : []);
      context.strokeStyle = ui.outline;
      context.stroke(shape);
      context.setLineDash([]);
      if (!isFaded)
        this.#letter(context, STAGE_MARKS[stage].letter, size * 0.62, size * 0.22, stages[stage].ink, face);
    } else {
      context.save();
      context.clip(shape);
      this.#fillStage(context, stage, { x: -half, y: -half, width: size, height: size, zoom: 1 });
      context.fillStyle = stages[stage].fill;
      context.beginPath();
      context.roundRect(-size * 0.33, -size * 0.36, size * 0.66, size * 0.72, 2.5);
      context.fill();
      context.restore();
      if (isForced) {
        context.strokeStyle = ui.outline;
        context.stroke(shape);
      }
      this.#letter(
        context,
        STAGE_MARKS[stage].letter,
        size * 0.64,
        size * 0.23,
        stages[stage]['on-fill'],
        face,
      );
    }
    if (isFaded || tone === null) return;
    context.beginPath();
    if (tone === 'late') context.rect(half - notch + 2, -half, notch - 2, notch - 2);
    else {
      context.moveTo(half - notch, -half);
      context.lineTo(half, -half);
      context.lineTo(half, -half + notch);
      context.closePath();
    }
    context.fillStyle = tone === 'late' ? ui['late-fill'] : ui['tag-paper'];
    context.fill();
    if (tone === 'today') {
      context.lineWidth = 1;
      context.strokeStyle = ui['tag-edge'];
      context.stroke();
    }
  }

  #letter(
    context: OffscreenCanvasRenderingContext2D,
    letter: string,
    size: number,
    drop: number,
    ink: string,
    face: string,
  ): void {
    context.font = `800 ${size}px ${face}`;
    context.textAlign = 'center';
    context.fillStyle = ink;
    context.fillText(letter, 0, drop);
  }

  /** Fills a rectangle with a stage's colour and lays its pattern over it, drawn as strokes so that it stays sharp. */
  #fillStage(
    context: OffscreenCanvasRenderingContext2D,
    stage: Stage,
    area: { x: number; y: number; width: number; height: number; zoom: number },
  ): void {
    const inks = this.inks.stage[stage];
    context.fillStyle = inks.fill;
    context.fillRect(area.x, area.y, area.width, area.height);
    const tile = STAGE_PATTERNS[stage];
    if (tile === null || area.width < 16) return;
    const scale = patternScale(tile.width, area.width, area.zoom);
    context.save();
    context.translate(area.x, area.y);
    context.rotate((tile.turnDegrees * Math.PI) / 180);
    context.scale(scale, scale);
    const reach = tile.turnDegrees === 0 ? 0 : Math.ceil((area.width + area.height) / scale);
    const across = Math.ceil((reach || area.width / scale) / tile.width) + 1;
    const down = Math.ceil((reach || area.height / scale) / tile.height) + 1;
    context.strokeStyle = inks.pattern;
    context.fillStyle = inks.pattern;
    for (const { d, strokeWidth } of tile.strokes) {
      const one = new Path2D(d);
      const all = new Path2D();
      for (let i = reach === 0 ? 0 : -across; i < across; i++)
        for (let j = reach === 0 ? 0 : -down; j < down; j++)
          all.addPath(one, { e: i * tile.width, f: j * tile.height });
      if (strokeWidth === 0) context.fill(all);
      else {
        context.lineWidth = strokeWidth;
        context.stroke(all);
      }
    }
    context.restore();
  }

  #stroke(context: OffscreenCanvasRenderingContext2D, mark: FigureMark): void {
    const path = new Path2D(mark.d);
    context.globalAlpha = mark.opacity;
    if (mark.fill !== null) {
      context.fillStyle = this.inks.vessel[mark.fill];
      context.fill(path);
    }
    if (mark.stroke !== null) {
      context.strokeStyle = this.inks.vessel[mark.stroke];
      context.lineWidth = mark.strokeWidth;
      context.lineCap = 'round';
      context.lineJoin = 'round';
      context.setLineDash([...mark.dash]);
      context.stroke(path);
      context.setLineDash([]);
    }
    context.globalAlpha = 1;
  }

  #paintFigure(figure: Figure, draw: (context: OffscreenCanvasRenderingContext2D) => void): Sprite {
    const half = figure.width / 2 + MARGIN;
    const above = figure.height + figure.closureHeight + MARGIN;
    return this.#paint({ x: -half, y: -above, width: half * 2, height: above + MARGIN }, draw);
  }

  #paint(
    box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
    draw: (context: OffscreenCanvasRenderingContext2D) => void,
  ): Sprite {
    const ratio = this.pixelRatio;
    const left = Math.floor(box.x * ratio);
    const top = Math.floor(box.y * ratio);
    const width = Math.ceil(box.width * ratio) + 1;
    const height = Math.ceil(box.height * ratio) + 1;
    const image = new OffscreenCanvas(width, height);
    const context = image.getContext('2d');
    if (context === null) throw new Error('The page cannot paint.');
    context.setTransform(ratio, 0, 0, ratio, -left, -top);
    draw(context);
    return { image, x: left / ratio, y: top / ratio, width: width / ratio, height: height / ratio };
  }

  #get(key: string, paint: () => Sprite): Sprite {
    const known = this.#sprites.get(key);
    if (known !== undefined) {
      // A map remembers the order of insertion: the least used comes first.
      this.#sprites.delete(key);
      this.#sprites.set(key, known);
      return known;
    }
    const made = paint();
    this.#sprites.set(key, made);
    this.#bytes += bytesOf(made);
    for (const [oldest, sprite] of this.#sprites) {
      if (this.#bytes <= BYTES_MAX || oldest === key) break;
      this.#sprites.delete(oldest);
      this.#bytes -= bytesOf(sprite);
    }
    return made;
  }
}

function bytesOf(sprite: Sprite): number {
  return sprite.image.width * sprite.image.height * BYTES_PER_PIXEL;
}
