import { ACIDS, type ActDraft, type TitrationDetail } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import type { Acid } from '#core/quantities/understood.ts';
import {
  BASE_FIELDS,
  doneOf,
  END_POINTS,
  readBase,
  readMl,
  readReplicates,
  STAND_IN,
  workedOrProblem,
  type Base,
} from './build-titration.ts';
import type { Step } from './act-form.svelte.ts';
import type { FormReader } from './form-reader.ts';
import { agrees, readStandard, STANDARD_FIELDS, type StandardFound } from './standard-check.ts';
import { titratedReading, type TitrationDone, type TitrationWorked } from './titration-work.ts';

export const ROWS_MAX = 10;
const PER_ROW = ['vesselId', 'sampleMl', 'gas', 'dark', 'a', 'b', 'c'] as const;
type RowField = (typeof PER_ROW)[number];

/** The field of a sample's row. */
export function rowField(row: number, field: RowField): string {
  return `row${row}-${field}`;
}
export const rowReplicates = (row: number): readonly string[] =>
  (['a', 'b', 'c'] as const).map((each) => rowField(row, each));

/** What is said of a sample's gas, in one choice. */
export const GAS_WORDS = {
  none: 'no gas',
  out: 'fizzy, gas shaken out',
  in: 'fizzy, gas still in',
} as const;
export const DARK_WORDS = { no: 'pale', yes: 'dark' } as const;

export const EVENING_FIELDS: Readonly<Record<string, string>> = {
  ...BASE_FIELDS,
  acid: 'acetic',
  endPoint: '',
  blankMl: '',
  ...STANDARD_FIELDS,
  rows: '3',
  ...emptyRows(),
  happenedAtMs: 'now',
};

function emptyRows(): Readonly<Record<string, string>> {
  const rows = Array.from({ length: ROWS_MAX }, (_, row) => row);
  const fields = rows.flatMap((row) => PER_ROW.map((field) => rowField(row, field)));
  return Object.fromEntries(fields.map((field) => [field, '']));
}

/** What all samples of an evening share. */
export interface EveningBase {
  readonly base: Base;
  readonly acid: Acid | null;
  readonly endPoint: 'colour' | 'meter' | null;
  readonly blankMl: number;
  readonly found: StandardFound | null;
  /** The strength the samples are worked out with. */
  readonly normality: number | null;
  /** True when tonight's standard counts as the check of the base. */
  readonly checkedTonight: boolean;
}

export function readEveningBase(read: FormReader): EveningBase {
  const base = readBase(read);
  const acid = read.choiceOrNone(
    'acid',
    Object.fromEntries(ACIDS.map((each) => [each, true])) as Record<Acid, true>,
  );
  if (acid === null) read.problem('acid', 'Say which acid the samples are counted as.');
  const endPoint = read.choiceOrNone('endPoint', END_POINTS);
  if (endPoint === null) read.problem('endPoint', 'Choose how you tell that it is done.');
  const blankMl = readMl(read, 'blankMl', 100) ?? 0;
  const found = readStandard(read, { normality: base.normality, blankMl });
  const usesFound = found !== null && read.raw('strengthUsed') !== 'label';
  return {
    ...{ base, acid, endPoint, blankMl, found },
    normality: usesFound ? found.normality : base.normality,
    checkedTonight: found !== null && (usesFound || agrees(found)),
  };
}

export interface EveningRow {
  readonly row: number;
  readonly vesselId: string;
  readonly done: TitrationDone | null;
  readonly worked: TitrationWorked | null;
}

/** The rows in which anything was said, each worked out as far as it goes. */
export function readEveningRows(read: FormReader, shared: EveningBase): readonly EveningRow[] {
  const rows = Math.min(ROWS_MAX, Math.max(1, Number(read.raw('rows')) || 1));
  const seen = new Map<string, number>();
  return Array.from({ length: rows }, (_, row) => row).flatMap((row) => {
    const said = PER_ROW.some((field) => read.raw(rowField(row, field)) !== '');
    if (!said) return [];
    const vesselId = read.id<VesselId>(
      rowField(row, 'vesselId'),
      'Choose the vessel, or empty the rest of the row.',
    );
    const twin = seen.get(vesselId);
    if (vesselId !== '' && twin !== undefined) {
      read.problem(
        rowField(row, 'vesselId'),
        `This vessel is in row ${twin + 1} already. Type its readings into that row.`,
      );
    }
    seen.set(vesselId, row);
    return [{ row, vesselId, ...workedRow(read, row, shared) }];
  });
}

function workedRow(
  read: FormReader,
  row: number,
  { base, acid, normality, blankMl }: EveningBase,
): Pick<EveningRow, 'done' | 'worked'> {
  const at = { sampleMl: rowField(row, 'sampleMl'), baseMl: rowField(row, 'a'), blankMl: 'blankMl' };
  const sampleMl = readMl(read, at.sampleMl, 500);
  if (read.raw(at.sampleMl) === '') read.problem(at.sampleMl, 'Type how many mL were titrated.');
  const titrantMl = readReplicates(read, rowReplicates(row));
  if (rowReplicates(row).every((field) => read.raw(field) === '')) {
    read.problem(at.baseMl, 'Type how many mL of base it took.');
  }
  const done = doneOf({ kit: base.kit, normality, acid, sampleMl, titrantMl, blankMl });
  return { done, worked: done === null ? null : workedOrProblem(read, done, at) };
}

/** An evening of samples as it is written: one reading for each vessel, with all that rule MEAS-06 asks. */
export function buildEvening(read: FormReader): readonly Step[] {
  const shared = readEveningBase(read);
  const rows = readEveningRows(read, shared);
  read.when();
  const atMs = Math.round(read.happenedAtMs ?? read.form.nowMs);
  if (rows.length === 0) {
    read.problem(rowField(0, 'vesselId'), 'No sample is titrated yet. Choose the vessel of the first row.');
  }
  return rows.map((row) => () => actOf(read, row, shared, atMs));
}

/** The rows in the order of their acts. */
export function eveningRowsWritten(read: FormReader): readonly number[] {
  return readEveningRows(read, readEveningBase(read)).map(({ row }) => row);
}

function actOf(
  read: FormReader,
  { row, vesselId, done, worked }: EveningRow,
  shared: EveningBase,
  atMs: number,
): ActDraft {
  const values =
    done === null || worked === null
      ? STAND_IN
      : titratedReading({
          ...{ done, worked, fixedAcidGramsPer100Ml: null, taste: '' },
          titration: detailOf(read, row, done, shared, atMs),
        });
  return { kind: 'recordReading', vesselId: vesselId as VesselId, values };
}

function detailOf(
  read: FormReader,
  row: number,
  { sampleMl, titrantMl, blankMl, normality }: TitrationDone,
  { base, endPoint, checkedTonight }: EveningBase,
  atMs: number,
): TitrationDetail {
  const gas = read.choiceOrNone(rowField(row, 'gas'), GAS_WORDS);
  const dark = read.choiceOrNone(rowField(row, 'dark'), DARK_WORDS);
  return {
    ...{ sampleMl, titrantMl: [...titrantMl], blankMl, normality, endPoint },
    baseCheckedAtMs: checkedTonight ? atMs : base.baseCheckedAtMs,
    ...{ baseBoughtAtMs: base.baseBoughtAtMs, baseNewlyOpened: base.baseNewlyOpened },
    darkSample: dark === null ? null : dark === 'yes',
    fizzySample: gas === null ? null : gas !== 'none',
    degassed: gas === 'out' ? true : gas === 'in' ? false : null,
  };
}
