import type { EpochMs } from '../base/ports.ts';
import { ACIDS, NOTHING_READ, NoteText, ReadingDetail, ReadingValues } from '../ledger/act.ts';
import { PLAUSIBLE } from '../quantities/plausible.ts';
import type { QuantityKind } from '../quantities/understood.ts';
import { unguardText } from './csv-text.ts';
import { readMomentCell, readQuantityCell, type CellError, type ReadingWay } from './read-cell.ts';
import { DETAIL_HEADINGS, FIELD_FORMS, type ColumnChoice, type FieldForm } from './reading-fields.ts';
import { rowProblem, type RowProblem } from './row-problem.ts';
import type { Settled } from './settled.ts';

/** One row of a table as understood by itself, before it is looked for in the cellar. */
export interface ReadRow {
  readonly line: number;
  readonly cells: readonly string[];
  readonly atMs: EpochMs | null;
  readonly toTheMinute: boolean;
  readonly vessel: string;
  readonly batch: string;
  /** What the row itself says; `values` adds what was settled for all rows. */
  readonly stated: Partial<ReadingValues>;
  readonly values: ReadingValues | null;
  /** The text as it stood in the cells, by the field of a reading. */
  readonly typed: Readonly<Record<string, string>>;
  /** Quantities read, for comparing with those before. */
  readonly quantities: readonly {
    readonly kind: QuantityKind;
    readonly value: number;
    readonly text: string;
  }[];
  readonly problems: readonly RowProblem[];
}

export interface RowWay extends ReadingWay {
  readonly columns: readonly ColumnChoice[];
  readonly headings: readonly string[];
  readonly settled: Pick<Settled, 'acidityAs' | 'gravityInstrument' | 'source'>;
  /** The temperature the keeper's hydrometer is marked for. */
  readonly calibrationCelsius: number;
}

/** Reads one row. Nothing in it is guessed: what is not understood becomes a problem, with the cell's own text. */
export function readRow(line: number, cells: readonly string[], way: RowWay): ReadRow {
  const problems: RowProblem[] = [];
  const row = gather(cells, way, problems);
  const moment = momentOf(row.texts, way, problems);
  const beyond = cells.slice(way.columns.length);
  if (beyond.some((cell) => cell.trim() !== ''))
    problems.push(rowProblem('TooManyCells', null, cells.join(' ')));
  const values = problems.length > 0 && problems.some(isReadProblem) ? null : valuesOf(row, way, problems);
  return {
    ...{ line, cells, atMs: moment?.atMs ?? null, toTheMinute: moment?.toTheMinute ?? true },
    ...{ vessel: row.texts.get('vessel') ?? '', batch: row.texts.get('batch') ?? '' },
    ...{ stated: row.stated, values, quantities: row.quantities, problems },
    typed: { ...row.typed, source: `${way.settled.source}, line ${line}` },
  };
}

interface Gathered {
  readonly texts: Map<string, string>;
  stated: Partial<ReadingValues>;
  detail: Record<string, unknown>;
  readonly typed: Record<string, string>;
  readonly quantities: { kind: QuantityKind; value: number; text: string }[];
}

function gather(cells: readonly string[], way: RowWay, problems: RowProblem[]): Gathered {
  const row: Gathered = { texts: new Map(), stated: {}, detail: {}, typed: {}, quantities: [] };
  way.columns.forEach(({ field, unit }, index) => {
    const text = unguardText(cells[index] ?? '').trim();
    if (field === null || text === '') return;
    const form = FIELD_FORMS[field];
    row.texts.set(field, text);
    switch (form.as) {
      case 'moment':
        row.typed['when'] = [row.typed['when'], text].filter((part) => part !== undefined).join(' ');
        break;
      case 'name':
        break;
      case 'text':
        takeText(row, text, problems);
        break;
      case 'json':
        takeDetail(row, text, way.headings[index] ?? '', problems);
        break;
      case 'choice':
        takeChoice(row, field, form, text, problems);
        break;
      case 'quantity':
        takeQuantity(row, { field, form, text, unit }, way, problems);
    }
  });
  return row;
}

function takeText(row: Gathered, text: string, problems: RowProblem[]): void {
  const taste = NoteText.safeParse(text);
  if (!taste.success) problems.push(rowProblem('NotText', 'taste', text));
  else {
    row.stated.taste = taste.data;
    row.typed['taste'] = taste.data;
  }
}

function takeDetail(row: Gathered, text: string, heading: string, problems: RowProblem[]): void {
  const field = DETAIL_HEADINGS.get(heading.trim().toLowerCase());
  if (field === undefined) {
    problems.push(rowProblem('NotAChoice', 'detail', text));
    return;
  }
  const parsed = ReadingDetail.shape[field].safeParse(plainValue(text));
  if (parsed.success) row.detail[field] = parsed.data;
  else problems.push(rowProblem('NotAChoice', 'detail', text));
}

/** A cell of our own table: a number, true or false, parts as JSON, else a word. */
function plainValue(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch (error) {
    if (error instanceof SyntaxError) return text;
    throw error;
  }
}

function takeChoice(
  row: Gathered,
  field: NonNullable<ColumnChoice['field']>,
  form: Extract<FieldForm, { as: 'choice' }>,
  text: string,
  problems: RowProblem[],
): void {
  const wanted = text.toLowerCase();
  const choice = form.choices.find((known) => known.toLowerCase() === wanted);
  if (choice === undefined)
    problems.push(rowProblem('NotAChoice', field, text, { known: [...form.choices] }));
  else {
    row.stated = { ...row.stated, [form.into]: choice };
    row.typed[form.into] = text;
  }
}

function takeQuantity(
  row: Gathered,
  cell: {
    readonly field: NonNullable<ColumnChoice['field']>;
    readonly form: Extract<FieldForm, { as: 'quantity' }>;
    readonly text: string;
    readonly unit: string | null;
  },
  way: RowWay,
  problems: RowProblem[],
): void {
  const { field, form, text, unit } = cell;
  const read = readQuantityCell(form.kind, text, unit, way);
  if (!read.ok) {
    const understood = read.error.type === 'Implausible' ? read.error.understood : null;
    if (understood !== null) keep(row, form, understood.value, text);
    problems.push(problemOf(field, text, read.error));
    return;
  }
  if (form.unitNeeded && read.value.unitAssumed) {
    problems.push(rowProblem('UnitUnsettled', field, text, { known: [...form.units] }));
    return;
  }
  if (read.value.kind === 'acidity' && read.value.acid !== null && field === 'acidity') {
    row.stated.acidityAs ??= read.value.acid;
  }
  keep(row, form, read.value.value, text);
}

function keep(
  row: Gathered,
  form: Extract<FieldForm, { as: 'quantity' }>,
  value: number,
  text: string,
): void {
  row.typed[form.into] = text;
  if (form.into === 'saltPercent' || form.into === 'totalSulfiteMgPerL') row.detail[form.into] = value;
  else {
    row.stated = { ...row.stated, [form.into]: value };
    if (form.into !== 'acidityUncertainty' && form.into !== 'gravityCalibrationCelsius') {
      row.quantities.push({ kind: form.kind, value, text });
    }
  }
}

function problemOf(field: NonNullable<ColumnChoice['field']>, text: string, error: CellError): RowProblem {
  switch (error.type) {
    case 'MarkUnsettled':
      return rowProblem('MarkUnsettled', field, text);
    case 'Ambiguous':
      return rowProblem('AmbiguousNumber', field, text, { known: error.readings.map((r) => r.text) });
    case 'Implausible': {
      const { low, high } = PLAUSIBLE[error.kind];
      // A number that cannot stand at all is not asked about.
      const type = error.understood === null ? 'OutOfRange' : 'Implausible';
      return rowProblem(type, field, text, { known: [`${low}`, `${high}`, error.unit] });
    }
    case 'UnitMissing':
      return rowProblem('UnitUnsettled', field, text);
    case 'UnknownUnit':
      return rowProblem('UnknownUnit', field, text, { known: [...error.known] });
    case 'TooLong':
      return rowProblem('TooLong', field, text.slice(0, 80));
    case 'Empty':
    case 'NotANumber':
      return rowProblem('NotANumber', field, text);
  }
}

function momentOf(texts: ReadonlyMap<string, string>, way: RowWay, problems: RowProblem[]) {
  const day = texts.get('when') ?? '';
  const time = texts.get('time') ?? '';
  const text = day.includes(':') || time === '' ? day : `${day} ${time}`;
  if (day === '') {
    problems.push(rowProblem('NoWhen', 'when', text));
    return null;
  }
  const moment = readMomentCell(text, way);
  if (!moment.ok) {
    problems.push(rowProblem(moment.error, 'when', text));
    return null;
  }
  return moment.value;
}

function isReadProblem({ type }: RowProblem): boolean {
  return type !== 'Implausible' && type !== 'Slip';
}

/** The whole reading, or null when a value is missing or lies outside what the book can hold. */
function valuesOf(row: Gathered, way: RowWay, problems: RowProblem[]): ReadingValues | null {
  const { stated } = row;
  const detail = Object.keys(row.detail).length === 0 ? null : { ...NO_DETAIL, ...row.detail };
  if (detail !== null) stated.detail = detail as ReadingDetail;
  const values = { ...NOTHING_READ, ...stated };
  if (values.gravitySg !== null) {
    values.gravityInstrument ??= way.settled.gravityInstrument;
    values.gravityCalibrationCelsius ??=
      values.gravityInstrument === 'hydrometer' ? way.calibrationCelsius : 20;
  }
  if (values.acidityGramsPer100Ml !== null) {
    values.acidityAs ??= way.settled.acidityAs;
    if (values.acidityAs === null) {
      problems.push(
        rowProblem('AcidUnsettled', 'acidity', row.texts.get('acidity') ?? '', { known: [...ACIDS] }),
      );
      return null;
    }
  }
  const parsed = ReadingValues.safeParse(values);
  if (parsed.success) return parsed.data;
  const at = parsed.error.issues[0]?.path[0];
  const form = Object.entries(FIELD_FORMS).find(([, known]) => 'into' in known && known.into === at);
  const field = (form?.[0] ?? null) as ColumnChoice['field'];
  problems.push(
    field === null
      ? rowProblem('NothingRead', null, '')
      : rowProblem('OutOfRange', field, row.texts.get(field) ?? ''),
  );
  return null;
}

const NO_DETAIL = Object.fromEntries(Object.keys(ReadingDetail.shape).map((field) => [field, null]));
