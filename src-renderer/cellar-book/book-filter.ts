import { ALL_BATCHES, type BatchFilter, type KeptFilter } from '#core/ledger/batch-filter.ts';
import type { CultureId } from '#core/ledger/ids.ts';
import type { FermentKind, FilledStage } from '#core/ledger/stage.ts';
import { isoDay } from '#core/quantities/civil-time.ts';
import { browserTime } from '../acts/browser-time.ts';
import { readWhenField } from '../acts/read-when.ts';
import { localDayAround } from '../cellar/day.ts';

/** The filter as it stands in its fields: days as typed. */
export interface FilterFields {
  readonly text: string;
  readonly ferment: FermentKind | '';
  readonly stage: FilledStage | '';
  readonly standing: BatchFilter['standing'];
  readonly startedFrom: string;
  readonly startedUpTo: string;
  readonly needsLook: boolean;
}

export const NO_FILTER: FilterFields = {
  ...{
    text: '',
    ferment: '',
    stage: '',
    standing: 'either',
    startedFrom: '',
    startedUpTo: '',
    needsLook: false,
  },
};

/** A day as typed: the local day it names, nothing typed, or why it is not understood. */
export function readDay(
  text: string,
  nowMs: number,
): { startMs: number; endMs: number } | { wrong: string } | null {
  if (text.trim() === '') return null;
  const read = readWhenField(text, nowMs, browserTime);
  if (read.type === 'wrong') return { wrong: read.said.sentence };
  return localDayAround(read.atMs ?? nowMs);
}

/** What the host is asked; a day that is not understood yet filters nothing. */
export function filterOf(
  fields: FilterFields,
  order: Pick<BatchFilter, 'sort' | 'descending'>,
  given: { readonly cultureId: CultureId | null; readonly nowMs: number },
): BatchFilter {
  const from = readDay(fields.startedFrom, given.nowMs);
  const upTo = readDay(fields.startedUpTo, given.nowMs);
  return {
    ...ALL_BATCHES,
    ...order,
    text: fields.text.trim().slice(0, 200).toWellFormed(),
    ferment: fields.ferment === '' ? null : fields.ferment,
    stage: fields.stage === '' ? null : fields.stage,
    standing: fields.standing,
    startedFromMs: from !== null && 'startMs' in from ? from.startMs : null,
    startedUpToMs: upTo !== null && 'endMs' in upTo ? upTo.endMs - 1 : null,
    cultureId: given.cultureId,
    needsLook: fields.needsLook,
  };
}

/** A kept filter laid back into the fields. */
export function fieldsOf(kept: KeptFilter): FilterFields {
  const day = (atMs: number | null): string => (atMs === null ? '' : isoDay(browserTime.localOf(atMs)));
  return {
    ...{ text: kept.text, ferment: kept.ferment ?? '', stage: kept.stage ?? '', standing: kept.standing },
    startedFrom: day(kept.startedFromMs),
    startedUpTo: day(kept.startedUpToMs),
    needsLook: kept.needsLook,
  };
}

export function isFiltering(fields: FilterFields): boolean {
  const { text, ferment, stage, standing, startedFrom, startedUpTo, needsLook } = fields;
  const typed = [text, startedFrom, startedUpTo].some((value) => value.trim() !== '');
  return typed || ferment !== '' || stage !== '' || standing !== 'either' || needsLook;
}

/** Two filters that show the same, whatever order their fields stand in. */
export function showsSame(a: KeptFilter, b: KeptFilter): boolean {
  const plain = (filter: KeptFilter): string =>
    JSON.stringify(Object.entries(filter).sort(([one], [other]) => (one < other ? -1 : 1)));
  return plain(a) === plain(b);
}
