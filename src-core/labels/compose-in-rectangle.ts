import { givenOf, partsOf, type Attempt, type LabelTools } from './attempt.ts';
import { cautionBox, drawCaution } from './caution-box.ts';
import { codeBlock, GAP_MM, idBlock } from './code-block.ts';
import { newInk } from './ink.ts';
import {
  besideStarted,
  blankLinesBlock,
  freeLineBlock,
  rowBlock,
  wordColumnMm,
  type LabelBlock,
} from './label-block.ts';
import type { LabelContent } from './label-content.ts';
import { headBlock } from './label-head.ts';
import { ALWAYS_PRINTED, LABEL_PARTS, type LabelPart } from './label-part.ts';
import { labelRoom, type LabelRoom } from './label-room.ts';
import type { LabelLayout } from './layout.ts';
import { mannersFor, type Manner } from './manner.ts';

/** What is wider than this is laid out in two columns: what must be seen at the left, what is read at length at the right. */
const TWO_COLUMNS_FROM_MM = 120;
const BETWEEN_COLUMNS_MM = 3;
const FIRST_COLUMN_MOST_MM = 110;

/** Told at length: in the second column where there is one. */
const LONG_PARTS: ReadonlySet<LabelPart> = new Set([
  ...(['ingredients', 'allergens', 'from', 'bestKept', 'freeLine', 'blankLines'] as const),
]);

/** Composes a label with straight sides: rectangles, tags, wraps, strips. The first manner that loses least is taken. */
export function composeInRectangle(content: LabelContent, layout: LabelLayout, tools: LabelTools): Attempt {
  const room = labelRoom(layout);
  let best: Plan | null = null;
  for (const manner of mannersFor(room, layout, content.withCode)) {
    const plan = planned(content, room, manner, tools);
    const gains = best === null ? -1 : gainedRank(plan, best);
    // Cautions are said in fewer words only for what leads to the book, or matters more; no ingredients are won with them.
    const worthIt = manner.briefly && best?.briefly === false ? CODE_RANK : Infinity;
    if (gains !== null && gains <= worthIt) best = plan;
    if (best?.lost.length === 0) break;
  }
  if (best === null) throw new Error('no manner of composing was tried');
  return best.draw();
}

const CODE_RANK = LABEL_PARTS.indexOf('code');

interface Plan {
  /** Ranks of the parts that have no room, ascending; -1 stands first when something that always prints has none. */
  readonly lost: readonly number[];
  readonly briefly: boolean;
  draw(): Attempt;
}

/** The rank of what one plan keeps and the other loses, when losing what it loses instead is better; null when it is not. */
function gainedRank({ lost: mine }: Plan, { lost: other }: Plan): number | null {
  for (let at = 0; at < Math.max(mine.length, other.length); at += 1) {
    const [a = Infinity, b = Infinity] = [mine[at], other[at]];
    if (a !== b) return a > b ? b : null;
  }
  return null;
}

function planned(content: LabelContent, room: LabelRoom, manner: Manner, tools: LabelTools): Plan {
  const { type } = tools;
  const code = codeBlock(content, manner, room, tools);
  const shape = columnsOf(room, manner, code?.takenMm ?? 0);
  const { firstMm, rowsMm, secondMm } = shape;
  const head = headBlock(content, firstMm, manner, tools);
  const cautions = manner.briefly ? content.cautionsBriefly : content.cautions;
  const boxed = (widthMm: number) => cautionBox(type, cautions, widthMm, manner);
  // Beside a code it is narrower than the label, unless it has room below the code.
  const whole = manner.code === 'beside' && secondMm === 0 ? boxed(room.widthMm) : null;
  const isUnderCode =
    whole !== null && whole.fits && (code?.heightMm ?? 0) + GAP_MM + whole.heightMm <= room.heightMm;
  const cautionWidthMm = isUnderCode ? room.widthMm : secondMm > 0 ? secondMm : shape.allMm;
  const caution = cautions.length === 0 ? null : isUnderCode ? whole : boxed(cautionWidthMm);
  const cautionMm = caution === null ? 0 : caution.heightMm + (secondMm > 0 ? 2 : 1) * GAP_MM;
  const isSecond = (part: LabelPart): boolean => secondMm > 0 && LONG_PARTS.has(part);
  const ownId = code === null ? idBlock(content, rowsMm, manner, tools) : null;
  const widthOf = (part: LabelPart): number => {
    if (isSecond(part)) return secondMm;
    return part === 'started' || part === 'batchStarted' ? rowsMm - (ownId?.besideMm ?? 0) : rowsMm;
  };
  const blocks = blocksOf(content, manner, widthOf, rowsMm, tools);

  const stackMm = (parts: ReadonlySet<LabelPart>, second: boolean): number =>
    blocks.reduce(
      (sum, { part, heightMm }) => sum + (parts.has(part) && isSecond(part) === second ? heightMm : 0),
      0,
    );
  const fits = (parts: ReadonlySet<LabelPart>): boolean => {
    const rows = stackMm(parts, false) + (ownId?.heightMm ?? 0);
    const middle = manner.code === 'under' ? Math.max(rows, code?.underHeadMm ?? 0) : rows;
    const first = head.heightMm(parts) + middle + (secondMm > 0 ? 0 : cautionMm);
    const second = secondMm > 0 ? stackMm(parts, true) + cautionMm : 0;
    const beside = manner.code === 'beside' ? (code?.heightMm ?? 0) : 0;
    return Math.max(first, second, beside) <= room.heightMm + 1e-9;
  };

  const wanted = partsOf(content);
  // What may not be cut and has no room in its line has no block.
  const hasBlock = (part: LabelPart): boolean =>
    HEAD_AND_FOOT.has(part) || blocks.some((block) => block.part === part);
  const kept = new Set<LabelPart>(wanted.filter((part) => ALWAYS.has(part)));
  const holds =
    [...kept].every(hasBlock) &&
    fits(kept) &&
    (caution?.fits ?? true) &&
    !(code?.idCut ?? ownId?.cut ?? false);
  if (code !== null) kept.add('code');
  const holdsCode = holds && fits(kept);
  for (const part of wanted) {
    if (kept.has(part) || part === 'code' || !hasBlock(part)) continue;
    kept.add(part);
    if (!fits(kept)) kept.delete(part);
  }
  const lost = wanted.filter((part) => !kept.has(part) || (part === 'name' && head.nameCut));
  const ranks = lost.map((part) => LABEL_PARTS.indexOf(part));

  return {
    lost: holdsCode ? ranks : [-1, ...ranks],
    briefly: manner.briefly,
    draw() {
      const ink = newInk();
      const { xMm: left, yMm: top } = room;
      head.draw(ink, left, top, kept);
      let y = top + head.heightMm(kept);
      code?.draw(
        ink,
        manner.code === 'beside' ? top : y - GAP_MM,
        left + (manner.code === 'beside' ? room.widthMm : firstMm),
      );
      if (ownId !== null) {
        ownId.draw(ink, left, y);
        y += ownId.heightMm;
      }
      const secondX = left + firstMm + BETWEEN_COLUMNS_MM;
      let secondY = top + (secondMm > 0 ? cautionMm : 0);
      if (caution !== null) {
        const at =
          secondMm > 0 ? { x: secondX, y: top } : { x: left, y: top + room.heightMm - caution.heightMm };
        drawCaution(ink, caution, at.x, at.y, cautionWidthMm);
      }
      for (const block of blocks) {
        if (!kept.has(block.part)) continue;
        if (isSecond(block.part)) {
          block.draw(ink, secondX, secondY);
          secondY += block.heightMm;
        } else {
          block.draw(ink, left, y);
          y += block.heightMm;
        }
      }
      const shown = [...head.blocks, ...blocks].filter(({ part }) => kept.has(part));
      return {
        ...{ drawing: ink.drawing, smallestPt: ink.smallestPt(), printed: kept, ...givenOf(shown) },
        code: code === null ? null : { modules: code.modules, moduleMm: code.moduleMm },
        homeless: holds
          ? []
          : content.cautions.length > 0
            ? ['caution']
            : wanted.filter((part) => ALWAYS.has(part)),
      };
    },
  };
}

/** Parts that stand in the head, in the frame at the foot, or with the code. */
const HEAD_AND_FOOT: ReadonlySet<LabelPart> = new Set(['name', 'caution', 'what', 'id', 'code']);

const ALWAYS: ReadonlySet<LabelPart> = new Set(ALWAYS_PRINTED);

/** Widths, mm: of everything but a code that stands beside it, of the first column and its rows, and of the second (0: none). */
function columnsOf(room: LabelRoom, { code }: Manner, codeMm: number) {
  const allMm = room.widthMm - (code === 'beside' ? codeMm : 0);
  const two = room.widthMm >= TWO_COLUMNS_FROM_MM;
  const firstMm = two ? Math.min(allMm / 2, FIRST_COLUMN_MOST_MM) : allMm;
  return {
    ...{ allMm, firstMm, rowsMm: firstMm - (code === 'under' ? codeMm : 0) },
    secondMm: two ? allMm - firstMm - BETWEEN_COLUMNS_MM : 0,
  };
}

/** Everything under the head, what matters most first. */
function blocksOf(
  content: LabelContent,
  sizes: Manner,
  widthOf: (part: LabelPart) => number,
  rowsMm: number,
  { type }: LabelTools,
): readonly LabelBlock[] {
  const wordMm = wordColumnMm(type, content.rows, sizes.rowPt);
  const started = content.rows.find(({ part }) => part === 'started');
  const rows = content.rows.flatMap((row) => {
    const column = { widthMm: widthOf(row.part), wordMm };
    const beside =
      row.part === 'batchStarted' && started !== undefined
        ? besideStarted(type, started, row, column, sizes)
        : null;
    const alone = row.part === 'batchStarted' ? { ...column, widthMm: rowsMm } : column;
    return beside ?? rowBlock(type, row, alone, sizes) ?? [];
  });
  const { freeLine, blankLines } = content;
  return [
    ...rows,
    ...(freeLine === '' ? [] : [freeLineBlock(type, freeLine, widthOf('freeLine'), sizes.rowPt)]),
    ...(blankLines === 0 ? [] : [blankLinesBlock(blankLines, widthOf('blankLines'))]),
  ];
}
