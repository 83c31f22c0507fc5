import type { ShelfRow } from '#core/contract/shelves.ts';
import type { DueTone } from '../marks/due-tone.ts';
import { sizePx } from '../marks/silhouettes.ts';
import { dueToneOf, sayDueTag, type DayBounds } from '../words/due-words.ts';
import type { Slot } from './shelf-data.ts';
import { columnLeft, STANDS_BACK, type ShelfLayout } from './shelf-layout.ts';

export interface Area {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Room above a vessel inside its selected ground. */
const ABOVE_FIGURE = 36;
/** Keeps the ring of a vessel inside its own slot. */
const BESIDE_AREA = 5.5;
const TAG_HEIGHT = 20;
const BARE_TAG_HEIGHT = 14;

/** The ground of a vessel, tinted when it is selected and ringed when it has focus; from the plank's own top left. */
export function vesselArea(layout: ShelfLayout, plank: number, column: number, figureHeight: number): Area {
  const slotWidth = layout.slotWidth[plank] ?? 0;
  const base = layout.base[plank] ?? 0;
  if (layout.density === 'dots') {
    const top = layout.headHeight[plank] ?? 0;
    return { left: columnLeft(layout, plank, column), top, width: slotWidth, height: base - top };
  }
  const above = layout.density === 'roomy' ? ABOVE_FIGURE : ABOVE_FIGURE / 2;
  const top = Math.max(4, base - figureHeight - above);
  return {
    left: columnLeft(layout, plank, column) + BESIDE_AREA,
    top,
    width: slotWidth - 2 * BESIDE_AREA,
    height: base + STANDS_BACK + layout.face - top,
  };
}

/** Where a tag hangs and where its thread is tied, from the plank's own top left. */
export interface TagPlace {
  readonly tone: DueTone;
  readonly words: string;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  readonly knotX: number;
  readonly knotY: number;
}

/** How wide a tag with these words will be, near enough to keep it on the shelf and off other tags. */
export function tagWidth(words: string, textScale: number): number {
  if (words === '') return 24 * textScale;
  return (words.startsWith('!') ? 30 : 22) * textScale + words.length * 6.3 * textScale;
}

/** Room a water lock takes above the neck. */
const LOCK_HEIGHT = 18;
/** This near to the middle of the next vessel a tag would hide its neck. */
const NECK = 12;

/**
 * The tags of a plank by column, null where there is none. A narrow-necked vessel carries its tag beside the neck,
 * or above it where the next vessel stands too near; a wide one above the rim, beside a water lock when there is
 * one. A tag never hangs over the edge of the shelf nor over the tag before it.
 */
export function placeTags(given: {
  readonly layout: ShelfLayout;
  readonly plank: number;
  readonly slots: readonly Slot[];
  readonly today: DayBounds;
  readonly textScale: number;
}): (TagPlace | null)[] {
  const { layout, slots, today } = given;
  if (layout.density === 'dots') return slots.map(() => null);
  let before: TagPlace | null = null;
  return slots.map((row, column) => {
    const tone = row ? dueToneOf(row.due, today) : null;
    if (!row || tone === null || row.due === null) return null;
    const words = layout.density === 'roomy' ? sayDueTag(row.due, today) : '';
    const free = placeTag({ ...given, row, column, tone, words });
    before = before === null ? free : clearOf(free, before);
    return before;
  });
}

function placeTag(given: {
  readonly layout: ShelfLayout;
  readonly plank: number;
  readonly column: number;
  readonly row: ShelfRow;
  readonly tone: DueTone;
  readonly words: string;
  readonly textScale: number;
}): TagPlace {
  const { layout, plank, column, row, tone, words, textScale } = given;
  const figure = sizePx(row.silhouette, row.capacityUl, layout.mmPerPx);
  const isBare = words === '';
  const middle = columnLeft(layout, plank, column + 0.5);
  const rim = (layout.base[plank] ?? 0) - figure.height;
  const height = (isBare ? BARE_TAG_HEIGHT : TAG_HEIGHT) * textScale;
  const width = tagWidth(words, textScale);
  const edge = layout.width - width - 4;
  const hasLock = row.closure === 'airlock' && row.stage !== 'empty';
  const size = { tone, words, width, height };
  if (row.silhouette === 'demijohn') {
    const beside = middle + figure.width * 0.16 + 7;
    const knotX = middle + figure.width * 0.13;
    if (beside + width <= middle + (layout.slotWidth[plank] ?? 0) - NECK) {
      return { ...size, left: Math.min(beside, edge), top: rim + (isBare ? 2 : 6), knotX, knotY: rim + 8 };
    }
    const above = rim - height - (hasLock ? LOCK_HEIGHT : 10);
    const left = Math.max(4, Math.min(middle - width / 2, edge));
    return { ...size, left, top: Math.max(2, above), knotX: middle - figure.width * 0.1, knotY: rim + 6 };
  }
  const slotEnd = columnLeft(layout, plank, column + 1) - width - 6;
  const left = Math.max(4, Math.min(hasLock ? middle + 18 : Math.min(middle + 4, slotEnd), edge));
  const top = Math.max(2, rim - (isBare ? 4 : 11) - height);
  return { ...size, left, top, knotX: Math.max(middle - figure.width * 0.3, left + 1), knotY: rim + 3 };
}

/** The tag moved up, or down where there is no room, until it no longer covers the one before it. */
function clearOf(tag: TagPlace, before: TagPlace): TagPlace {
  const isApart =
    tag.left >= before.left + before.width ||
    tag.top >= before.top + before.height ||
    tag.top + tag.height <= before.top;
  if (isApart) return tag;
  const above = before.top - tag.height - 2;
  return { ...tag, top: above >= 2 ? above : before.top + before.height + 2 };
}
