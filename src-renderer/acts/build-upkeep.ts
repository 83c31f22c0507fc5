import type { ActDraft } from '#core/ledger/act.ts';
import type { VesselId } from '#core/ledger/ids.ts';
import { CLEANING_WAYS } from '../words/choice-words.ts';
import type { FormReader } from './form-reader.ts';
import { readLater } from './read-later.ts';

export const SAMPLE_PURPOSES = {
  gravity: 'gravity',
  titration: 'titration',
  ph: 'pH',
  tasting: 'tasting',
  other: 'something else',
} as const;

export const FILTER_WAYS = {
  cloth: 'strained through cloth',
  paper: 'through filter paper',
  pads: 'through filter pads',
  membrane: 'through a membrane',
  fined: 'fined clear and racked off',
} as const;

export function buildSample(read: FormReader, vesselId: VesselId): ActDraft {
  const volumeUl = read.volume('volumeUl');
  const purpose = read.choice('purpose', SAMPLE_PURPOSES, 'Say what the sample is for.');
  const note = read.note('note');
  read.when();
  return { kind: 'sample', vesselId, volumeUl, purpose, note };
}

export function buildFilter(read: FormReader, vesselId: VesselId): ActDraft {
  const how = read.choice('how', FILTER_WAYS, 'Say how it was filtered.');
  const lossUl = read.volumeOrNone('lossUl');
  const note = read.note('note');
  read.when();
  return { kind: 'filter', vesselId, how, lossUl, note };
}

/** Cleaning an empty vessel, which may then rest until a day. */
export function buildClean(read: FormReader, vesselId: VesselId): ActDraft {
  const how = read.choice('how', CLEANING_WAYS, 'Say how it was cleaned.');
  const later = readLater(
    read.form.fields['restUntilMs'] ?? '',
    read.form.correctsMs ?? read.form.nowMs,
    read.form.localTime,
  );
  if (later.type === 'wrong') read.problem('restUntilMs', later.said.sentence, later.said.fixes);
  const restUntilMs = later.type === 'understood' ? later.atMs : null;
  if (restUntilMs !== null) read.typed['restUntilMs'] = read.raw('restUntilMs');
  const note = read.note('note');
  read.when();
  return { kind: 'cleanVessel', vesselId, how, restUntilMs, note };
}

/** A vessel goes out of the house with somebody, passes on to another, or comes back. */
export function buildLend(
  read: FormReader,
  vesselId: VesselId,
  given: { readonly isOut: boolean },
): ActDraft {
  const isBack = given.isOut && read.raw('where') !== 'other';
  const holder = isBack ? '' : read.name('holder', 'Say who has it.');
  const note = read.note('note');
  read.when();
  return { kind: 'lendVessel', vesselId, holder, note };
}
