import type { Calibration, LabelOrder, LabelPreview, PlacedLabel } from '#core/contract/labels.ts';
import type { LabelDrawing, LabelFont } from '#core/labels/drawing.ts';
import type { LabelLayout } from '#core/labels/layout.ts';
import { client } from '../backend/call.ts';

/** All pages of an order, ready to be handed to the printer. */
export interface PrintJob {
  readonly layout: LabelLayout;
  readonly pages: number;
  readonly labels: number;
  readonly usedUpTo: number;
  readonly calibration: Calibration | null;
  readonly placed: readonly PlacedLabel[];
  readonly drawings: readonly LabelDrawing[];
}

/** As many pages as one question may ask for. */
const PAGES_AT_ONCE = 6;

/** Fetches every page of an order; labels that are alike stay one drawing within each answer. */
export async function fetchJob(order: LabelOrder): Promise<PrintJob> {
  let last: LabelPreview = await client.labels.preview({ order, fromPage: 1, pages: PAGES_AT_ONCE });
  const placed = [...last.placed];
  const drawings = [...last.drawings];
  for (let from = 1 + PAGES_AT_ONCE; from <= last.pages; from += PAGES_AT_ONCE) {
    last = await client.labels.preview({ order, fromPage: from, pages: PAGES_AT_ONCE });
    const before = drawings.length;
    placed.push(...last.placed.map((label) => ({ ...label, drawing: label.drawing + before })));
    drawings.push(...last.drawings);
  }
  const { layout, pages, labels, usedUpTo, calibration } = last;
  return { layout, pages, labels, usedUpTo, calibration, placed, drawings };
}

/** The test sheet of a layout as a job of one page. */
export async function fetchTestSheet(
  asked: Parameters<typeof client.labels.testSheetDrawn>[0],
): Promise<PrintJob> {
  const { layout, calibration, marks } = await client.labels.testSheetDrawn(asked);
  return {
    ...{ layout, calibration, pages: 1, labels: 0, usedUpTo: 0 },
    placed: marks.map(({ xMm, yMm }, nth) => ({
      ...{ page: 1, place: nth + 1, nth, jar: 0, copy: 0, drawing: nth, xMm, yMm },
    })),
    drawings: marks.map(({ drawing }) => drawing),
  };
}

/** The family a run is set in, as the page's style sheets call it. */
export const FONT_FAMILIES: Readonly<Record<LabelFont, string>> = {
  archivo: 'Archivo',
  narrow: 'Archivo Narrow',
  arabic: 'Noto Sans Arabic',
  hebrew: 'Noto Sans Hebrew',
  emoji: 'Noto Emoji',
};

/** Waits until every letter of the drawings can be drawn in its own font: what is not in sight has not been fetched yet. */
export async function fontsFor(drawings: readonly LabelDrawing[]): Promise<void> {
  const wanted = new Map<string, Set<string>>();
  for (const { font, bold, text } of drawings.flatMap(({ texts }) => texts)) {
    const key = `${bold ? '700' : '400'} 10pt "${FONT_FAMILIES[font]}"`;
    const signs = wanted.get(key) ?? new Set<string>();
    for (const sign of text) signs.add(sign);
    wanted.set(key, signs);
  }
  await Promise.all([...wanted].map(([font, signs]) => document.fonts.load(font, [...signs].join(''))));
}
