import {
  layoutProblems,
  OwnLayout,
  type LabelLayout,
  type LabelShape,
  type LayoutMeasures,
} from '#core/labels/layout.ts';
import { lengthNumber, sayLayoutProblem, sayLength } from '../words/label-words.ts';
import { parseLength, type LengthUnit } from './parse-length.ts';

/** The form of a layout as typed. */
export interface LayoutFields {
  readonly name: string;
  readonly told: LengthUnit;
  readonly shape: LabelShape;
  readonly paper: LayoutMeasures['paper'];
  readonly pageWidthMm: string;
  readonly pageHeightMm: string;
  readonly labelWidthMm: string;
  readonly labelHeightMm: string;
  readonly columns: string;
  readonly rows: string;
  readonly leftMm: string;
  readonly topMm: string;
  readonly gapAcrossMm: string;
  readonly gapDownMm: string;
  readonly cutLines: boolean;
  readonly roll: boolean;
}

export const LENGTHS = [
  'pageWidthMm',
  'pageHeightMm',
  'labelWidthMm',
  'labelHeightMm',
  'leftMm',
  'topMm',
  'gapAcrossMm',
  'gapDownMm',
] as const;
export type LengthField = (typeof LENGTHS)[number];
export type LayoutField = LengthField | 'name' | 'columns' | 'rows';

/** Papers of a known size, mm (ISO 216 for A4; US Letter is 8½ × 11 in). */
export const PAPER_SIZES: Readonly<
  Record<Exclude<LayoutMeasures['paper'], 'own'>, readonly [width: number, height: number]>
> = {
  a4: [210, 297],
  a4Landscape: [297, 210],
  letter: [215.9, 279.4],
  letterLandscape: [279.4, 215.9],
};

/** The bounds of the contract, said again here so that the sentence can name them. */
const BOUNDS: Readonly<Record<LengthField, readonly [low: number, high: number]>> = {
  pageWidthMm: [15, 450],
  pageHeightMm: [10, 450],
  labelWidthMm: [10, 450],
  labelHeightMm: [8, 450],
  leftMm: [0, 200],
  topMm: [0, 200],
  gapAcrossMm: [0, 100],
  gapDownMm: [0, 100],
};
const COUNTS = { columns: 40, rows: 80 } as const;

/** A layout's measures as a form shows them. */
export function fieldsOf(layout: LabelLayout, name: string): LayoutFields {
  const { told, shape, paper, columns, rows, cutLines, roll } = layout;
  const lengths = Object.fromEntries(
    LENGTHS.map((field) => [field, lengthNumber(layout[field], told)]),
  ) as Record<LengthField, string>;
  return {
    name,
    told,
    shape,
    paper,
    ...lengths,
    columns: String(columns),
    rows: String(rows),
    cutLines,
    roll,
  };
}

/** The same lengths told in the other unit; what cannot be read stays as it was typed. */
export function retold(fields: LayoutFields, told: LengthUnit): LayoutFields {
  const lengths = Object.fromEntries(
    LENGTHS.map((field) => {
      const read = parseLength(fields[field], fields.told);
      return [field, read.ok ? lengthNumber(read.mm, told) : fields[field]];
    }),
  ) as Record<LengthField, string>;
  return { ...fields, ...lengths, told };
}

export type BuiltLayout =
  | { readonly ok: true; readonly layout: OwnLayout }
  | { readonly ok: false; readonly problems: Readonly<Partial<Record<LayoutField, string>>> };

/** Reads the form; every problem has a sentence that says how to mend it. */
export function buildLayout(fields: LayoutFields, key: string): BuiltLayout {
  const { told } = fields;
  const problems: Partial<Record<LayoutField, string>> = {};
  const name = fields.name.trim();
  if (name === '') problems.name = 'Give it a name, so that you find it again.';
  else if (name.length > 60)
    problems.name = `This is ${String(name.length)} characters long; at most 60 fit.`;

  const lengths: Partial<Record<LengthField, number>> = {};
  const known = fields.paper === 'own' ? null : PAPER_SIZES[fields.paper];
  for (const field of LENGTHS) {
    const fixed = field === 'pageWidthMm' ? known?.[0] : field === 'pageHeightMm' ? known?.[1] : undefined;
    const read = fixed === undefined ? parseLength(fields[field], told) : ({ ok: true, mm: fixed } as const);
    const [low, high] = BOUNDS[field];
    if (!read.ok)
      problems[field] =
        read.why === 'empty'
          ? `Type a length in ${told}.`
          : `Type a length, such as ${told === 'mm' ? '63.5' : '2 5/8'}.`;
    else if (read.mm < low || read.mm > high)
      problems[field] = `From ${sayLength(low, told)} to ${sayLength(high, told)}.`;
    else lengths[field] = read.mm;
  }
  const counts: Partial<Record<'columns' | 'rows', number>> = {};
  for (const field of ['columns', 'rows'] as const) {
    const count = /^\d{1,3}$/u.test(fields[field].trim()) ? Number(fields[field].trim()) : 0;
    if (count < 1 || count > COUNTS[field])
      problems[field] = `Type a whole number from 1 to ${String(COUNTS[field])}.`;
    else counts[field] = count;
  }

  const whole = { ...fields, ...lengths, ...counts, name, key };
  const layout = Object.keys(problems).length === 0 ? OwnLayout.safeParse(whole) : null;
  if (layout === null) return { ok: false, problems };
  if (!layout.success) return { ok: false, problems: { name: 'This layout cannot be kept as it is.' } };
  for (const problem of layoutProblems(layout.data)) {
    problems[problem.field] ??= sayLayoutProblem(problem, told);
  }
  return Object.keys(problems).length === 0 ? { ok: true, layout: layout.data } : { ok: false, problems };
}
