import { givenOf, partsOf, type Attempt, type LabelTools } from './attempt.ts';
import { cautionBox, drawCaution, type Ease } from './caution-box.ts';
import type { Fitted } from './fit-text.ts';
import { CAPITALS, BASELINE, lineMm, newInk, RULE_MM } from './ink.ts';
import {
  besideStarted,
  blankLinesBlock,
  freeLineBlock,
  rowBlock,
  SMALLEST_PT,
  STARTED_PT,
  wordColumnMm,
  type LabelBlock,
} from './label-block.ts';
import { QUIET_MODULES } from './label-code.ts';
import type { LabelContent } from './label-content.ts';
import { ALWAYS_PRINTED, LABEL_PARTS, type LabelPart } from './label-part.ts';
import { labelRoom, type LabelRoom } from './label-room.ts';
import type { LabelLayout } from './layout.ts';
import { fitWithin, heightOf, setLines } from './set-lines.ts';
import { drawMark, MARK_GAP_MM } from './stage-mark.ts';
import { POINT_MM, type Typesetter } from './typesetter.ts';

/** How the same content may be laid out, from roomy to tight. */
interface Manner {
  readonly namePt: readonly number[];
  readonly nameLines: number;
  readonly rowPt: number;
  /** The mark of the stage; 0 where there is no room for show. */
  readonly markMm: number;
  readonly caution: Ease;
  /** Where the code stands: under the head beside the rows, beside all of it, or nowhere. */
  readonly code: 'under' | 'beside' | 'none';
}

const SIZES = [
  { namePt: [12.5, 11, 10, 9], nameLines: 2, rowPt: 7.5, markMm: 7.4, caution: 'generous' },
  { namePt: [12.5, 11, 10, 9], nameLines: 2, rowPt: 7.5, markMm: 7.4, caution: 'roomy' },
  { namePt: [10, 9], nameLines: 2, rowPt: 7, markMm: 7, caution: 'roomy' },
  { namePt: [9], nameLines: 1, rowPt: SMALLEST_PT, markMm: 0, caution: 'tight' },
] as const;

const ID_PT = 7;
const GAP_MM = 0.6;
const MODULE_MM = 0.45;
const TAG_MODULE_MM = 0.52;
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
  const codes = content.withCode ? (['under', 'beside', 'none'] as const) : (['none'] as const);
  let best: Plan | null = null;
  for (const size of SIZES) {
    for (const code of codes) {
      const plan = planned(content, layout, { ...size, code }, tools);
      if (best === null || losesLess(plan, best)) best = plan;
      if (plan.lost.length === 0) return plan.draw();
    }
  }
  if (best === null) throw new Error('no manner of composing was tried');
  return best.draw();
}

interface Plan {
  /** Ranks of the parts that have no room, ascending; -1 stands first when something that always prints has none. */
  readonly lost: readonly number[];
  draw(): Attempt;
}

/** Losing what matters less is better; losing nothing more is best. */
function losesLess({ lost: mine }: Plan, { lost: other }: Plan): boolean {
  for (let at = 0; at < Math.max(mine.length, other.length); at += 1) {
    const [a = Infinity, b = Infinity] = [mine[at], other[at]];
    if (a !== b) return a > b;
  }
  return false;
}

function planned(content: LabelContent, layout: LabelLayout, manner: Manner, tools: LabelTools): Plan {
  const { type } = tools;
  const room = labelRoom(layout);
  const code = codeBlock(content, layout, manner, room, tools);
  const shape = columnsOf(room, manner, code?.takenMm ?? 0);
  const { firstMm, rowsMm, secondMm } = shape;
  const head = headBlock(content, firstMm, manner, tools);
  const caution =
    content.cautions.length === 0
      ? null
      : cautionBox(type, content.cautions, secondMm > 0 ? secondMm : shape.allMm, manner.caution);
  const cautionMm = caution === null ? 0 : caution.heightMm + GAP_MM;
  const isSecond = (part: LabelPart): boolean => secondMm > 0 && LONG_PARTS.has(part);
  const ownId = code === null ? idBlock(content, rowsMm, manner.rowPt, tools) : null;
  const widthOf = (part: LabelPart): number => {
    if (isSecond(part)) return secondMm;
    return part === 'started' || part === 'batchStarted' ? rowsMm - (ownId?.besideMm ?? 0) : rowsMm;
  };
  const blocks = blocksOf(content, manner.rowPt, widthOf, rowsMm, tools);

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
  const lost = wanted.filter((part) => !kept.has(part)).map((part) => LABEL_PARTS.indexOf(part));

  return {
    lost: holdsCode ? lost : [-1, ...lost],
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
        drawCaution(ink, caution, at.x, at.y, secondMm > 0 ? secondMm : shape.allMm);
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

/** The square with the id under it: its quiet zone of four modules is kept free on every side. */
function codeBlock(
  content: LabelContent,
  layout: LabelLayout,
  manner: Manner,
  room: LabelRoom,
  { type, makeCode }: LabelTools,
) {
  if (manner.code === 'none') return null;
  const rows = makeCode(content.code);
  const moduleMm = layout.shape === 'tag' ? TAG_MODULE_MM : MODULE_MM;
  const sideMm = rows.length * moduleMm;
  const quietMm = QUIET_MODULES * moduleMm;
  const idMm = fitWithin(type, content.id, Infinity, true, [ID_PT], 1).lines[0]?.widthMm ?? 0;
  const widthMm = Math.max(sideMm, Math.min(idMm, room.widthMm / 3));
  const id = fitWithin(type, content.id, widthMm, true, [ID_PT, SMALLEST_PT], 1);
  // What is free within a line above its capitals belongs to the quiet zone.
  const above = (BASELINE - CAPITALS) * ID_PT * POINT_MM;
  const heightMm = sideMm + quietMm - above + lineMm(ID_PT);
  return {
    ...{ moduleMm, modules: rows.length, heightMm, takenMm: widthMm + quietMm, idCut: id.cut },
    // Over it the quiet zone reaches up to the rule under the head.
    underHeadMm: heightMm + quietMm - GAP_MM,
    draw(ink: ReturnType<typeof newInk>, topMm: number, rightMm: number): void {
      const yMm = topMm + (manner.code === 'beside' ? 0 : quietMm);
      ink.code({
        text: content.code,
        xMm: rightMm - widthMm / 2 - sideMm / 2,
        yMm,
        moduleMm,
        rows: [...rows],
      });
      setLines(ink, id, rightMm - widthMm, yMm + sideMm + quietMm - above, widthMm, 'middle');
    },
  };
}

/** Mark, name, what it is, and the rule under them. */
function headBlock(content: LabelContent, widthMm: number, manner: Manner, { type }: LabelTools) {
  const { stage } = content;
  const markMm = stage === null ? 0 : manner.markMm;
  const indent = markMm === 0 ? 0 : markMm + MARK_GAP_MM;
  const room = widthMm - indent;
  const name = fitWithin(type, content.name, room, true, manner.namePt, manner.nameLines);
  const what = content.what === '' ? null : fitWhat(content, room, [manner.rowPt, SMALLEST_PT], type);
  const wordsMm = (parts: ReadonlySet<LabelPart>): number =>
    heightOf(name) + (what !== null && parts.has('what') ? heightOf(what) : 0);
  const ruleAt = (parts: ReadonlySet<LabelPart>): number => Math.max(wordsMm(parts), markMm) + GAP_MM;
  return {
    blocks: [
      { part: 'name' as const, fits: [name] },
      { part: 'what' as const, fits: what === null ? [] : [what] },
    ],
    heightMm: (parts: ReadonlySet<LabelPart>): number => ruleAt(parts) + RULE_MM + GAP_MM,
    draw(ink: ReturnType<typeof newInk>, xMm: number, topMm: number, parts: ReadonlySet<LabelPart>): void {
      if (markMm > 0 && stage !== null) drawMark(ink, type, stage, { xMm, yMm: topMm, sizeMm: markMm });
      const under = setLines(ink, name, xMm + indent, topMm, room);
      if (what !== null && parts.has('what')) setLines(ink, what, xMm + indent, under, room);
      const y = topMm + ruleAt(parts) + RULE_MM / 2;
      ink.rule({ x1Mm: xMm, y1Mm: y, x2Mm: xMm + widthMm, y2Mm: y });
    },
  };
}

/** What it is, whole, or without the vessel, or cut. */
function fitWhat(
  content: LabelContent,
  roomMm: number,
  sizesPt: readonly number[],
  type: Typesetter,
): Fitted {
  const whole = fitWithin(type, content.what, roomMm, false, sizesPt, 1);
  return whole.cut
    ? { ...fitWithin(type, content.whatShorter, roomMm, false, sizesPt, 1), cut: true }
    : whole;
}

/** The id where there is no code: at the end of the line of the day it was started, or on a line of its own. */
function idBlock(content: LabelContent, widthMm: number, rowPt: number, { type }: LabelTools) {
  const fit = fitWithin(type, content.id, widthMm, true, [ID_PT, SMALLEST_PT], 1);
  const besideMm = (fit.lines[0]?.widthMm ?? 0) + GAP_MM * 2;
  const started = content.rows.find(({ part }) => part === 'started');
  const wordMm = wordColumnMm(type, content.rows, rowPt);
  const isBeside =
    started !== undefined && rowBlock(type, started, { widthMm: widthMm - besideMm, wordMm }, rowPt) !== null;
  const lower = (STARTED_PT - ID_PT) * POINT_MM * BASELINE;
  return {
    ...{ heightMm: isBeside ? 0 : heightOf(fit), besideMm: isBeside ? besideMm : 0, cut: fit.cut },
    draw: (ink: ReturnType<typeof newInk>, xMm: number, topMm: number): void => {
      setLines(ink, fit, xMm, topMm + (isBeside ? lower : 0), widthMm, isBeside ? 'right' : 'start');
    },
  };
}

/** Everything under the head, what matters most first. */
function blocksOf(
  content: LabelContent,
  rowPt: number,
  widthOf: (part: LabelPart) => number,
  rowsMm: number,
  { type }: LabelTools,
): readonly LabelBlock[] {
  const wordMm = wordColumnMm(type, content.rows, rowPt);
  const started = content.rows.find(({ part }) => part === 'started');
  const rows = content.rows.flatMap((row) => {
    const column = { widthMm: widthOf(row.part), wordMm };
    const beside =
      row.part === 'batchStarted' && started !== undefined ? besideStarted(type, started, row, column) : null;
    const alone = row.part === 'batchStarted' ? { ...column, widthMm: rowsMm } : column;
    return beside ?? rowBlock(type, row, alone, rowPt) ?? [];
  });
  return [
    ...rows,
    ...(content.freeLine === '' ? [] : [freeLineBlock(type, content.freeLine, widthOf('freeLine'), rowPt)]),
    ...(content.blankLines === 0 ? [] : [blankLinesBlock(content.blankLines, widthOf('blankLines'))]),
  ];
}
