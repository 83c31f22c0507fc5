import { givenOf, partsOf, type Attempt, type LabelTools } from './attempt.ts';
import { fitText, type Fitted } from './fit-text.ts';
import { lineMm, newInk, RULE_MM } from './ink.ts';
import { QUIET_MODULES } from './label-code.ts';
import { CAUTION_LEAST_PT } from './manner.ts';
import { dotsMm, nearestDots } from './printer-dots.ts';
import type { LabelContent } from './label-content.ts';
import { ALWAYS_PRINTED, type LabelPart } from './label-part.ts';
import { labelRoom } from './label-room.ts';
import type { LabelLayout } from './layout.ts';
import { drawMark } from './stage-mark.ts';
import type { Typesetter } from './typesetter.ts';

/** Whole dots of the printer (design, section 5.4: 0.42 mm on lids). */
const MODULE_MM = dotsMm(nearestDots(0.42));
const CAUTION_PT = [8.5, 8, CAUTION_LEAST_PT] as const;
/** The rule that parts the cautions from what stands over them. */
const CAUTION_RULE_MM = 0.5;
const MARK_MM = 7;
const GAP_MM = 0.6;
const ROW_PT = [7, 6.5] as const;
const NAME_PT = [12, 11, 10, 9] as const;
const ID_PT = [7, 6.5] as const;

/** One thing in the stack of a round label, from the top: text on one or more lines, the code, or a rule. */
type Layer =
  | {
      readonly kind: 'text';
      readonly part: LabelPart;
      /** What it says, and the same said shorter and shorter, for where it has no room. */
      readonly said: readonly string[];
      readonly bold: boolean;
      readonly sizesPt: readonly number[];
      readonly linesMax: number;
      readonly mayCut: boolean;
    }
  | { readonly kind: 'code'; readonly rows: readonly string[] }
  | { readonly kind: 'mark' }
  | { readonly kind: 'rule'; readonly weightMm: number };

interface Laid {
  readonly layer: Layer;
  readonly topMm: number;
  readonly heightMm: number;
  readonly fit: Fitted | null;
}

/**
 * Composes a round label, for a lid: lines one under another, each in the middle and as wide as the disc is at its height. Parts
 * are taken up in the order of what matters most, as long as the stack still fits.
 */
export function composeInDisc(content: LabelContent, layout: LabelLayout, tools: LabelTools): Attempt {
  const asLong = keptIn(content, layout, tools);
  const inShort = keptIn({ ...content, cautions: content.cautionsBriefly }, layout, tools);
  const order = discOrder(partsOf(content));
  const firstLost = ({ stack, kept }: KeptInDisc): number => {
    const at = stack === null ? -1 : order.findIndex((part) => !kept.has(part));
    return at === -1 && stack !== null ? Infinity : at;
  };
  const better = firstLost(inShort) > firstLost(asLong) ? inShort : asLong;
  return drawn(content, layout, tools, better);
}

/** The parts that have room in a disc, and how they stand there; null when what always prints has none. */
interface KeptInDisc {
  readonly stack: Stack | null;
  readonly kept: ReadonlySet<LabelPart>;
}

function keptIn(content: LabelContent, layout: LabelLayout, { type, makeCode }: LabelTools): KeptInDisc {
  const radius = radiusOf(layout);
  const rows = content.withCode ? makeCode(content.code) : [];
  const kept = new Set<LabelPart>(alwaysOf(content));
  const stackOf = (shown: Shown, fromMm: number): Stack | null =>
    stacked(layersOf(content, kept, rows, shown), radius, fromMm, type);
  let stack = stackOf(PLAIN, 0);
  if (stack === null) return { stack, kept };
  for (const part of discOrder(partsOf(content))) {
    if (kept.has(part)) continue;
    kept.add(part);
    const more: Stack | null = stackOf(PLAIN, stack.heightMm);
    // What may be left off does not cut the name short.
    if (more === null || (cutsName(more) && !cutsName(stack))) kept.delete(part);
    else stack = more;
  }
  for (const shown of ADORNED) {
    const adorned = stackOf({ ...shown, mark: shown.mark && content.stage !== null }, stack.heightMm);
    if (adorned === null || (cutsName(adorned) && !cutsName(stack))) continue;
    stack = adorned;
    break;
  }
  return { stack: inTheMiddle(stack, radius, type), kept };
}

/** What is for show alone: the mark of the stage, and a rule over the cautions. */
interface Shown {
  readonly mark: boolean;
  readonly rule: boolean;
}
const PLAIN: Shown = { mark: false, rule: false };
const ADORNED: readonly Shown[] = [
  { mark: true, rule: true },
  { mark: false, rule: true },
  { mark: true, rule: false },
];

function radiusOf(layout: LabelLayout): number {
  const room = labelRoom(layout);
  return Math.min(room.widthMm, room.heightMm) / 2;
}

function alwaysOf(content: LabelContent): readonly LabelPart[] {
  return partsOf(content).filter((part) => (ALWAYS_PRINTED as readonly LabelPart[]).includes(part));
}

function drawn(
  content: LabelContent,
  layout: LabelLayout,
  { type }: LabelTools,
  { stack, kept }: KeptInDisc,
): Attempt {
  const radius = radiusOf(layout);
  const ink = newInk();
  const middle = { x: layout.labelWidthMm / 2, y: layout.labelHeightMm / 2 };
  for (const { layer, topMm, heightMm, fit } of stack?.laid ?? []) {
    const top = middle.y + topMm;
    if (layer.kind === 'mark' && content.stage !== null) {
      drawMark(ink, type, content.stage, { xMm: middle.x - MARK_MM / 2, yMm: top, sizeMm: MARK_MM });
    } else if (layer.kind === 'rule') {
      const half = chord(radius, topMm, heightMm) / 2;
      const y = top + heightMm / 2;
      const { weightMm } = layer;
      ink.rule({ x1Mm: middle.x - half * 0.8, y1Mm: y, x2Mm: middle.x + half * 0.8, y2Mm: y, weightMm });
    } else if (layer.kind === 'code') {
      const side = layer.rows.length * MODULE_MM;
      const at = { xMm: middle.x - side / 2, yMm: top + QUIET_MODULES * MODULE_MM, moduleMm: MODULE_MM };
      ink.code({ text: content.code, ...at, rows: [...layer.rows] });
    } else if (layer.kind === 'text' && fit !== null) {
      let y = top;
      for (const line of fit.lines) {
        ink.line(line, { xMm: middle.x - radius, topMm: y, widthMm: 2 * radius }, 'middle');
        y += lineMm(line.sizePt);
      }
    }
  }
  const shown = (stack?.laid ?? []).flatMap(({ layer, fit }) =>
    layer.kind === 'text' && fit !== null ? [{ part: layer.part, fits: [fit] }] : [],
  );
  const { code } = ink.drawing;
  return {
    ...{ drawing: ink.drawing, smallestPt: ink.smallestPt(), printed: kept, ...givenOf(shown) },
    code: code === null ? null : { modules: code.rows.length, moduleMm: MODULE_MM },
    homeless: stack !== null ? [] : content.cautions.length > 0 ? ['caution'] : alwaysOf(content),
  };
}

function cutsName({ laid }: Stack): boolean {
  return laid.some(({ layer, fit }) => layer.kind === 'text' && layer.part === 'name' && fit?.cut === true);
}

/** On a lid the code comes before all that is told at length: it leads to the rest, and the lid has little room for it. */
function discOrder(parts: readonly LabelPart[]): readonly LabelPart[] {
  return parts.includes('code') ? ['code', ...parts.filter((part) => part !== 'code')] : parts;
}

/** What stands in the disc, from the top. */
function layersOf(
  content: LabelContent,
  parts: ReadonlySet<LabelPart>,
  code: readonly string[],
  { mark, rule }: Shown,
): readonly Layer[] {
  const text = (
    part: LabelPart,
    said: string | readonly string[],
    over: Partial<Extract<Layer, { kind: 'text' }>> = {},
  ): Layer[] =>
    parts.has(part) && said.length > 0
      ? [
          {
            ...{ kind: 'text', part, said: typeof said === 'string' ? [said] : said, bold: false },
            ...{ sizesPt: ROW_PT, linesMax: 1, mayCut: true, ...over },
          },
        ]
      : [];
  const started = content.rows.find(({ part }) => part === 'started');
  const others = content.rows.filter(({ part }) => part !== 'started');
  return [
    ...(mark ? [{ kind: 'mark' } as const] : []),
    ...text('name', content.name, { bold: true, sizesPt: NAME_PT, linesMax: 2 }),
    ...text('what', content.what),
    ...(started === undefined
      ? []
      : text('started', `${started.word} ${started.value}`, { bold: true, sizesPt: [9], mayCut: false })),
    ...others.flatMap(({ part, word, value, shorter, linesMax, mayCut }) => {
      const said = [value, ...shorter].map((one) => `${word} ${one}`);
      return text(part, said, { linesMax, mayCut: mayCut && shorter.length === 0 });
    }),
    { kind: 'rule', weightMm: RULE_MM },
    ...(parts.has('code') && code.length > 0 ? [{ kind: 'code', rows: code } as const] : []),
    ...text('id', content.id, { bold: true, sizesPt: ID_PT, mayCut: false }),
    ...(rule && content.cautions.length > 0 ? [{ kind: 'rule', weightMm: CAUTION_RULE_MM } as const] : []),
    ...text('caution', content.cautions.join(' '), {
      bold: true,
      sizesPt: CAUTION_PT,
      linesMax: 9,
      mayCut: false,
    }),
    ...text('freeLine', content.freeLine),
  ];
}

/** How wide the disc is over a band between two heights, both from its middle. */
export function chord(radius: number, topMm: number, heightMm: number): number {
  const farthest = Math.max(Math.abs(topMm), Math.abs(topMm + heightMm));
  return farthest >= radius ? 0 : 2 * Math.sqrt(radius ** 2 - farthest ** 2);
}

/** The height of the stack is looked for in steps of this. */
const STEP_MM = 2;
const HOPELESS_MM = 5;

/** A stack that fits, and the height it was laid out for. */
interface Stack {
  readonly laid: readonly Laid[];
  readonly heightMm: number;
}

/**
 * Lays the layers one under another about the middle. How many lines a text needs depends on where it stands, and that on how high
 * all are together: so greater and greater heights are tried, from one that fewer layers took. Null when none does.
 */
function stacked(layers: readonly Layer[], radius: number, fromMm: number, type: Typesetter): Stack | null {
  const least = layers.reduce((sum, layer) => sum + leastMm(layer), 0);
  for (let high = Math.max(least, fromMm); high <= 2 * radius;) {
    const laid = laidFrom(-high / 2, layers, radius, type);
    const last = laid?.at(-1);
    if (laid === null || last === undefined) {
      high += STEP_MM;
      continue;
    }
    const needs = last.topMm + last.heightMm + high / 2;
    // What is left over stands at the foot, where the disc would be narrower anyway.
    if (needs <= high + 1e-9) return { laid, heightMm: high };
    // So much too high, it will not become low enough by standing elsewhere.
    if (needs > 2 * radius + HOPELESS_MM) return null;
    high = Math.max(high + STEP_MM / 2, needs);
  }
  return null;
}

/** The same stack moved down to the middle of what it was laid out for, as far as every line still fits. */
function inTheMiddle(stack: Stack, radius: number, type: Typesetter): Stack {
  const first = stack.laid[0];
  const last = stack.laid.at(-1);
  if (first === undefined || last === undefined) return stack;
  const free = -first.topMm - (last.topMm + last.heightMm);
  for (const shift of [free / 2, free / 4, free / 8]) {
    const layers = stack.laid.map(({ layer }) => layer);
    const laid = laidFrom(first.topMm + shift, layers, radius, type);
    if (laid !== null) return { ...stack, laid };
  }
  return stack;
}

function laidFrom(
  topMm: number,
  layers: readonly Layer[],
  radius: number,
  type: Typesetter,
): readonly Laid[] | null {
  const laid: Laid[] = [];
  let y = topMm;
  for (const layer of layers) {
    const one = lay(layer, y, radius, type);
    if (one === null) return null;
    laid.push(one);
    y += one.heightMm;
  }
  return laid;
}

function leastMm(layer: Layer): number {
  if (layer.kind === 'rule') return RULE_MM + 2 * GAP_MM;
  if (layer.kind === 'mark') return MARK_MM + GAP_MM;
  // The quiet zone over and under the code belongs to it.
  if (layer.kind === 'code') return (layer.rows.length + 2 * QUIET_MODULES) * MODULE_MM;
  return lineMm(layer.sizesPt.at(-1) ?? 0);
}

function lay(layer: Layer, topMm: number, radius: number, type: Typesetter): Laid | null {
  const heightMm = leastMm(layer);
  if (layer.kind !== 'text') {
    const side = layer.kind === 'rule' ? 0 : layer.kind === 'mark' ? MARK_MM : heightMm;
    return chord(radius, topMm, heightMm) < side ? null : { layer, topMm, heightMm, fit: null };
  }
  const { sizesPt, linesMax, bold, mayCut, said } = layer;
  for (const [at, text] of said.entries()) {
    for (let lines = 1; lines <= linesMax; lines += 1) {
      for (const sizePt of sizesPt) {
        const high = lineMm(sizePt);
        const rooms = Array.from({ length: lines }, (_, nth) => chord(radius, topMm + nth * high, high));
        const last = at === said.length - 1 && lines === linesMax && sizePt === sizesPt.at(-1);
        const give = { bold, sizesPt: [sizePt], linesMax: lines, mayCut: mayCut && last };
        const fit = fitText(type, text, rooms, give);
        if (fit === null || fit.lines.some(({ widthMm }, nth) => widthMm > (rooms[nth] ?? 0) + 0.01))
          continue;
        const madeSmaller = sizePt < (sizesPt[0] ?? 0);
        return {
          ...{ layer, topMm, heightMm: fit.lines.length * high },
          fit: { ...fit, madeSmaller, cut: fit.cut || at > 0 },
        };
      }
    }
  }
  return null;
}
