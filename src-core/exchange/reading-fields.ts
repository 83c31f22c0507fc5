import {
  ACIDITY_METHODS,
  ACIDS,
  GRAVITY_INSTRUMENTS,
  PH_METHODS,
  ReadingDetail,
  type ReadingValues,
} from '../ledger/act.ts';
import type { QuantityKind } from '../quantities/understood.ts';
import { headingOf } from './table-columns.ts';

/** What a column of a table that comes in can be. */
export const READING_FIELDS = [
  ...(['when', 'time', 'vessel', 'batch'] as const),
  ...(['gravity', 'temperature', 'ph', 'acidity', 'volume', 'freeSulfite', 'alcohol', 'salt'] as const),
  ...(['totalSulfite', 'taste', 'acidityAs', 'acidityMethod', 'acidityUncertainty'] as const),
  ...(['gravityInstrument', 'gravityCalibration', 'phMethod', 'detail'] as const),
] as const;
export type ReadingField = (typeof READING_FIELDS)[number];

type Flat = Exclude<keyof ReadingValues, 'detail'>;

/** How the cells of a field are read, and where what they say is kept. */
export type FieldForm =
  | { readonly as: 'moment' | 'name' | 'text' | 'json' }
  | {
      readonly as: 'quantity';
      readonly kind: QuantityKind;
      readonly into: Flat | 'saltPercent' | 'totalSulfiteMgPerL';
      /** Units a whole column may have. */
      readonly units: readonly string[];
      /** A bare number says nothing without a unit, and which one is never guessed. */
      readonly unitNeeded: boolean;
    }
  | { readonly as: 'choice'; readonly into: Flat; readonly choices: readonly string[] };

export const FIELD_FORMS: Readonly<Record<ReadingField, FieldForm>> = {
  when: { as: 'moment' },
  time: { as: 'moment' },
  vessel: { as: 'name' },
  batch: { as: 'name' },
  gravity: quantity('gravity', 'gravitySg', ['SG', '°Bx', '°P', 'pts']),
  temperature: { ...quantity('temperature', 'temperatureCelsius', ['°C', '°F']), unitNeeded: true },
  ph: quantity('pH', 'ph', []),
  acidity: { ...quantity('acidity', 'acidityGramsPer100Ml', ['%', 'g/L', 'g/100 mL']), unitNeeded: true },
  volume: {
    ...quantity('volume', 'volumeUl', ['L', 'ml', 'cl', 'µL', 'gal', 'qt', 'imp gal', 'imp pt']),
    unitNeeded: true,
  },
  freeSulfite: quantity('freeSulfite', 'freeSulfiteMgPerL', ['mg/L', 'g/L']),
  alcohol: quantity('alcohol', 'alcoholPercentVolume', ['% vol', 'proof']),
  salt: quantity('salt', 'saltPercent', ['%', 'g/kg']),
  totalSulfite: quantity('freeSulfite', 'totalSulfiteMgPerL', ['mg/L', 'g/L']),
  taste: { as: 'text' },
  acidityAs: { as: 'choice', into: 'acidityAs', choices: ACIDS },
  acidityMethod: { as: 'choice', into: 'acidityMethod', choices: ACIDITY_METHODS },
  acidityUncertainty: quantity('acidity', 'acidityUncertainty', ['%', 'g/L', 'g/100 mL']),
  gravityInstrument: { as: 'choice', into: 'gravityInstrument', choices: GRAVITY_INSTRUMENTS },
  gravityCalibration: quantity('temperature', 'gravityCalibrationCelsius', ['°C', '°F']),
  phMethod: { as: 'choice', into: 'phMethod', choices: PH_METHODS },
  detail: { as: 'json' },
};

function quantity(
  kind: QuantityKind,
  into: Extract<FieldForm, { as: 'quantity' }>['into'],
  units: readonly string[],
): Extract<FieldForm, { as: 'quantity' }> {
  return { as: 'quantity', kind, into, units, unitNeeded: false };
}

/**
 * Headings that name a field, the surest first, as {@link plainHeading} writes them. The first ones are those of our own
 * table of readings; others are common practice in cellar books, no source.
 */
const HEADINGS: Readonly<Record<ReadingField, readonly string[]>> = {
  when: ['at', 'when', 'date and time', 'datetime', 'timestamp', 'date', 'day'],
  time: ['time', 'clock', 'hour'],
  vessel: [
    'vessel number',
    'vessel',
    'vessel place',
    'jar',
    'place',
    'container',
    'vessel name',
    'vessel id',
  ],
  batch: ['batch code', 'batch', 'batch name', 'batch id', 'brew', 'lot'],
  gravity: ['gravity sg', 'gravity', 'sg', 'specific gravity', 'density', 'brix', 'plato'],
  temperature: ['temperature celsius', 'temperature', 'temp'],
  ph: ['ph'],
  acidity: ['acidity grams per 100 ml', 'acidity', 'ta', 'titratable acidity', 'total acidity', 'acid'],
  volume: ['volume ul', 'volume', 'level'],
  freeSulfite: ['free sulfite mg per l', 'free sulfite', 'free so2', 'fso2'],
  alcohol: ['alcohol percent volume', 'alcohol', 'abv'],
  salt: ['salt percent', 'salt'],
  totalSulfite: ['total sulfite mg per l', 'total sulfite', 'total so2'],
  taste: ['taste', 'tasting', 'note', 'notes', 'remark', 'remarks', 'comment', 'comments'],
  acidityAs: ['acidity as', 'counted as', 'acid counted as'],
  acidityMethod: ['acidity method'],
  acidityUncertainty: ['acidity uncertainty'],
  gravityInstrument: ['gravity instrument', 'instrument'],
  gravityCalibration: ['gravity calibration celsius', 'gravity calibration'],
  phMethod: ['ph method'],
  detail: [],
};

/** Units as headings write them, in brackets or at the end. */
const UNIT_IN_HEADING: readonly (readonly [pattern: RegExp, unit: string])[] = [
  [/grams per 100 ml$|g ?\/ ?100 ?ml/u, 'g/100 mL'],
  [/mg per l$|mg ?\/ ?l|ppm/u, 'mg/L'],
  [/grams per l$|g ?\/ ?l/u, 'g/L'],
  [/celsius|° ?c\b|\(c\)|\[c\]|\bdeg ?c\b|\bc$/u, '°C'],
  [/fahrenheit|° ?f\b|\(f\)|\[f\]|\bdeg ?f\b|\bf$/u, '°F'],
  [/brix|° ?bx\b|\bbx\b/u, '°Bx'],
  [/plato|° ?p\b/u, '°P'],
  [/\bpts\b|\bpoints\b/u, 'pts'],
  [/\bsg\b|specific gravity/u, 'SG'],
  [/\bul\b|µl|μl|microlit/u, 'µL'],
  [/\bml\b|millilit/u, 'ml'],
  [/\bcl\b/u, 'cl'],
  [/imp(?:erial)?\.? gal/u, 'imp gal'],
  [/\(l\)|\[l\]|\blit(?:re|er)s?\b|\bl$/u, 'L'],
  [/abv|% ?vol|percent volume/u, '% vol'],
  [/%|percent/u, '%'],
];

/** A heading in small letters, one space between words, without what stands in brackets. */
export function plainHeading(heading: string): string {
  return headingOf(heading.normalize('NFKC'))
    .replaceAll(/\([^)]*\)|\[[^\]]*\]/gu, ' ')
    .replaceAll(/[^\p{Letter}\p{Number}]+/gu, ' ')
    .trim();
}

export interface ColumnChoice {
  readonly field: ReadingField | null;
  readonly unit: string | null;
}

/** What each column is taken to be by its heading: each field at most once but for details, and nothing where the heading does not say. */
export function columnsByHeading(headings: readonly string[]): ColumnChoice[] {
  const plain = headings.map(plainHeading);
  // `pH` is told apart from `p h` before capitals are parted.
  const bare = headings.map((heading) => heading.trim().toLowerCase());
  const fieldAt = new Map<number, ReadingField>();
  for (const field of READING_FIELDS) {
    for (const known of HEADINGS[field]) {
      const at = plain.findIndex(
        (heading, index) => !fieldAt.has(index) && names(known, heading, bare[index] ?? ''),
      );
      if (at === -1) continue;
      fieldAt.set(at, field);
      break;
    }
  }
  return headings.map((heading, index) => {
    const isDetail = DETAIL_HEADINGS.has(heading.trim().toLowerCase());
    const field = fieldAt.get(index) ?? (isDetail ? 'detail' : null);
    return { field, unit: field === null ? null : unitInHeading(field, heading) };
  });
}

function names(known: string, plain: string, bare: string): boolean {
  if (plain === known || bare === known) return true;
  const words = bare.replaceAll(/\([^)]*\)|\[[^\]]*\]/gu, ' ').replaceAll(/[^\p{Letter}\p{Number}]+/gu, ' ');
  const trimmed = words.trim();
  return trimmed === known || withoutUnit(trimmed) === known;
}

function withoutUnit(heading: string): string {
  return heading.replace(/ (?:c|f|l|ml|sg|celsius|fahrenheit|g l|mg l|ppm|percent|bx)$/u, '');
}

function unitInHeading(field: ReadingField, heading: string): string | null {
  const form = FIELD_FORMS[field];
  if (form.as !== 'quantity') return null;
  const spaced = heading.toLowerCase().replaceAll('_', ' ');
  for (const [pattern, unit] of UNIT_IN_HEADING) {
    if (form.units.includes(unit) && pattern.test(spaced)) return unit;
  }
  return null;
}

/** The details of a reading as our own table writes them: a column each. */
export const DETAIL_HEADINGS: ReadonlyMap<string, keyof ReadingDetail> = new Map(
  (Object.keys(ReadingDetail.shape) as (keyof ReadingDetail)[]).map((field) => [headingOf(field), field]),
);
