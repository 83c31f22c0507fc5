import { partsOf, type Attempt, type LabelTools } from './attempt.ts';
import { composeInDisc } from './compose-in-disc.ts';
import { composeInRectangle } from './compose-in-rectangle.ts';
import type { LabelDrawing } from './drawing.ts';
import type { LabelContent } from './label-content.ts';
import type { LabelNote, LabelPart } from './label-part.ts';
import type { LabelLayout } from './layout.ts';

/** A label as it prints, and what there is to say of it. */
export interface ComposedLabel {
  readonly drawing: LabelDrawing;
  readonly notes: readonly LabelNote[];
  readonly smallestPt: number;
  readonly code: { readonly modules: number; readonly moduleMm: number } | null;
}

/**
 * Composes one label on one layout. What has no room is left off from the end of the order of parts, and told; name, caution,
 * started and id are never left off, and where one of them has no room the label is told not to fit.
 */
export function composeLabel(content: LabelContent, layout: LabelLayout, tools: LabelTools): ComposedLabel {
  const attempt =
    layout.shape === 'round'
      ? composeInDisc(content, layout, tools)
      : composeInRectangle(content, layout, tools);
  const { drawing, smallestPt, code } = attempt;
  return { drawing, smallestPt, code, notes: notesOf(attempt, partsOf(content)) };
}

function notesOf({ printed, homeless, given, missing }: Attempt, wanted: readonly LabelPart[]): LabelNote[] {
  const notes: LabelNote[] = [];
  if (homeless.length > 0) notes.push({ type: 'doesNotFit', parts: [...homeless] });
  const leftOff = wanted.filter((part) => !printed.has(part) && !homeless.includes(part));
  if (leftOff.length > 0) notes.push({ type: 'leftOff', parts: leftOff });
  for (const { part, narrowed, smallerPt, cut } of given) {
    if (cut) notes.push({ type: 'cut', part });
    else if (smallerPt !== null) notes.push({ type: 'madeSmaller', part, sizePt: smallerPt });
    else if (narrowed) notes.push({ type: 'narrowed', part });
  }
  if (missing.length > 0) {
    notes.push({
      type: 'willNotPrint',
      count: missing.length,
      characters: [...new Set(missing)].slice(0, 40),
    });
  }
  return notes;
}
