import { setImmediate } from 'node:timers/promises';
import type { Progress } from '#core/contract/cellar.ts';
import type { LookedOver, LookedRow, Question } from '#core/contract/looked-over.ts';
import { dateOrderOf, decimalMarkOf, type Evidence } from '#core/exchange/detect.ts';
import { placeRow, saysAll, type VesselKnown } from '#core/exchange/place-row.ts';
import { readRow, type ReadRow, type RowWay } from '#core/exchange/read-row.ts';
import { columnsByHeading, FIELD_FORMS, type ColumnChoice } from '#core/exchange/reading-fields.ts';
import { isDoubt, rowProblem, type RowProblem } from '#core/exchange/row-problem.ts';
import { ROWS_MAX, type Settled } from '#core/exchange/settled.ts';
import { slipsOfRow } from '#core/exchange/slips-of-row.ts';
import type { QuantityKind } from '#core/quantities/understood.ts';
import type { CellarServices } from '../cellar/cellar-services.ts';
import type { Together } from '../ledger/ledger-service.ts';
import { wallClock } from '../platform/wall-clock.ts';
import { cellarNow, type CellarNow } from './cellar-known.ts';
import { readCsv, type CsvRow } from './read-csv.ts';

const ROWS_A_STEP = 200;
const PREVIEW = 20;

/** A table looked over, with the acts its ready rows become. */
export interface Looked {
  readonly report: LookedOver;
  readonly acts: readonly Together[];
}

/** A row on its way: read, placed, and held against what stands before and beside it. */
interface Row {
  readonly read: ReadRow;
  outcome: LookedRow['outcome'];
  vessel: VesselKnown | null;
  atMs: number | null;
  problems: RowProblem[];
}

/**
 * Reads a table of readings as it would be brought in. Nothing is written, nothing in it is guessed, and other calls are let
 * through on the way.
 */
export async function* lookOver(
  services: CellarServices,
  { text, settled }: { readonly text: string; readonly settled: Settled },
  signal: AbortSignal | undefined,
): AsyncGenerator<Progress, Looked, void> {
  const { session } = services;
  const stop =
    signal === undefined ? session.cellar.closing : AbortSignal.any([session.cellar.closing, signal]);
  const csv = readCsv(text, settled.separator);
  const headed = settled.headings ? csv.rows[0] : undefined;
  const lines = headed === undefined ? csv.rows : csv.rows.slice(1);
  const width = Math.min(
    200,
    headed?.cells.length ?? Math.max(0, ...lines.slice(0, 50).map(({ cells }) => cells.length)),
  );
  const headings = Array.from({ length: width }, (_, index) => headed?.cells[index]?.trim() ?? '');
  const columns = settled.columns?.length === width ? settled.columns : columnsByHeading(headings);
  const marks = marksOf(lines, columns, settled);
  const rules = services.houseRules.read();
  const way: RowWay = {
    ...{ house: rules, localTime: wallClock, nowMs: session.clock(), columns, headings, settled },
    ...{ decimalMark: marks.decimalMark.way, dateOrder: marks.dateOrder.way },
    calibrationCelsius: rules.hydrometerCalibrationCelsius,
  };
  const cellar = cellarNow(session);
  const rows: Row[] = [];
  for (let at = 0; at < lines.length; at += ROWS_A_STEP) {
    yield { what: 'read', done: at, total: lines.length };
    await setImmediate();
    stop.throwIfAborted();
    for (const line of lines.slice(at, at + ROWS_A_STEP))
      rows.push(placed(services, cellar, way, settled, line));
  }
  weigh(rows, cellar, new Set(settled.accepted));
  const questions = questionsOf(rows, columns, settled, marks, csv.tooMany || lines.length > ROWS_MAX);
  return {
    report: {
      ...{ separator: csv.separator, ...marks, headings, columns: [...columns], questions },
      ...{ samples: headings.map((_, index) => samplesOf(lines, index)), counts: countsOf(rows) },
      preview: rows.slice(0, PREVIEW).map(shownOf),
      troubled: rows
        .filter(({ problems, outcome }) => problems.length > 0 && outcome !== 'alreadyThere')
        .map(shownOf),
    },
    acts: rows.flatMap(actOf),
  };
}

function placed(
  services: CellarServices,
  cellar: CellarNow,
  way: RowWay,
  settled: Settled,
  { line, cells, quotesOpen }: CsvRow,
): Row {
  const read = readRow(line, cells, way);
  const row: Row = { read, outcome: 'refused', vessel: null, atMs: read.atMs, problems: [...read.problems] };
  if (quotesOpen) row.problems.unshift(rowProblem('QuotesLeftOpen', null, ''));
  if (read.atMs === null) return row;
  const found = placeRow({ ...read, atMs: read.atMs }, cellar, way, settled.vesselId);
  row.vessel = found.vessel;
  if (found.outcome === 'refused') {
    row.problems.push(found.problem);
    return row;
  }
  row.atMs = found.atMs;
  if (found.outcome === 'alreadyThere' && Object.keys(read.stated).length > 0) {
    row.outcome = 'alreadyThere';
    return row;
  }
  if (row.problems.some((problem) => !isDoubt(problem)) || read.values === null) return row;
  row.outcome = 'ready';
  const [act] = actOf(row);
  const plan = act === undefined ? null : services.ledger.plan(act.act, act.happenedAtMs);
  if (plan?.ok === false) {
    row.outcome = 'refused';
    row.problems.push(rowProblem('RefusedByTheBook', null, '', { refusal: plan.error }));
  }
  return row;
}

/** Holds the rows that could come in against one another, in the order of time: doubles, and slips beside the one before. */
function weigh(rows: readonly Row[], cellar: CellarNow, accepted: ReadonlySet<number>): void {
  const ready = rows
    .filter(({ outcome }) => outcome === 'ready')
    .sort((a, b) => (a.atMs ?? 0) - (b.atMs ?? 0) || a.read.line - b.read.line);
  const seen = new Map<string, Row[]>();
  const last = new Map<string, Map<QuantityKind, { readonly value: number; readonly atMs: number }>>();
  for (const row of ready) {
    const { vessel, atMs, read } = row;
    if (vessel?.standing == null || atMs === null || read.values === null) continue;
    const key = `${vessel.vesselId} ${atMs}`;
    const beside = seen.get(key) ?? [];
    const double = beside.find(
      ({ read: other }) => other.values !== null && saysAll(other.values, read.stated),
    );
    if (double !== undefined) {
      row.outcome = 'refused';
      row.problems.push(rowProblem('SameAsLine', null, '', { number: double.read.line }));
      continue;
    }
    seen.set(key, [...beside, row]);
    const inTable = last.get(vessel.vesselId) ?? new Map<QuantityKind, { value: number; atMs: number }>();
    const before = new Map(cellar.before(vessel.vesselId, vessel.standing.batchId, atMs));
    for (const [kind, { value }] of inTable) before.set(kind, value);
    row.problems.push(...slipsOfRow(read, before));
    if (row.problems.some(isDoubt)) {
      row.outcome = accepted.has(read.line) ? 'accepted' : 'doubtful';
      if (row.outcome === 'doubtful') continue;
    }
    for (const { kind, value } of read.quantities) inTable.set(kind, { value, atMs });
    last.set(vessel.vesselId, inTable);
  }
}

type Marks = Pick<LookedOver, 'decimalMark' | 'dateOrder'>;

function marksOf(lines: readonly CsvRow[], columns: readonly ColumnChoice[], settled: Settled): Marks {
  const cellsOf = (wanted: (field: NonNullable<ColumnChoice['field']>) => boolean): string[] =>
    columns.flatMap(({ field }, index) =>
      field !== null && wanted(field) ? lines.map(({ cells }) => cells[index] ?? '') : [],
    );
  const known = <Way>(way: Way | null, found: Evidence<Way>) =>
    way === null ? found : { way, how: 'settled' as const };
  return {
    decimalMark: known(
      settled.decimalMark,
      decimalMarkOf(cellsOf((field) => FIELD_FORMS[field].as === 'quantity')),
    ),
    dateOrder: known(settled.dateOrder, dateOrderOf(cellsOf((field) => field === 'when'))),
  };
}

function questionsOf(
  rows: readonly Row[],
  columns: readonly ColumnChoice[],
  settled: Settled,
  marks: Marks,
  tooMany: boolean,
): Question[] {
  const has = (...types: RowProblem['type'][]): boolean =>
    rows.some(({ problems }) => problems.some(({ type }) => types.includes(type)));
  const fields = new Set(columns.map(({ field }) => field));
  const isValue = (field: ColumnChoice['field']): boolean =>
    field !== null && (FIELD_FORMS[field].as === 'quantity' || field === 'taste');
  const asked: readonly (readonly [Question, boolean])[] = [
    ['empty', rows.length === 0],
    ['tooManyRows', tooMany],
    ['when', rows.length > 0 && !fields.has('when')],
    ['vessel', rows.length > 0 && !fields.has('vessel') && !fields.has('batch') && settled.vesselId === null],
    ['values', rows.length > 0 && !columns.some(({ field }) => isValue(field))],
    ['decimalMark', marks.decimalMark.how === 'mixed' || has('MarkUnsettled')],
    ['dateOrder', marks.dateOrder.how === 'mixed' || has('DateOrderUnsettled')],
    ['unit', has('UnitUnsettled')],
    ['acid', has('AcidUnsettled')],
  ];
  return asked.flatMap(([question, isAsked]) => (isAsked ? [question] : []));
}

function countsOf(rows: readonly Row[]): LookedOver['counts'] {
  const count = (...outcomes: LookedRow['outcome'][]): number =>
    rows.filter(({ outcome }) => outcomes.includes(outcome)).length;
  return {
    ...{ rows: rows.length, ready: count('ready', 'accepted'), alreadyThere: count('alreadyThere') },
    ...{ doubtful: count('doubtful'), refused: count('refused') },
  };
}

function samplesOf(lines: readonly CsvRow[], index: number): string[] {
  const samples: string[] = [];
  for (const { cells } of lines) {
    const cell = cells[index]?.trim() ?? '';
    if (cell !== '') samples.push(cell.slice(0, 60));
    if (samples.length === 3) break;
  }
  return samples;
}

function shownOf({ read, outcome, vessel, atMs, problems }: Row): LookedRow {
  const { line, cells, values } = read;
  return { line, outcome, vessel: vessel?.label ?? null, atMs, values, problems, cells: [...cells] };
}

function actOf({ read, outcome, vessel, atMs }: Row): Together[] {
  if ((outcome !== 'ready' && outcome !== 'accepted') || vessel === null || atMs === null) return [];
  if (read.values === null) return [];
  return [
    {
      act: { kind: 'recordReading', vesselId: vessel.vesselId, values: read.values },
      ...{ happenedAtMs: atMs, typed: read.typed },
    },
  ];
}
