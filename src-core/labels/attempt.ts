import type { LabelDrawing } from './drawing.ts';
import type { Fitted } from './fit-text.ts';
import type { LabelContent } from './label-content.ts';
import { LABEL_PARTS, type LabelPart } from './label-part.ts';
import type { Typesetter } from './typesetter.ts';

/** The dark and light modules of a code, row by row as `1` and `0`, without the quiet zone. Handed in: a library makes them. */
export type MakeCode = (text: string) => readonly string[];

export interface LabelTools {
  readonly type: Typesetter;
  readonly makeCode: MakeCode;
}

/** What a way of composing comes to, before it is told in notes. */
export interface Attempt {
  readonly drawing: LabelDrawing;
  readonly smallestPt: number;
  readonly code: { readonly modules: number; readonly moduleMm: number } | null;
  readonly printed: ReadonlySet<LabelPart>;
  /** What always prints and has no room. */
  readonly homeless: readonly LabelPart[];
  readonly given: readonly {
    readonly part: LabelPart;
    readonly narrowed: boolean;
    readonly smallerPt: number | null;
    readonly cut: boolean;
  }[];
  readonly missing: readonly string[];
}

/** The parts a content has, in the order of what matters most. */
export function partsOf(content: LabelContent): readonly LabelPart[] {
  const has = new Set<LabelPart>(['name', 'id', ...content.rows.map(({ part }) => part)]);
  if (content.cautions.length > 0) has.add('caution');
  if (content.what.length > 0) has.add('what');
  if (content.withCode) has.add('code');
  if (content.freeLine !== '') has.add('freeLine');
  if (content.blankLines > 0) has.add('blankLines');
  return LABEL_PARTS.filter((part) => has.has(part));
}

/** What had to give of the parts that are shown, and the characters no font has. */
export function givenOf(
  shown: readonly { readonly part: LabelPart; readonly fits: readonly Fitted[] }[],
): Pick<Attempt, 'given' | 'missing'> {
  const all = shown.flatMap(({ part, fits }) => fits.map((fit) => ({ part, fit })));
  return {
    missing: all.flatMap(({ fit }) => fit.missing),
    given: all.flatMap(({ part, fit }) => {
      const { narrowed, cut } = fit;
      const smallerPt = fit.madeSmaller ? (fit.lines[0]?.sizePt ?? null) : null;
      return cut || narrowed || smallerPt !== null ? [{ part, narrowed, smallerPt, cut }] : [];
    }),
  };
}
