import type { ActOf } from './act.ts';
import type { ChangeSet } from './change-set.ts';
import { isRefusal, usableVessel } from './decide-vessels.ts';
import { filledVessel, leaveRest, overfilled } from './fill-amounts.ts';
import { writeFlow } from './flows.ts';
import type { BatchId } from './ids.ts';
import type { LedgerError } from './ledger-error.ts';
import { partLiquid, type Liquid } from './liquid.ts';
import {
  addMasses,
  HELD_MAX_UG,
  negateMasses,
  scaleMasses,
  tidyMasses,
  totalUg,
  unassayed,
  waterUg,
  type Masses,
} from './masses.ts';
import { evaporated, invert } from './reactions.ts';
import type { ComposedBy, FillRecord, StageSpanRecord } from './records.ts';
import type { FilledStage } from './stage.ts';

export function startBatch(book: ChangeSet, act: ActOf<'startBatch'>): LedgerError | null {
  const vessel = usableVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(vessel)) return vessel;
  const held = book.get('fill', act.vesselId);
  if (held !== null) {
    return { type: 'VesselNotEmpty', field: 'vesselId', vesselNumber: vessel.number, holdsUl: held.volumeUl };
  }
  const refused = overfilled(vessel, 0, act.volumeUl, 'volumeUl');
  if (refused !== null) return refused;
  if (book.reader.batchCodeTaken(act.code)) {
    return { type: 'AlreadyTaken', field: 'code', what: 'batch code', value: act.code };
  }
  const { happenedAtMs, entryId } = book.context;
  book.put('batch', {
    ...{ id: act.batchId, code: act.code, name: act.name, ferment: act.ferment, note: act.note },
    ...{ startedAtMs: happenedAtMs, startedUl: act.volumeUl, ingredients: act.ingredients },
    ...{ parentBatchId: null, parentUl: null, keepsCultureId: null },
  });
  const must = newLiquid(act.batchId, act.volumeUl, act.massesUg);
  book.put('fill', {
    ...{ id: act.vesselId, batchId: act.batchId, stage: act.stage, ...must },
    ...{ stageSinceMs: happenedAtMs, sinceMs: happenedAtMs, cultureId: null, pull: null },
    ...{ composedAtMs: happenedAtMs, composedBy: 'start' as const, settledAtMs: happenedAtMs },
    ...{ trail: [], onLees: false },
  });
  writeSpan(book, act.batchId, act.vesselId, act.stage);
  if (act.measured !== null) {
    book.put('reading', {
      ...{ id: entryId, vesselId: act.vesselId, batchId: act.batchId },
      ...{ atMs: happenedAtMs, values: act.measured },
    });
  }
  book.pour('store', act.vesselId, must);
  return null;
}

/** Liquid that comes into the cellar as an origin of its own. What was not assayed is counted as such. */
export function newLiquid(batchId: BatchId, volumeUl: number, massesUg: Masses | undefined): Liquid {
  return {
    volumeUl,
    massesUg: tidyMasses(massesUg ?? unassayed(volumeUl)),
    origins: { [batchId]: volumeUl },
  };
}

export function editBatch(book: ChangeSet, act: ActOf<'editBatch'>): LedgerError | null {
  const batch = book.get('batch', act.batchId);
  if (batch === null) return { type: 'NotFound', field: 'batchId', what: 'batch', id: act.batchId };
  book.put('batch', { ...batch, name: act.name, ferment: act.ferment, note: act.note });
  return null;
}

export function addTo(book: ChangeSet, act: ActOf<'addTo'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  const { vessel, fill } = filled;
  if (act.volumeUl === 0 && act.ingredient.amountTyped === '' && act.ingredient.massUg === null) {
    return { type: 'NothingToAdd', field: 'volumeUl' };
  }
  const refused = overfilled(vessel, fill.volumeUl, act.volumeUl, 'volumeUl');
  if (refused !== null) return refused;
  const added = addedMasses(act);
  const inverted = act.what === 'sugar' ? invert(added.sugar ?? 0, fill.massesUg.water ?? 0) : {};
  const liquid = book.join(fill.id, [fill, { volumeUl: act.volumeUl, massesUg: added, origins: {} }]);
  const massesUg = addMasses(liquid.massesUg, inverted);
  book.put('fill', { ...composed(book, fill, act.what), ...liquid, massesUg });
  const { entryId: id, happenedAtMs: atMs } = book.context;
  const { what, ingredient, volumeUl } = act;
  book.put('addition', { id, vesselId: vessel.id, batchId: fill.batchId, atMs, what, ingredient, volumeUl });
  // Juice and fruit are liquids of their own, of which nothing was told.
  if (what === 'juice' || what === 'fruit') {
    writeFlow(book, { from: null, to: fill, volumeUl, ontoNothing: false });
  }
  book.post('store', act.vesselId, act.volumeUl, added);
  book.post('conversion', act.vesselId, 0, inverted);
  return null;
}

/** What an addition weighs: as assayed, else its weight or that of its volume, counted as never assayed. */
function addedMasses({ massesUg, ingredient, volumeUl }: ActOf<'addTo'>): Masses {
  if (massesUg !== undefined) return tidyMasses(massesUg);
  return ingredient.massUg === null ? unassayed(volumeUl) : tidyMasses({ unassayed: ingredient.massUg });
}

export function recordReading(book: ChangeSet, act: ActOf<'recordReading'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  book.put('reading', {
    ...{ id: book.context.entryId, vesselId: act.vesselId, batchId: filled.fill.batchId },
    ...{ atMs: book.context.happenedAtMs, values: act.values },
  });
  return null;
}

/** Keeps what the keeper told. Telling nothing is refused. */
export function tellFacts(book: ChangeSet, act: ActOf<'tellFacts'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  if (Object.keys(act.facts).length === 0) return { type: 'NothingToAdd', field: 'facts' };
  book.put('told', {
    ...{ id: book.context.entryId, vesselId: act.vesselId, batchId: filled.fill.batchId },
    ...{ atMs: book.context.happenedAtMs, facts: act.facts },
  });
  return null;
}

/** Heating changes what a reading says, so earlier ones are stale from now on; the heat itself is told as a fact. */
export function heat(book: ChangeSet, act: ActOf<'heat'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  book.put('fill', composed(book, filled.fill, 'heat'));
  book.put('told', {
    ...{ id: book.context.entryId, vesselId: act.vesselId, batchId: filled.fill.batchId },
    ...{ atMs: book.context.happenedAtMs, facts: { heating: heatingTold(act) } },
  });
  return null;
}

function heatingTold(act: ActOf<'heat'>) {
  return {
    reachedCelsius: { value: act.reachedCelsius, uncertainty: null, method: 'thermometer' as const },
    ...{ simmered: null, minutes: act.minutes, pot: null, calledPasteurised: null, bottleGlass: null },
  };
}

export function overrule(book: ChangeSet, act: ActOf<'overrule'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  book.put('overruling', {
    ...{ id: book.context.entryId, vesselId: act.vesselId, batchId: filled.fill.batchId },
    ...{ use: act.use, reason: act.reason, atMs: book.context.happenedAtMs },
  });
  return null;
}

export function changeStage(book: ChangeSet, act: ActOf<'changeStage'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  if (filled.fill.stage === act.stage) return { type: 'SameStage', field: 'stage', stage: act.stage };
  book.put('fill', inStage(book, filled.fill, act.stage));
  return null;
}

export function settleVolume(book: ChangeSet, act: ActOf<'settleVolume'>): LedgerError | null {
  const filled = filledVessel(book, act.vesselId, 'vesselId');
  if (isRefusal(filled)) return filled;
  const { vessel, fill } = filled;
  const refused = overfilled(vessel, 0, act.volumeUl, 'volumeUl');
  if (refused !== null) return refused;
  const lostUl = fill.volumeUl - act.volumeUl;
  if (lostUl === 0) return { type: 'NothingToAdd', field: 'volumeUl' };
  if (totalUg(fill.massesUg) * (act.volumeUl / fill.volumeUl) > HELD_MAX_UG) {
    return { type: 'TooHeavy', field: 'volumeUl', mostUg: HELD_MAX_UG };
  }
  if (lostUl < 0) found(book, fill, -lostUl);
  else if (act.cause === 'evaporation') evaporate(book, fill, lostUl);
  else {
    const [gone, rest] = partLiquid(fill, [lostUl]);
    if (gone !== undefined) book.pour(act.vesselId, act.cause === 'loss' ? 'loss' : 'unexplained', gone);
    leaveRest(book, fill, rest);
  }
  return null;
}

/** More stands there than the book says: of what stands there, nobody knows from where. */
function found(book: ChangeSet, fill: FillRecord, moreUl: number): void {
  const more = scaleMasses(fill.massesUg, moreUl, fill.volumeUl);
  const massesUg = addMasses(fill.massesUg, more);
  book.put('fill', { ...fill, volumeUl: fill.volumeUl + moreUl, massesUg });
  book.post('unexplained', fill.id, moreUl, more);
}

/** Water and alcohol leave, all else stays and grows stronger: the tokens of its origins stay too. */
function evaporate(book: ChangeSet, fill: FillRecord, lostUl: number): void {
  const vapour = evaporated(fill.massesUg, waterUg(lostUl));
  const massesUg = addMasses(fill.massesUg, negateMasses(vapour));
  book.put('fill', { ...fill, volumeUl: fill.volumeUl - lostUl, massesUg });
  book.post(fill.id, 'air', lostUl, vapour);
}

export function note(book: ChangeSet, act: ActOf<'note'>): LedgerError | null {
  const { about } = act;
  switch (about.kind) {
    case 'vessel':
      return book.get('vessel', about.vesselId) === null
        ? { type: 'NotFound', field: 'about', what: 'vessel', id: about.vesselId }
        : null;
    case 'batch':
      return book.get('batch', about.batchId) === null
        ? { type: 'NotFound', field: 'about', what: 'batch', id: about.batchId }
        : null;
    case 'culture':
      return book.get('culture', about.cultureId) === null
        ? { type: 'NotFound', field: 'about', what: 'culture', id: about.cultureId }
        : null;
  }
}

/** The fill with its composition marked as changed now: earlier readings no longer describe it. */
export function composed(book: ChangeSet, fill: FillRecord, by: ComposedBy): FillRecord {
  return { ...fill, composedAtMs: Math.max(fill.composedAtMs, book.context.happenedAtMs), composedBy: by };
}

/** The fill in another stage from now on, with the span written for the stage band. */
export function inStage(book: ChangeSet, fill: FillRecord, stage: FilledStage): FillRecord {
  if (fill.stage === stage) return fill;
  writeSpan(book, fill.batchId, fill.id, stage);
  const onLees = stage === 'yeast' || stage === 'settling' ? true : fill.onLees;
  return { ...fill, stage, stageSinceMs: book.context.happenedAtMs, onLees };
}

/** Liquid that is kept apart keeps apart what it is poured into. */
export function apartWith(
  book: ChangeSet,
  there: FillRecord,
  poured: readonly Pick<FillRecord, 'stage'>[],
): FillRecord {
  return poured.some(({ stage }) => stage === 'quarantine') ? inStage(book, there, 'quarantine') : there;
}

/** An act that fills or stages several vessels writes a span of each: the first under its own id, the others numbered. */
export function writeSpan(
  book: ChangeSet,
  batchId: FillRecord['batchId'],
  vesselId: FillRecord['id'],
  stage: FilledStage,
): void {
  const { entryId, happenedAtMs: fromMs } = book.context;
  let id: string = entryId;
  for (let number = 2; isOfAnother(book.get('stageSpan', id)); number += 1) id = `${entryId}-${number}`;
  book.put('stageSpan', { id, batchId, vesselId, stage, fromMs });

  function isOfAnother(span: StageSpanRecord | null): boolean {
    return span !== null && (span.vesselId !== vesselId || span.batchId !== batchId);
  }
}
