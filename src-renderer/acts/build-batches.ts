import type { ActDraft, ActOf, Ingredient } from '#core/ledger/act.ts';
import type { BatchId, CultureId, VesselId } from '#core/ledger/ids.ts';
import type { ToldFacts } from '#core/ledger/told-facts.ts';
import { toldFromForm } from '../uses/answers.ts';
import { firstDayPaths } from '../uses/first-day.ts';
import { CULTURE_SORT_WORDS, FERMENT_KIND_WORDS } from '../words/choice-words.ts';
import type { Step } from './act-form.svelte.ts';
import { stageOrNone } from './build-liquid.ts';
import { buildReadingValues } from './build-reading.ts';
import type { FormReader } from './form-reader.ts';
import { stageAtStart } from './next-stages.ts';
import { readCost } from './read-cost.ts';

/** Kinds a keeper starts; a kept culture is begun as a culture. */
export const { cultureKeeping: _kept, ...STARTED_KINDS } = FERMENT_KIND_WORDS;

const MOST_INGREDIENTS = 60;

export function buildStartBatch(
  read: FormReader,
  given: { readonly hydrometerCalibrationCelsius: number; readonly repeatsBatchId?: BatchId | undefined },
): ActDraft {
  const name = read.name('name', 'Name the batch, for instance Windfall cider.');
  const ferment = read.choice('ferment', STARTED_KINDS, 'Say what it is to become.');
  const vesselId = read.id<VesselId>('vesselId', 'Choose the empty vessel it goes into.');
  const volumeUl = read.volume('volumeUl');
  const measured = buildReadingValues(read, { ...given, isStart: true });
  const ingredients = readIngredients(read);
  const note = read.note('note');
  read.when();
  return {
    kind: 'startBatch',
    ...{ name, ferment, vesselId, volumeUl, stage: stageAtStart(ferment), ingredients, measured, note },
    ...(given.repeatsBatchId === undefined ? {} : { repeatsBatchId: given.repeatsBatchId }),
  };
}

/** Starting a batch, and right after it what only its first day can tell, where any of that is answered. */
export function buildStartAndTell(
  read: FormReader,
  given: Parameters<typeof buildStartBatch>[1],
): ActDraft | readonly Step[] {
  const start = buildStartBatch(read, given);
  const facts = readFirstDay(read);
  if (start.kind !== 'startBatch' || Object.keys(facts).length === 0) return start;
  const { vesselId } = start;
  return [() => start, () => ({ kind: 'tellFacts', vesselId, facts })];
}

/** What is told of the first day, whether or not the form is whole yet. */
export function readFirstDay(read: FormReader): ToldFacts {
  const paths = firstDayPaths(read.choiceOrNone('ferment', STARTED_KINDS));
  if (paths.every((path) => read.raw(path) === '')) return {};
  return toldFromForm(read, { paths, before: {}, atMs: Math.round(read.form.nowMs) });
}

/** How many rows of ingredients the form shows: those filled in and one more. */
export function ingredientRows(fields: Readonly<Record<string, string>>): number {
  let rows = 1;
  for (let at = 0; at < MOST_INGREDIENTS; at += 1) {
    const filled = ['ingredient', 'amount', 'cost'].some((field) => (fields[`${field}${at}`] ?? '') !== '');
    if (filled) rows = at + 2;
  }
  return Math.min(rows, MOST_INGREDIENTS);
}

/** Ingredients as typed; a weight that is understood is kept as grams beside the text. */
function readIngredients(read: FormReader): Ingredient[] {
  const ingredients: Ingredient[] = [];
  for (let at = 0; at < MOST_INGREDIENTS; at += 1) {
    const name = read.line(`ingredient${at}`);
    const amountTyped = read.line(`amount${at}`, 60);
    if (name === '' && amountTyped === '' && read.raw(`cost${at}`) === '') continue;
    if (name === '') {
      const there = amountTyped === '' ? 'that has a cost' : `of which there is ${amountTyped}`;
      read.problem(`ingredient${at}`, `Name the ingredient ${there}.`);
    }
    const mass = read.quantityIfSound('mass', `amount${at}`);
    ingredients.push({ name, amountTyped, massUg: mass?.massUg ?? null, ...readCost(read, `cost${at}`) });
  }
  return ingredients;
}

export function buildEditBatch(read: FormReader, batchId: BatchId): ActDraft {
  const name = read.name('name');
  const ferment = read.choice('ferment', FERMENT_KIND_WORDS, 'Say what it is.');
  return { kind: 'editBatch', batchId, name, ferment, note: read.note('note') };
}

export function buildNote(read: FormReader, about: ActOf<'note'>['about']): ActDraft {
  const text = read.note('text');
  if (text === '') read.problem('text', 'Write the note first.');
  read.when();
  return { kind: 'note', about, text };
}

export function buildPitchYeast(read: FormReader, vesselId: VesselId): ActDraft {
  const source = read.raw('source');
  const cultureId =
    source === 'packet' ? null : read.id<CultureId>('cultureId', 'Choose the yeast, or describe a packet.');
  const yeast = source === 'packet' ? read.line('yeast') : '';
  if (source === 'packet' && yeast === '') read.problem('yeast', 'Write what is on the packet.');
  const massUg = read.quantity('mass', 'massUg')?.massUg ?? null;
  read.when();
  return { kind: 'pitchYeast', vesselId, cultureId, yeast, massUg };
}

/** Putting a mother or raw vinegar to work: from a culture and its jar, or bought. */
export function buildSeed(read: FormReader): ActDraft {
  const vesselId = read.id<VesselId>('vesselId', 'Choose the vessel that is to be seeded.');
  const isBought = read.raw('source') === 'bought';
  const cultureId = isBought ? null : read.id<CultureId>('cultureId', 'Choose the culture.');
  const fromVesselId = isBought ? null : read.idOrNone<VesselId>('fromVesselId');
  const what = isBought ? read.line('what') : '';
  if (isBought && what === '')
    read.problem('what', 'Write what was bought, for instance raw cider vinegar with mother.');
  const volumeUl = read.volumeOrNone('volumeUl');
  const toStage = stageOrNone(read, 'toStage') ?? 'vinegar';
  read.when();
  return { kind: 'seed', vesselId, cultureId, fromVesselId, volumeUl, what, toStage };
}

export function buildAddCulture(read: FormReader): ActDraft {
  const name = read.name('name', 'Name the culture, for instance Old Bess.');
  const sort = read.choice('sort', CULTURE_SORT_WORDS, 'Say what sort of culture it is.');
  const parentCultureId = read.idOrNone<CultureId>('parentCultureId');
  const source = read.note('source');
  const note = read.note('note');
  const vesselId = read.idOrNone<VesselId>('vesselId');
  const standing = vesselId === null ? null : { vesselId, volumeUl: read.volume('volumeUl') };
  if (vesselId === null && read.raw('volumeUl') !== '') {
    read.problem(
      'vesselId',
      'A volume is given, but no vessel it stands in. Choose one, or clear the volume.',
    );
  }
  read.when();
  return { kind: 'addCulture', name, sort, source, note, parentCultureId, standing };
}

export function buildEditCulture(read: FormReader, cultureId: CultureId): ActDraft {
  const name = read.name('name');
  const sort = read.choice('sort', CULTURE_SORT_WORDS, 'Say what sort of culture it is.');
  return { kind: 'editCulture', cultureId, name, sort, source: read.note('source'), note: read.note('note') };
}

export function buildFeedCulture(read: FormReader, cultureId: CultureId): ActDraft {
  const text = read.note('text');
  if (text === '') read.problem('text', 'Say what it was fed, for instance 200 ml of cider.');
  read.when();
  return { kind: 'feedCulture', cultureId, text };
}
