import type { ShelfRow } from '#core/contract/shelves.ts';
import type { Stage } from '#core/ledger/stage.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { surfaceOf, type Figure } from '../marks/vessel-figure.ts';
import { dueToneOf, type DayBounds } from '../words/due-words.ts';
import type { ShelfData } from './shelf-data.ts';
import {
  columnLeft,
  PLANK_SHADE,
  PLANK_TOP,
  planksBetween,
  STANDS_BACK,
  type ShelfLayout,
} from './shelf-layout.ts';
import type { Spot } from './shelf-moves.ts';
import type { Sprite, SpriteAtlas } from './sprite-atlas.ts';
import { placeTags, vesselArea, type TagPlace } from './vessel-place.ts';

/** Everything a picture of the shelves depends on. `top` is where on the content the picture begins. */
export interface Picture {
  readonly layout: ShelfLayout;
  readonly data: ShelfData;
  readonly atlas: SpriteAtlas;
  readonly top: number;
  readonly height: number;
  readonly selected: ReadonlySet<VesselId>;
  /** Stages to be shown in full; empty means all. */
  readonly filter: ReadonlySet<Stage>;
  readonly today: DayBounds;
  readonly textScale: number;
  readonly zoom: number;
  /** The spot the pointer is on: its ground is a little lighter. */
  readonly pointed: Spot | null;
}

/**
 * Paints the part of the shelves from `top` on into a context of device pixels. Only what is in sight is looked at,
 * so the time it takes does not depend on the size of the cellar.
 */
export function paintShelves(context: CanvasRenderingContext2D, picture: Picture): void {
  const { layout, atlas, top, height } = picture;
  const ratio = atlas.pixelRatio;
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, context.canvas.width, context.canvas.height);
  const { first, last } = planksBetween(layout, top, top + height, 0);
  for (let plank = first; plank <= last; plank++) {
    const y = (layout.top[plank] ?? 0) - top;
    context.setTransform(ratio, 0, 0, ratio, 0, 0);
    if (layout.density === 'dots') paintDots(context, picture, plank, y);
    else {
      paintPlank(context, picture, plank, y);
      paintVessels(context, picture, plank, y);
    }
  }
}

function paintPlank(context: CanvasRenderingContext2D, picture: Picture, plank: number, y: number): void {
  const { layout, atlas } = picture;
  const { ui, isForced } = atlas.inks;
  const snap = snapper(atlas.pixelRatio);
  const width = layout.width;
  if (plank > 0 && !isForced) {
    const shade = context.createLinearGradient(0, y, 0, y + 16);
    shade.addColorStop(0, atlas.inks.vessel.shadow);
    shade.addColorStop(1, 'transparent');
    context.fillStyle = shade;
    context.fillRect(0, y, width, 16);
  }
  const edge = snap(y + (layout.base[plank] ?? 0) + STANDS_BACK);
  context.fillStyle = ui['plank-top'];
  context.fillRect(0, edge - PLANK_TOP, width, PLANK_TOP);
  context.fillStyle = ui['plank-face'];
  context.fillRect(0, edge, width, layout.face);
  context.fillStyle = ui['plank-shade'];
  context.fillRect(0, snap(edge + layout.face), width, isForced ? 1 : PLANK_SHADE);
}

function paintVessels(context: CanvasRenderingContext2D, picture: Picture, plank: number, y: number): void {
  const { layout, data, atlas, selected } = picture;
  const { ui } = atlas.inks;
  const group = layout.groupOfPlank[plank] ?? 0;
  const base = y + (layout.base[plank] ?? 0);
  const count = layout.slotCount[plank] ?? 0;
  const first = layout.firstSlot[plank] ?? 0;
  const slots = Array.from({ length: count }, (_, column) => data.at(group, first + column));
  const tags = placeTags({ layout, plank, slots, today: picture.today, textScale: picture.textScale });
  for (let column = 0; column < count; column++) {
    const middle = columnLeft(layout, plank, column + 0.5);
    const slot = slots[column];
    if (slot === undefined) continue;
    if (slot === null) {
      paintFreePlace(context, middle, base, layout.slotWidth[plank] ?? 0, ui.line);
      continue;
    }
    const figure = atlas.figure(slot.silhouette, slot.capacityUl, slot.stage, slot.closure, layout.mmPerPx);
    const isSelected = selected.has(slot.vesselId);
    if (isSelected || isPointed(picture, group, first + column)) {
      const area = vesselArea(layout, plank, column, figure.height);
      context.globalAlpha = isSelected ? 1 : 0.45;
      context.fillStyle = isSelected ? ui.selection : ui.paper;
      context.beginPath();
      context.roundRect(area.left, y + area.top, area.width, area.height, 9);
      context.fill();
      context.globalAlpha = 1;
    }
    paintVessel(context, picture, slot, figure, middle, base);
    const tag = tags[column];
    if (tag && layout.density === 'roomy' && !isFaded(picture, slot)) paintThread(context, picture, tag, y);
  }
}

function isPointed({ pointed }: Picture, group: number, slot: number): boolean {
  return pointed !== null && pointed.group === group && pointed.slot === slot;
}

function isFaded(picture: Picture, row: ShelfRow): boolean {
  return picture.filter.size > 0 && !picture.filter.has(row.stage);
}

function paintFreePlace(
  context: CanvasRenderingContext2D,
  middle: number,
  base: number,
  slotWidth: number,
  ink: string,
): void {
  const half = Math.min(22, slotWidth * 0.28);
  context.strokeStyle = ink;
  context.lineWidth = 2;
  context.lineCap = 'round';
  context.beginPath();
  context.moveTo(middle - half, base);
  context.lineTo(middle + half, base);
  context.stroke();
}

function paintVessel(
  context: CanvasRenderingContext2D,
  picture: Picture,
  row: ShelfRow,
  figure: Figure,
  middle: number,
  base: number,
): void {
  const { atlas, zoom } = picture;
  const draw = drawer(context, atlas.pixelRatio, middle, base);
  if (isFaded(picture, row)) {
    draw(atlas.faded(row.silhouette, figure));
    return;
  }
  const isEmpty = row.stage === 'empty';
  draw(atlas.back(row.silhouette, figure, isEmpty));
  const share = isEmpty ? 0 : Math.min(1, row.volumeUl / row.capacityUl);
  if (share > 0) {
    const surface = surfaceOf(row.silhouette, figure, share);
    draw(atlas.liquid(row.silhouette, figure, row.stage, zoom), surface.y);
    if (row.onLees && figure.lees !== '') draw(atlas.lees(row.silhouette, figure), surface.y);
    const snap = snapper(atlas.pixelRatio);
    context.fillStyle = atlas.inks.vessel.outline;
    context.fillRect(
      snap(middle) - surface.halfWidth,
      snap(base) + snap(surface.y) - 0.8,
      surface.halfWidth * 2,
      1.6,
    );
  }
  draw(atlas.front(row.silhouette, figure, row.closure, isEmpty));
  const small = picture.layout.density === 'close';
  const plate = small ? Math.max(13, Math.round(figure.plate.size * 0.75)) : figure.plate.size;
  drawer(context, atlas.pixelRatio, middle, base + figure.plate.y)(atlas.plate(row.stage, plate));
  if (row.closureConcern !== null) {
    const size = small ? 15 : 20;
    const x = middle + Math.max(figure.width / 2, size / 2 + plate / 2) - 1;
    drawer(context, atlas.pixelRatio, x, base - figure.height * 0.62)(atlas.held(size));
  }
}

/** The thread from a tag's hole to the neck it is tied to. */
function paintThread(context: CanvasRenderingContext2D, picture: Picture, tag: TagPlace, y: number): void {
  const { textScale, atlas } = picture;
  const holeX = tag.left + 7.5 * textScale;
  const holeY = y + tag.top + tag.height / 2;
  const knotY = y + tag.knotY;
  context.strokeStyle = atlas.inks.ui.outline;
  context.lineWidth = 1.2;
  context.beginPath();
  context.moveTo(holeX, holeY);
  context.quadraticCurveTo(tag.knotX + 2, (holeY + knotY) / 2 + 5, tag.knotX, knotY);
  context.stroke();
}

function paintDots(context: CanvasRenderingContext2D, picture: Picture, plank: number, y: number): void {
  const { layout, data, atlas, selected, today } = picture;
  const { ui } = atlas.inks;
  const group = layout.groupOfPlank[plank] ?? 0;
  const head = layout.headHeight[plank] ?? 0;
  const base = layout.base[plank] ?? 0;
  const pitch = base - head;
  const size = Math.round(pitch - 4);
  const count = layout.slotCount[plank] ?? 0;
  for (let column = 0; column < count; column++) {
    const slot = data.at(group, (layout.firstSlot[plank] ?? 0) + column);
    if (slot === undefined) continue;
    const middle = columnLeft(layout, plank, column + 0.5);
    const centre = y + head + pitch / 2;
    if (slot === null) {
      paintFreePlace(context, middle, centre + size * 0.3, size, ui.line);
      continue;
    }
    if (selected.has(slot.vesselId)) {
      context.fillStyle = ui.accent;
      context.fillRect(middle - pitch / 2, y + head, pitch, pitch);
    }
    const tone = dueToneOf(slot.due, today);
    const pressing = tone === 'soon' ? null : tone;
    const dot = atlas.dot(slot.stage, size, pressing, isFaded(picture, slot));
    const draw = drawer(context, atlas.pixelRatio, middle, centre);
    draw(dot);
    if (slot.closureConcern !== null && !isFaded(picture, slot)) {
      drawer(context, atlas.pixelRatio, middle - size * 0.36, centre + size * 0.36)(atlas.held(11));
    }
  }
}

function snapper(ratio: number): (x: number) => number {
  return (x) => Math.round(x * ratio) / ratio;
}

/** Draws sprites standing on a point, whole device pixels only; with `from`, cut away above that height of the figure. */
function drawer(
  context: CanvasRenderingContext2D,
  ratio: number,
  x: number,
  y: number,
): (sprite: Sprite, from?: number) => void {
  const originX = Math.round(x * ratio);
  const originY = Math.round(y * ratio);
  return (sprite, from) => {
    const { image } = sprite;
    const left = (originX + Math.round(sprite.x * ratio)) / ratio;
    const top = originY + Math.round(sprite.y * ratio);
    const cut = from === undefined ? 0 : Math.round((from - sprite.y) * ratio);
    if (cut >= image.height) return;
    context.drawImage(
      image,
      ...([0, cut, image.width, image.height - cut] as const),
      ...([left, (top + cut) / ratio, image.width / ratio, (image.height - cut) / ratio] as const),
    );
  };
}
