import type { LabelTools } from './attempt.ts';
import { GAP_MM } from './code-block.ts';
import { fitText, type Fitted } from './fit-text.ts';
import { RULE_MM, type Ink } from './ink.ts';
import { SMALLEST_PT } from './label-block.ts';
import type { LabelContent } from './label-content.ts';
import type { LabelPart } from './label-part.ts';
import type { Manner } from './manner.ts';
import { fitWithin, heightOf, setLines } from './set-lines.ts';
import { drawMark, MARK_GAP_MM } from './stage-mark.ts';
import type { Typesetter } from './typesetter.ts';

/** Mark, name, what it is, and the rule under them. A name read from right to left has the mark at its right. */
export function headBlock(content: LabelContent, widthMm: number, manner: Manner, { type }: LabelTools) {
  const { stage } = content;
  const markMm = stage === null ? 0 : manner.markMm;
  const indent = markMm === 0 ? 0 : markMm + MARK_GAP_MM;
  const room = widthMm - indent;
  const name = fitWithin(type, content.name, room, true, manner.namePt, manner.nameLines);
  const what =
    content.what.length === 0 ? null : fitShorter(type, content.what, room, [manner.rowPt, SMALLEST_PT]);
  const mirrored = name.lines[0]?.set.rightToLeft === true;
  const wordsMm = (parts: ReadonlySet<LabelPart>): number =>
    heightOf(name) + (what !== null && parts.has('what') ? heightOf(what) : 0);
  const ruleAt = (parts: ReadonlySet<LabelPart>): number => Math.max(wordsMm(parts), markMm) + GAP_MM;
  return {
    blocks: [
      { part: 'name' as const, fits: [name] },
      { part: 'what' as const, fits: what === null ? [] : [what] },
    ],
    nameCut: name.cut,
    heightMm: (parts: ReadonlySet<LabelPart>): number => ruleAt(parts) + RULE_MM + GAP_MM,
    draw(ink: Ink, xMm: number, topMm: number, parts: ReadonlySet<LabelPart>): void {
      const markX = mirrored ? xMm + widthMm - markMm : xMm;
      if (markMm > 0 && stage !== null) {
        drawMark(ink, type, stage, { xMm: markX, yMm: topMm, sizeMm: markMm });
      }
      const wordsX = mirrored ? xMm : xMm + indent;
      const align = mirrored ? 'right' : 'left';
      // Beside a mark that is higher than the words they stand at its middle.
      const from = topMm + Math.max(0, markMm - wordsMm(parts)) / 2;
      const under = setLines(ink, name, wordsX, from, room, align);
      if (what !== null && parts.has('what')) setLines(ink, what, wordsX, under, room, align);
      const y = topMm + ruleAt(parts) + RULE_MM / 2;
      ink.rule({ x1Mm: xMm, y1Mm: y, x2Mm: xMm + widthMm, y2Mm: y });
    },
  };
}

/** The first of several ways to say the same, the longest first, that has room on one line; else the last is cut. */
export function fitShorter(
  type: Typesetter,
  said: readonly string[],
  roomMm: number,
  sizesPt: readonly number[],
): Fitted {
  const give = { bold: false, sizesPt, linesMax: 1, mayCut: false };
  for (const [at, text] of said.entries()) {
    const fit = fitText(type, text, [Math.max(0, roomMm)], give);
    if (fit !== null) return at === 0 ? fit : { ...fit, cut: true };
  }
  return { ...fitWithin(type, said.at(-1) ?? '', roomMm, false, sizesPt, 1), cut: true };
}
